"""Angles as a person types them, read as exact fractions of a turn."""

import re
from fractions import Fraction

from crankwise.errors import BadAngle, BadNumber
from crankwise.exact.listed import listed
from crankwise.exact.number import MOST_DIGITS, PI, is_none, read_number, shown

ARCSECONDS = 1_296_000
"""Seconds of arc in a turn: 360 x 60 x 60."""

_UNITS = {
    "turn": Fraction(1),
    "turns": Fraction(1),
    "rad": 1 / (2 * PI),
    "gon": Fraction(1, 400),
    "deg": Fraction(1, 360),
    "degrees": Fraction(1, 360),
    "arcmin": Fraction(1, 21_600),
    "arcsec": Fraction(1, ARCSECONDS),
}
_ORDINARY_MARKS = str.maketrans({"\u2032": "'", "\u2019": "'", "\u2033": '"', "\u201d": '"', "\u00ba": "°"})
_SEXAGESIMAL = re.compile(
    r"""\s*(?P<sign>[-+−]?)\s*
    (?:(?P<degrees>[\d./\s]*[\d.])\s*[°d]\s*)?
    (?:(?P<minutes>[\d./\s]*[\d.])\s*['m]\s*)?
    (?:(?P<seconds>[\d./\s]*[\d.])\s*(?:"|''|s)\s*)?""",
    re.VERBOSE,
)
_WITH_UNIT = re.compile(r"(?P<number>.*?)\s*(?P<unit>[a-z]+)\s*", re.DOTALL)
_HELP = (
    """write degrees as 12.5, 12°34'56.7" or 12d34m56.7s, or name the unit: 1/127 turn, 0.3 rad, 400/9 gon"""
)


def read_angle(text: str, what: str = "angle") -> Fraction:
    """Return an angle as an exact fraction of a turn; below 0 and above 1 are kept as they are.

    text  degrees (12.5), degrees-minutes-seconds (12°34'56.7" or 12d34m56.7s), or a number with
          a unit: turn, deg, arcmin, arcsec, gon, rad. Fractions are read: 1/127 turn, 400/9 gon.
    what  what the angle is, to lead the sentence where it cannot be read

    A radian is no exact part of a turn: it is taken with pi to fifty decimals.
    Raises BadAngle when it cannot be read, or when minutes or seconds reach 60.

    >>> read_angle("12d30m"), read_angle("1/127 turn")
    (Fraction(5, 144), Fraction(1, 127))
    """
    plain = text.translate(_ORDINARY_MARKS).strip().lower()
    if len(plain) > 3 * MOST_DIGITS:
        raise BadAngle(what, f"{is_none(text, 'an angle')}; {_HELP}")
    try:
        match = _SEXAGESIMAL.fullmatch(plain)
        if match and any(match.group("degrees", "minutes", "seconds")):
            return _sexagesimal(match, text, what)
        with_unit = _WITH_UNIT.fullmatch(plain)
        if with_unit and with_unit["unit"] in _UNITS:
            return read_number(with_unit["number"], what) * _UNITS[with_unit["unit"]]
        if with_unit and with_unit["number"]:
            raise BadAngle(what, f"{with_unit['unit']!r} in {shown(text)} is not a unit of angle; {_HELP}")
        return read_number(plain, what) / 360
    except BadNumber:
        raise BadAngle(what, f"{is_none(text, 'an angle')}; {_HELP}") from None


def _sexagesimal(match: "re.Match[str]", text: str, what: str) -> Fraction:
    parts = [match["degrees"], match["minutes"], match["seconds"]]
    values = [read_number(part, what) if part else Fraction(0) for part in parts]
    given = [index for index, part in enumerate(parts) if part]
    for index in given[1:]:
        if values[index] >= 60:
            name = ("degrees", "minutes", "seconds")[index]
            raise BadAngle(
                what, f"{shown(text)} has {parts[index]} {name}; after a larger unit, {name} stay below 60"
            )
    for index in given[:-1]:
        if values[index].denominator != 1:
            raise BadAngle(
                what,
                f"{shown(text)} has a part of a unit before a smaller unit; only the last may have decimals",
            )
    total = (values[0] * 3600 + values[1] * 60 + values[2]) / ARCSECONDS
    return -total if match["sign"] not in ("", "+") else total


def read_angles(text: str) -> tuple[Fraction, ...]:
    """Return a list of angles, in turns, as typed: separated by commas, semicolons or new lines.

    Raises BadAngle naming the place in the list that cannot be read.
    """
    pieces = listed(text, "angles", ",;", by_lines=True)
    if not pieces:
        raise BadAngle("angles", "the list is empty; separate the angles by commas, as 0, 12.5, 30°15'")
    return tuple(read_angle(piece, f"angle {number} of the list") for number, piece in enumerate(pieces, 1))
