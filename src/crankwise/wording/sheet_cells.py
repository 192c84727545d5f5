"""The cells of a run sheet's lines: headings, figures that are set, errors, and the recap of a page."""

from fractions import Fraction
from typing import Literal, get_args

from crankwise.exact.angle import ARCSECONDS
from crankwise.exact.length import INCH, rim_length
from crankwise.head.head import Head
from crankwise.part.part import Mark, Part
from crankwise.plan.schedule import Row
from crankwise.ways.way import Setting, Way
from crankwise.wording.figures import decimal
from crankwise.wording.settings import reading_text, whole_turns

SetHere = Literal["notches", "second wheel", "turns", "hole", "back pin", "circle", "dial", "ring", "steps"]
"""What can be set at one position, in the order in which it is done."""


def set_here(setting: Setting) -> dict[SetHere, str]:
    """Return the figures of a setting, each under what is set, in the order in which it is done.

    A reading alone is the ring's; with turns or a hole it is the dial's.

    >>> set_here(Setting(turns=31, reading=Fraction(113, 2)))
    {'turns': '31', 'dial': '56.5'}
    """
    holes = setting.holes or ()
    on_crank = setting.turns is not None or setting.holes is not None
    reading = None if setting.reading is None else reading_text(setting.reading)
    figures: dict[SetHere, str | None] = {
        "notches": _figure(setting.notches),
        "second wheel": None if setting.second_notches is None else _with_way(setting.second_notches),
        "turns": _figure(setting.turns),
        "hole": _figure(holes[0] if holes else None),
        "back pin": _with_way(holes[1]) if len(holes) > 1 else None,
        "circle": _figure(setting.circle),
        "dial": reading if on_crank else None,
        "ring": None if on_crank else reading,
        "steps": _figure(setting.steps),
    }
    assert list(figures) == list(get_args(SetHere))
    return {name: figure for name, figure in figures.items() if figure is not None}


def in_its_notch(way: Way, setting: Setting) -> Setting:
    """Return a setting with the notch that the detent is in, where its count has gone on past the wheel's last one.

    The notches are numbered from 0 at the start, so what closes the circle is in notch 0 again, not in notch 48 of 48.
    """
    if setting.notches is None:
        return setting
    return setting._replace(notches=setting.notches % named(way, "wheel")[0])


def set_heading(name: SetHere, way: Way, setting: Setting, unit: str) -> tuple[str, str]:
    """Return what the column of one figure is headed, in two lines.

    setting  any of the way, to see what else is set with it
    unit     of the ring's numerals
    """
    circles, wheels = named(way, "circle"), named(way, "wheel")
    match name:
        case "notches":
            return "detent in", f"notch of {wheels[0]}"
        case "second wheel":
            return "carrier", f"notch of {wheels[1]}"
        case "turns":
            return "whole turns", "since zero"
        case "hole":
            return "pin in hole", "" if setting.circle else f"{circles[0]} circle"
        case "back pin":
            return "back pin", f"{circles[1]} circle"
        case "circle":
            return "on the", "circle"
        case "dial":
            return ("dial from 0", "on by") if setting.holes is not None else ("come up to", "dial reading")
        case "ring":
            return "come up to", f"ring, {unit}"
        case "steps":
            return "drive to", "step"


def named(way: Way, kind: str) -> tuple[int, ...]:
    """Return the circles or the wheels that a way is set on, the first one first.

    kind  circle or wheel
    """
    found = way.setup.get(f"{kind}s", way.setup.get(kind, ()))
    return found if isinstance(found, tuple) else (int(str(found)),)


def place_text(setting: Setting) -> str:
    """Return a setting in the shortest words, for the end of a page: 31 turns + 56.5."""
    figures = set_here(setting)
    pieces = {
        "notches": "notch {}",
        "second wheel": "carrier {}",
        "hole": "hole {}",
        "back pin": "back pin {}",
        "circle": "circle {}",
        "dial": "dial {}" if setting.holes is not None else "{}",
        "ring": "ring {}",
        "steps": "step {}",
    }
    told = [
        whole_turns(int(figure)) if name == "turns" else pieces[name].format(figure)
        for name, figure in figures.items()
    ]
    return (" + " if list(figures) == ["turns", "dial"] else ", ").join(told)


