"""Lengths in millimetres, exactly (1 in = 127/5 mm), and tolerances that are an angle or a length."""

import re
from dataclasses import dataclass
from fractions import Fraction

from crankwise.errors import BadAngle, BadLength, BadNumber
from crankwise.exact.angle import read_angle
from crankwise.exact.number import MOST_DIGITS, PI, is_none, read_number, shown

INCH = Fraction(127, 5)
"""Millimetres in an inch; exact since 1959."""

STRAIGHT_MM = Fraction(127_000)
"""Round the wheel that a straight slide is reckoned as: 127 m, which is 5,000 in, so that both systems come out
whole. No slide is half so long, so that nothing on it ever comes round
(docs/decisions/0016-a-slide-is-a-very-large-wheel.md)."""

_UNITS = {
    "mm": Fraction(1),
    "um": Fraction(1, 1000),
    "\u00b5m": Fraction(1, 1000),
    "\u03bcm": Fraction(1, 1000),
    "in": INCH,
    "inch": INCH,
    "inches": INCH,
    '"': INCH,
    "\u2033": INCH,
    "thou": INCH / 1000,
}
INCH_MARKS = ('"', "\u2033")
_TOLERANCE_HELP = """write an angle as 30arcsec, 30" or 0.5', or a length at the rim as 20um or 1thou"""
_WITH_UNIT = re.compile(r"(?P<number>.*?)\s*(?P<unit>[a-z\u00b5\u03bc\x22\u2033]*)\s*", re.DOTALL)


def read_length(text: str, what: str = "length", marks_inches: bool = True) -> Fraction:
    """Return a length in millimetres, exactly, from 200, 200mm, 8 in, 8", 7 7/8 in, 20 um or 2 thou.

    marks_inches  whether the mark " means inches; not where it could as well mean seconds of arc

    A bare number is millimetres. Raises BadLength when it cannot be read or the unit is unknown.

    >>> read_length("1 in")
    Fraction(127, 5)
    """
    plain = text.strip()
    match = _WITH_UNIT.fullmatch(plain.lower()) if len(plain) <= MOST_DIGITS else None
    unit = match["unit"] if match else ""
    try:
        if match and unit in ("", *_UNITS) and (marks_inches or unit not in INCH_MARKS):
            return read_number(match["number"], what) * _UNITS.get(unit, 1)
    except BadNumber:
        pass
    raise BadLength(what, f"{is_none(plain, 'a length')}; write it as 200mm, 8in, 20um or 2thou")


def read_diameter(text: str, what: str = "diameter") -> Fraction:
    """Return a diameter in millimetres, above 0; a bare number is millimetres. Raises BadLength."""
    diameter = read_length(text, what)
    if diameter <= 0:
        raise BadLength(what, f"{text.strip()} is not above 0; write it as 200mm or 8in")
    return diameter


def along(turns: Fraction) -> Fraction:
    """Return how far along a slide a place lies, in millimetres, that is so many turns of its wheel from the start.

    >>> along(Fraction(1, 127_000))
    Fraction(1, 1)
    """
    return turns * STRAIGHT_MM


def rim_length(turns: Fraction, rim_mm: Fraction) -> Fraction:
    """Return the length along a rim, in millimetres, that an angle covers.

    turns   the angle, in turns
    rim_mm  the rim's diameter in millimetres

    Source: arc = angle x circumference; pi to fifty decimals.
    """
    return turns * PI * rim_mm


@dataclass(frozen=True, slots=True)
class Tolerance:
    """How far out a position may be, to either side: an angle in turns, or a length at the rim in mm."""

    turns: Fraction | None = None
    rim_mm: Fraction | None = None

    def as_turns(self, rim_diameter_mm: Fraction | None) -> Fraction:
        """Return the tolerance as an angle in turns, for a rim of this diameter.

        Raises BadLength when the tolerance is a length and no rim is given.
        """
        if self.turns is not None:
            return self.turns
        if rim_diameter_mm is None:
            raise BadLength(
                "within",
                "a length at the rim needs the rim's diameter too, as --rim 200mm; "
                "or give an angle, as 30arcsec",
            )
        return (self.rim_mm or Fraction(0)) / (PI * rim_diameter_mm)

    def along_a_slide(self) -> Fraction:
        """Return the tolerance for work along a slide, in turns of the wheel that a slide is reckoned as.

        Raises BadLength when it is an angle.
        """
        if self.rim_mm is None:
            raise BadLength(
                "within", "an angle, and this is cut along a slide; give a length, as 20um or 1thou"
            )
        return self.rim_mm / STRAIGHT_MM


def read_tolerance(text: str) -> Tolerance:
    """Return a tolerance from 30", 0.5', 0.01 deg or 45arcsec, or from 20um, 0.02mm, 1thou, 0.001in.

    The mark " means seconds of arc here, never inches. A bare number is refused, since nobody can
    know what was meant. Raises BadLength.
    """
    plain = text.strip()
    if not plain or re.fullmatch(r"[-+\d./\s]+", plain):
        raise BadLength("within", f"{shown(plain)} has no unit; {_TOLERANCE_HELP}")
    try:
        length = read_length(plain, "within", marks_inches=False)
    except BadLength:
        try:
            angle = read_angle(plain)
        except BadAngle:
            raise BadLength(
                "within", f"{shown(plain)} is neither an angle nor a length; {_TOLERANCE_HELP}"
            ) from None
        if angle < 0:
            raise BadLength(
                "within", f"{plain} is below 0; a tolerance is 0 or more, to either side"
            ) from None
        return Tolerance(turns=angle)
    if length < 0:
        raise BadLength("within", f"{plain} is below 0; a tolerance is 0 or more, to either side")
    return Tolerance(rim_mm=length)
