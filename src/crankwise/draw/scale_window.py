"""The part of a scale round its index line, set to a reading: what the operator should see."""

from collections.abc import Callable
from fractions import Fraction
from math import floor

from crankwise.draw.svg import element, number, picture, text
from crankwise.head.dial import Dial
from crankwise.head.ring import Ring

_HALF, _HEIGHT = 160.0, 84.0
_TOP, _LONG, _MIDDLE, _SHORT, _NUMERAL = 14.0, 44.0, 36.0, 29.0, 64.0


def dial_window(dial: Dial, reading: Fraction, grows_clockwise: bool) -> str:
    """Return the dial round a reading, the index line over it, with the numerals on either side.

    reading          in marks, from 0 to below the dial's marks
    grows_clockwise  whether a clockwise turn makes the reading grow: then the larger numbers come
                     from the left as the dial turns, as they do at the machine
    """
    between = dial.between(reading)
    near = "" if between is None else f", between {between[0]} and {between[1]}"
    side = "left" if grows_clockwise else "right"
    label = f"The dial at {_said(reading)}{near}; the larger numbers lie to the {side}"
    return _window(label, dial.marks, reading, dial.numbered_every, str, grows_clockwise)


def ring_window(ring: Ring, reading: Fraction) -> str:
    """Return the ring round a reading, in the units of its numerals, seen from the front."""
    at = reading / ring.full_circle * ring.graduations
    every = max(1, round(Fraction(10 * ring.graduations, ring.full_circle)))

    def numeral(line: int) -> str:
        value = Fraction(line * ring.full_circle, ring.graduations)
        return str(value) if value.denominator == 1 else ""

    label = f"The ring at {_said(reading)}"
    return _window(label, ring.graduations, at, every, numeral, ring.numbered == "anticlockwise")


def _said(reading: Fraction) -> str:
    return number(float(reading))


def _window(
    label: str,
    lines: int,
    at: Fraction,
    every: int,
    numeral: Callable[[int], str],
    larger_left: bool,
) -> str:
    reach = Fraction(max(every, 6)) * Fraction(5, 4)
    spacing = _HALF / float(reach)
    middle_step = every // 2 if every and every % 2 == 0 else 5
    strokes: dict[str, list[str]] = {"line": [], "line long": []}
    numerals = []
    for line in range(floor(at - reach), floor(at + reach) + 2):
        x = float(line - at) * spacing * (-1 if larger_left else 1)
        if abs(x) > _HALF + 20:
            continue
        shown = line % lines
        numbered = every > 0 and shown % every == 0
        foot = _LONG if numbered else _MIDDLE if shown % middle_step == 0 else _SHORT
        if numbered or spacing > 1.5 or foot == _MIDDLE:
            strokes["line long" if numbered else "line"].append(f"M{number(x)} {number(_TOP)}V{number(foot)}")
        if numbered and abs(x) < _HALF - 16:
            numerals.append(text(numeral(shown), x, _NUMERAL, "numeral near"))
    body = [
        element("rect", x=-_HALF, y=_TOP, width=2 * _HALF, height=_HEIGHT - _TOP, class_="body"),
        *(element("path", d="".join(drawn), class_=class_) for class_, drawn in strokes.items() if drawn),
        *numerals,
        element("path", d=f"M-7 0H7L0 {number(_TOP + 1)}Z", class_="pointer"),
        element("path", d=f"M0 {number(_TOP)}V{number(_LONG + 6)}", class_="index"),
    ]
    return picture(label, (-_HALF, 0, 2 * _HALF, _HEIGHT), body, "window")
