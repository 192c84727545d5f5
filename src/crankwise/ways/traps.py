"""What goes wrong with a number of parts on a head: rows misread, holes miscounted, a ring trusted, a worm mistaken.

Traps are values with a stable code; their words are in wording/traps.py. None of them says that a way
is wrong: they name the settings that look right and are not.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from crankwise.head.head import Head
from crankwise.head.worm import USUAL_RATIOS
from crankwise.part.divisions import Divisions, EqualDivisions
from crankwise.ways.missing import least_circle
from crankwise.ways.scale import Scale

MOST_NUMBERS = 6
MOST_AWAY = 20
"""How far a near number of a chart is looked for; those in use stand close. Judgement."""


@dataclass(frozen=True, slots=True)
class PlainSetting:
    """Whole turns and holes on a circle, made over and over with no gears."""

    circle: int
    turns: int
    holes: int


@dataclass(frozen=True, slots=True)
class RowNeedsGears:
    """Rows of a chart for the number asked are near numbers, geared up; used plain they cut those.

    cuts  near numbers, the nearest first, each with every setting that cuts it
    """

    code: ClassVar[str] = "row-needs-gears"
    divisions: int
    cuts: tuple[tuple[int, tuple[PlainSetting, ...]], ...]


@dataclass(frozen=True, slots=True)
class NearMiss:
    """One hole more or less than the setting wanted cuts another whole number, so nothing looks amiss.

    cuts  those numbers, each with the miscounted setting
    """

    code: ClassVar[str] = "near-miss"
    divisions: int
    cuts: tuple[tuple[int, PlainSetting], ...]


@dataclass(frozen=True, slots=True)
class MissingFactor:
    """Why no circle divides exactly: not that the number is prime, but that a factor is on no circle.

    turns    turns of the crank for one part
    circle   the fewest holes of a circle that would do
    factors  prime factors of the number asked, each as often as it is in it
    missing  prime factors of the circle that no circle owned has, or not as often; empty where each is
             on some circle, but all on none
    """

    code: ClassVar[str] = "missing-factor"
    divisions: int
    turns: Fraction
    circle: int
    factors: tuple[int, ...]
    missing: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class WormStarts:
    """The ratio would be another if the worm had as many starts as is easily believed.

    starts       starts of the worm by the head file
    other_ratio  the ratio if the worm were taken for the other kind
    cuts         parts that are then cut instead of the number asked
    """

    code: ClassVar[str] = "worm-starts"
    divisions: int
    starts: int
    ratio: Fraction
    other_ratio: Fraction
    cuts: Fraction


@dataclass(frozen=True, slots=True)
class SetByEye:
    """The ring meets every position, which is called exact, and yet it is set by eye and coarsely.

    ring_read_to  the least that the ring is read to, in turns of the spindle
    dial_read_to  the same of the dial; None where a hole circle meets every position too
    """

    code: ClassVar[str] = "set-by-eye"
    ring_read_to: Fraction
    dial_read_to: Fraction | None


Trap = RowNeedsGears | NearMiss | MissingFactor | WormStarts | SetByEye


def really_divides(ratio: Fraction, setting: PlainSetting) -> Fraction:
    """Return the number of parts that a plain setting really cuts; not whole where it does not come round.

    ratio    crank turns for one turn of the spindle
    setting  above no turns and no holes

    >>> really_divides(Fraction(40), PlainSetting(33, 0, 22))
    Fraction(60, 1)
    """
    return ratio / (setting.turns + Fraction(setting.holes, setting.circle))


def traps(head: Head, divisions: Divisions) -> tuple[Trap, ...]:
    """Return the traps of this number of parts on this head; none for a list of angles.

    Source: derived from plain indexing, number of parts = ratio / turns; the faults from common practice.
    """
    if head.ratio is None or not isinstance(divisions, EqualDivisions) or divisions.every != 1:
        return ()
    count, ratio = divisions.count, head.ratio
    exact = [circle for circle in head.circles if (ratio * circle / count).denominator == 1]
    found: list[Trap] = []
    if head.circles:
        if exact:
            found += _near_misses(ratio, count, exact)
        else:
            found += [_missing_factor(head, ratio, count), *_rows_that_need_gears(head, ratio, count)]
    if head.circles or head.dial:
        found += _worm_starts(head, ratio, count)
    found += _set_by_eye(head, ratio, divisions, bool(exact))
    return tuple(found)


def _rows_that_need_gears(head: Head, ratio: Fraction, count: int) -> list[RowNeedsGears]:
    away = max(3, min(count // 16, MOST_AWAY))
    near = sorted(range(max(2, count - away), count + away + 1), key=lambda other: abs(other - count))
    cuts = []
    for other in near:
        settings = tuple(
            _setting(circle, int(ratio * circle / other))
            for circle in head.circles
            if (ratio * circle / other).denominator == 1
        )
        if settings:
            cuts.append((other, settings))
    return [RowNeedsGears(count, tuple(cuts[:MOST_NUMBERS]))] if cuts else []


def _near_misses(ratio: Fraction, count: int, circles: list[int]) -> list[NearMiss]:
    """On the circles that divide exactly, the settings with one hole more or less; whole numbers alone."""
    cuts = []
    for circle in circles:
        move = int(ratio * circle / count)
        for holes in (move - 1, move + 1):
            if holes:
                setting = _setting(circle, holes)
                cut = really_divides(ratio, setting)
                if cut.denominator == 1:
                    cuts.append((int(cut), setting))
    return [NearMiss(count, tuple(cuts))] if cuts else []


def _missing_factor(head: Head, ratio: Fraction, count: int) -> MissingFactor:
    circle = least_circle(ratio, count)
    wanted = prime_factors(circle)
    missing = tuple(
        prime
        for prime in sorted(set(wanted))
        if not any(owned % prime ** wanted.count(prime) == 0 for owned in head.circles)
    )
    return MissingFactor(count, ratio / count, circle, prime_factors(count), missing)


def _worm_starts(head: Head, ratio: Fraction, count: int) -> list[WormStarts]:
    """A chart for a single start used on a worm of more, or a worm of one start reckoned as of two."""
    starts = head.worm.starts if head.worm else 1
    if starts > 1:
        return [WormStarts(count, starts, ratio, ratio * starts, Fraction(count, starts))]
    if ratio not in USUAL_RATIOS and 2 * ratio in USUAL_RATIOS:
        return [WormStarts(count, starts, ratio, 2 * ratio, Fraction(2 * count))]
    return []


def _set_by_eye(head: Head, ratio: Fraction, divisions: EqualDivisions, on_a_circle: bool) -> list[SetByEye]:
    """The ring's own graduations, where a pin in a hole or a finer dial would do the same parts."""
    if head.ring is None or not Scale(Fraction(1), head.ring.graduations).meets(divisions):
        return []
    ring_read_to = Fraction(1, head.ring.places)
    if on_a_circle:
        return [SetByEye(ring_read_to, None)]
    if head.dial and (dial_read_to := 1 / (ratio * head.dial.places)) < ring_read_to:
        return [SetByEye(ring_read_to, dial_read_to)]
    return []


def prime_factors(number: int) -> tuple[int, ...]:
    """Return the prime factors of a number from 1 to a million or so, each as often as it is in it.

    >>> prime_factors(57), prime_factors(360)
    ((3, 19), (2, 2, 2, 3, 3, 5))
    """
    factors, divisor = [], 2
    while divisor * divisor <= number:
        while number % divisor == 0:
            factors.append(divisor)
            number //= divisor
        divisor += 1
    return (*factors, number) if number > 1 else tuple(factors)


def _setting(circle: int, holes: int) -> PlainSetting:
    return PlainSetting(circle, *divmod(holes, circle))