def _figure(count: int | None) -> str | None:
    return None if count is None else str(count)


def _with_way(count: int) -> str:
    """A count on with the crank, or against it: +9, −4."""
    return f"+{count}" if count > 0 else f"−{-count}" if count else "0"


def page_ends_at(last: str, last_place: str, following: str, following_place: str) -> str:
    """Return where a page ends and what comes next, in the words of its last line."""
    return f"Page ends at position {last}: {last_place}.   Next: position {following}: {following_place}."


def page_follows(before: str, before_place: str, first: str, first_place: str) -> str:
    """Return where the page before ended and what comes first here."""
    return f"Page before ended at position {before}: {before_place}.   Here first: position {first}: {first_place}."


def past_numeral(head: Head, reading: Fraction) -> str:
    """Return a dial reading as the numeral last passed and the marks past it: 50 + 6.5; empty without numerals."""
    numerals = head.dial.between(reading) if head.dial else None
    if numerals is None:
        return ""
    lower, _ = numerals
    return f"on {lower}" if reading == lower else f"{lower} + {reading_text(reading - lower)}"


def position_label(row: Row, first: int) -> str:
    """Return a position's number; the first one met again as 0 = 149."""
    number = row.reached.position
    return f"{first} = {number}" if row.closing else str(number)


def row_label(part: Part, row: Row) -> str:
    """Return a position's number; on a closing row also that of the position met again, the first of its pass.

    In a pass over every 5th position but not every 10th of 149 that is 5 = 154.
    """
    divisions = part.divisions
    return position_label(row, row.reached.position - (divisions.closing_number - divisions.numbers[0]))


def beyond_the_cut(part: Part) -> dict[int, str]:
    """Return what is done at each position beyond the cut: long line, numeral 12, and any note."""
    numbers = (number for number, _ in part.divisions.targets())
    return {number: _mark_text(mark) for number, mark in zip(numbers, part.marks, strict=False)}


def _mark_text(mark: Mark) -> str:
    line = f"{mark.line_class} line" if mark.line_class else ""
    numeral = f"numeral {mark.numeral}" if mark.numeral else ""
    return ", ".join(filter(None, (line, numeral, mark.note)))


def signed_arcseconds(error: Fraction) -> str:
    """Return an error with its sign, positive the way the work advances: +20.3", -34.7", 0."""
    return _signed(error * ARCSECONDS, 1, '"')


def signed_rim(error: Fraction, rim_mm: Fraction) -> tuple[str, str]:
    """Return an error at the rim in micrometres and in thousandths of an inch, with its sign."""
    length = rim_length(error, rim_mm)
    return _signed(length * 1000, 1, " µm"), _signed(length / INCH * 1000, 2, " thou")


def ring_check_text(head: Head, reading: Fraction | None) -> str:
    """Return what the ring must show, to two decimals, with ° where its numerals come to 360."""
    ring = head.ring
    if ring is None or reading is None:
        return ""
    text = decimal(reading, 2)
    text = decimal(Fraction(text) % ring.full_circle, 2)  # 359.999 is shown as 0.00, not as 360.00
    return f"{text}°" if ring.full_circle == 360 else text


def ring_unit(head: Head) -> str:
    """Return the unit of the ring's numerals in words, for a heading."""
    full_circle = head.ring.full_circle if head.ring else 360
    return {360: "degrees", 400: "gon"}.get(full_circle, f"{full_circle} to the circle")


def _signed(value: Fraction, places: int, unit: str) -> str:
    if value == 0:
        return "0"
    text = decimal(abs(value), places)
    if not text.strip("0."):
        return f"under {decimal(Fraction(1, 10**places), places)}{unit}"
    return f"{'+' if value > 0 else '−'}{text}{unit}"
