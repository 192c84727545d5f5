"""How well a scale can be read: its least spacing, its counting, its classes, as findings with stable codes.

All limits are typical, from common practice and judgement; none is a standard.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from crankwise.part.box import gap
from crankwise.part.divisions import EqualDivisions
from crankwise.part.graduated import Graduated
from crankwise.part.line_classes import MOST_LENGTHS

HARD_MM = 0.8
GOOD_MM = 1.0
TENTHS_MM = 1.5
WASTEFUL_MM = 3.0
MOST_BETWEEN_NUMERALS = 9
WIDTH_SHARES = (0.08, 0.15)
READS_AS_ONE_HEIGHTS = 1.5
"""Room between two numerals under which they may be read as one number, in heights of a figure."""
NEAR_SHARE = Fraction(2, 3)
"""Of the usual distance of two numerals: nearer than that they stand out."""
FEWEST_NUMERALS = 4
"""Numerals from which on there is a usual room, so that one that stands nearer stands out."""
_OF_SIXTY = (15, 30)


@dataclass(frozen=True, slots=True)
class ScaleFinding:
    """What is sound on a scale but worth a second look: a code that is promised, and the number it is about."""

    code: str
    value: float


def read_to(spacing_mm: float) -> Fraction:
    """Return the part of a space that can be told by eye: 1/2, 1/5 or 1/10. Typical, judgement."""
    if spacing_mm < GOOD_MM:
        return Fraction(1, 2)
    return Fraction(1, 5) if spacing_mm < TENTHS_MM else Fraction(1, 10)


def findings(work: Graduated) -> Iterator[ScaleFinding]:
    """Yield what is worth a second look, the spacing first."""
    spacing = work.least_spacing_mm
    if spacing < HARD_MM:
        yield ScaleFinding("spacing-hard-to-read", spacing)
    elif spacing > WASTEFUL_MM and not any(work.scale.texts):
        yield ScaleFinding("spacing-wide", spacing)
    share = float(work.classes.classes[0].width_mm) / spacing
    if share > WIDTH_SHARES[1]:
        yield ScaleFinding("lines-wide", share)
    if len({one.width_mm for one in work.classes.classes}) > 1:
        yield ScaleFinding("widths-differ", float(work.classes.longest.width_mm))
    if _some_have_no_class(work):
        yield ScaleFinding("lines-of-no-class", float(work.classes.classes[0].every))
    if len(work.classes.classes) > MOST_LENGTHS:
        yield ScaleFinding("many-lengths", len(work.classes.classes))
    if (heights := near_numerals(work)) is not None:
        yield ScaleFinding("numerals-near", heights)
    if work.numerals and not work.numerals.own and not any(work.scale.texts):
        yield from _counting(work)


def near_numerals(work: Graduated) -> float | None:
    """Return how many heights of a figure lie between the two nearest numerals, where these read as one number.

    They do where their lines stand less than two thirds as far apart as those of any others, and less than 1.5 heights
    are left between them: 1.2 and 0 of a dial for a lead of 1.25 mm. None where they do not. The limits are judgement.
    """
    numbered = [line for line in work.lines() if line.numeral]
    if work.numerals is None or len(numbered) < FEWEST_NUMERALS:
        return None
    beside = pairwise([*numbered, numbered[0]] if work.scale.comes_round else numbered)
    nearest, second, *_ = sorted(
        ((other.angle - one.angle) % 1, one.position, one, other) for one, other in beside
    )
    if nearest[0] >= NEAR_SHARE * second[0]:
        return None
    turns, _, one, other = nearest
    room = gap(work.numeral_box(one, 0.0), work.numeral_box(other, float(turns)))
    heights = room / float(work.numerals.lettering.height_mm)
    return heights if heights < READS_AS_ONE_HEIGHTS else None


def _some_have_no_class(work: Graduated) -> bool:
    """Whether equal lines stand where no class was asked for, as at 1 to 4 where the finest is every 5."""
    every = work.classes.classes[0].every
    equal = isinstance(work.scale.divisions, EqualDivisions)
    return equal and any((count / every).denominator > 1 for count in work.scale.counts)


def _counting(work: Graduated) -> Iterator[ScaleFinding]:
    numbered = [line.position for line in work.lines() if line.numeral]
    steps = [after - before - 1 for before, after in pairwise(numbered)]
    if steps and max(steps) > MOST_BETWEEN_NUMERALS:
        yield ScaleFinding("many-between-numerals", max(steps))
    if work.numerals and not work.numerals.texts and not work.numerals.own:
        step = work.numerals.every * work.numerals.per_count
        if not counts_by_1_2_5(step):
            yield ScaleFinding("counts-oddly", float(step))


def counts_by_1_2_5(step: Fraction) -> bool:
    """Return whether a scale counts by 1, 2 or 5, or these times a power of ten; by 15 or 30 on a circle too.

    >>> [counts_by_1_2_5(Fraction(step)) for step in ("0.2", "50", "3")]
    [True, True, False]
    """
    if step <= 0:
        return False
    if step in _OF_SIXTY:
        return True
    while step >= 10:
        step /= 10
    while step < 1:
        step *= 10
    return step in (1, 2, 5)
