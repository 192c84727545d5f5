"""Form cutters for involute teeth: each cuts a range of teeth, and its number means two things.

A cutter is named by its tooth range first. The numbers run both ways: with diametral pitch No. 1 cuts
135 teeth to a rack and No. 8 cuts 12 and 13; in many module sets No. 1 cuts 12 and 13 and No. 8 cuts 135
to a rack. A range cannot be mistaken. A cutter has the form of the fewest teeth of its range, so a
count that falls between two ranges (a virtual one is rarely whole) takes the lower: a form for more
teeth would leave the tips too thick.
Source: handbooks and makers' lists, DIN 3972 practice; from memory.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from crankwise.part.card import Quantity

NumberOrder = Literal["rack", "12"]
"""What No. 1 cuts: 135 teeth to a rack (diametral pitch sets), or 12 and 13 teeth (many module sets)."""

LEAST_TEETH_CUT = 12
_A_HAIR = 1e-9


@dataclass(frozen=True, slots=True)
class FormCutter:
    """One cutter of a set.

    number  its number where No. 1 cuts a rack; halves lie between
    least   the fewest teeth it cuts, and the teeth that it has the form of
    most    the most teeth it cuts; None up to a rack
    """

    number: Fraction
    least: int
    most: int | None

    def number_where(self, one_cuts: NumberOrder) -> Fraction:
        """Return the number engraved on it in one order or the other."""
        return self.number if one_cuts == "rack" else 9 - self.number

    @property
    def tooth_range(self) -> str:
        """The teeth it cuts, as engraved: 55-134, 135-rack, 13."""
        if self.most is None:
            return f"{self.least}-rack"
        return str(self.least) if self.most == self.least else f"{self.least}-{self.most}"

    def cuts(self, teeth: Quantity) -> bool:
        """Return whether so many teeth, or virtual teeth, fall to it."""
        return self.least <= teeth + _A_HAIR and (self.most is None or teeth + _A_HAIR < self.most + 1)


def _set(*rows: tuple[str, int, int | None]) -> tuple[FormCutter, ...]:
    return tuple(FormCutter(Fraction(number), least, most) for number, least, most in rows)


SET_OF_8 = _set(
    ("1", 135, None),
    ("2", 55, 134),
    ("3", 35, 54),
    ("4", 26, 34),
    ("5", 21, 25),
    ("6", 17, 20),
    ("7", 14, 16),
    ("8", 12, 13),
)
HALF_NUMBERS = _set(
    ("3/2", 80, 134),
    ("5/2", 42, 54),
    ("7/2", 30, 34),
    ("9/2", 23, 25),
    ("11/2", 19, 20),
    ("13/2", 15, 16),
    ("15/2", 13, 13),
)
"""Each lies at the top of a whole number's range and fits there better."""
NARROWED = tuple(
    replace(whole, most=half.least - 1)
    for whole in SET_OF_8
    for half in HALF_NUMBERS
    if whole.cuts(Fraction(half.least))
)
"""The whole numbers as a set of 15 may engrave them: each only up to its half number, as 55-79."""


@dataclass(frozen=True, slots=True)
class OwnedCutter:
    """A form cutter that somebody owns.

    cutter          its range
    module_mm       its module in mm, exactly: 25.4 / DP for a diametral pitch
    pressure_angle  in turns
    """

    cutter: FormCutter
    module_mm: Fraction
    pressure_angle: Fraction


def cutter_for(teeth: Quantity, with_halves: bool = False) -> FormCutter | None:
    """Return the cutter for so many teeth or virtual teeth; None below 12, which no set cuts.

    with_halves  whether the set has the half numbers too

    >>> cutter_for(Fraction(127)).tooth_range, cutter_for(Fraction(127), with_halves=True).number
    ('55-134', Fraction(3, 2))
    """
    return best_of(HALF_NUMBERS * with_halves + SET_OF_8, teeth)


def best_of(cutters: Iterable[FormCutter], teeth: Quantity) -> FormCutter | None:
    """Return the cutter of these whose form comes nearest: of those that cut the teeth, the narrowest range."""
    fitting = [cutter for cutter in cutters if cutter.cuts(teeth)]
    return max(fitting, key=lambda cutter: cutter.least, default=None)


def cutter_of_range(least: int, most: int | None) -> FormCutter | None:
    """Return the usual cutter of a tooth range; None where no set has such a one."""
    usual = SET_OF_8 + HALF_NUMBERS + NARROWED
    return next((one for one in usual if (one.least, one.most) == (least, most)), None)


def cutter_of_number(number: Fraction, one_cuts: NumberOrder) -> FormCutter | None:
    """Return the usual cutter of a number in one order or the other; None where there is none."""
    return next((one for one in SET_OF_8 + HALF_NUMBERS if one.number_where(one_cuts) == number), None)
