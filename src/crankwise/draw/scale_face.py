"""A whole scale seen from the front: the dial on the crank, or the ring on the spindle."""

from collections.abc import Callable
from math import ceil

from crankwise.draw.svg import element, number, on_circle, picture, spokes, text
from crankwise.head.dial import Dial
from crankwise.head.ring import Ring

MOST_LINES = 1440
"""Lines drawn one by one; a finer scale is drawn thinned, and its label says so."""

_MOST_NUMERALS = 40
_COARSE = 160
_RIM, _LONG, _MIDDLE, _SHORT, _NUMERAL = 92.0, 76.0, 80.0, 85.0, 64.0


def dial_face(dial: Dial) -> str:
    """Return the dial as the operator sees it, at zero.

    Where a clockwise turn makes the reading grow, the numbers run anticlockwise: the dial turns under
    a fixed index line. Source: common practice.
    """
    clockwise = dial.clockwise == "decreases"
    way = "clockwise" if clockwise else "anticlockwise"
    numbered = f"numbered every {dial.numbered_every}" if dial.numbered_every else "without numerals"
    label = f"Dial of {dial.marks} marks, {numbered}, its numbers running {way}"
    return _face(label, dial.marks, dial.numbered_every, str, clockwise, "face dial")


def ring_face(ring: Ring) -> str:
    """Return the ring as it is seen from the front, at zero; numerals at twelve places at most."""
    every = next(
        (count for count in range(ceil(ring.graduations / 12), ring.graduations) if _divides(count, ring)), 0
    )

    def numeral(line: int) -> str:
        return str(line * ring.full_circle // ring.graduations)

    label = f"Ring of {ring.graduations} graduations, {ring.full_circle} to a full circle, numbered {ring.numbered}"
    return _face(label, ring.graduations, every, numeral, ring.numbered == "clockwise", "face ring")


def _divides(every: int, ring: Ring) -> bool:
    """Whether numerals so many lines apart are whole numbers and go into the ring a whole number of times."""
    return ring.graduations % every == 0 and every * ring.full_circle % ring.graduations == 0


def _face(
    label: str, lines: int, every: int, numeral: Callable[[int], str], clockwise: bool, class_: str
) -> str:
    thinned = -(-lines // MOST_LINES)
    way = 1 if clockwise else -1

    def place(line: int) -> float:
        return way * line / lines

    drawn = range(0, lines, thinned)
    long = [line for line in drawn if every and line % every == 0]
    middle_step = every // 2 if every % 2 == 0 and every else 5
    middle = [line for line in drawn if line % middle_step == 0 and line not in set(long)]
    others = set(long) | set(middle)
    step = every * -(-len(long) // _MOST_NUMERALS) if every else 0
    numerals = []
    for line in long:
        if step and line % step == 0:
            x, y = on_circle(place(line), _NUMERAL)
            numerals.append(text(numeral(line), x, y, "numeral"))
    if thinned > 1:
        label += f"; only one line in {thinned} is drawn"
    body = [
        element("circle", r=_RIM, class_="body"),
        spokes((place(line) for line in drawn if line not in others), _SHORT, _RIM, "line"),
        spokes(map(place, middle), _MIDDLE, _RIM, "line"),
        spokes(map(place, long), _LONG, _RIM, "line long"),
        element("g", "".join(numerals), class_="many" if len(numerals) > 24 else "few"),
        element("circle", r=8, class_="hub"),
        element("path", d=f"M0 {number(-_RIM - 1)}V-104M-3 -104H3", class_="index"),
    ]
    fine = " fine" if lines > _COARSE else ""
    return picture(label, (-106, -106, 212, 212), body, class_ + fine)
