"""Settings corrected for a head's known errors: each is the place that really comes nearest to its target.

A scale that knows the errors of its head says of each place where that really puts the work; every way
that sets the nearest place of a scale then corrects itself, with its own settings and its own words. A
target is met where `place + error there - error at the start = target`.

The errors belong to places of the wheel and of the crank, so the run must begin where the measurement
began: the ring and the crank's dial at their zeros, and the dial not set anew since.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from math import lcm
from typing import NamedTuple

from crankwise.errors import BadDivisions
from crankwise.exact.angle import ARCSECONDS
from crankwise.exact.places import nearest_whole
from crankwise.head.head import Head
from crankwise.head.known_errors import KnownErrors
from crankwise.part.divisions import Divisions, EqualDivisions
from crankwise.ways.compound import circle_pairs
from crankwise.ways.dial import OnDial
from crankwise.ways.nearest_hole import NearestHole
from crankwise.ways.ranking import ranked
from crankwise.ways.scale import Scale
from crankwise.ways.stepper import OnStepper
from crankwise.ways.two_circle import TwoCircle
from crankwise.ways.way import ScaleWay, Way

THOUSANDTHS = 1000
"""Errors count to a thousandth of a second of arc: far finer than known, so every machine works out the same."""
STEPS = THOUSANDTHS * ARCSECONDS
"""Such thousandths in one turn."""
FINEST = 100_000_000
"""Places all round from where a place is as small as that thousandth; no such head is corrected."""
MOST_POSITIONS = 20_000
KEY = ":corrected="
MOST_CORRECTIONS = 100
LOOKED_AT = 359
"""Places round the spindle at which a calibration is shown: about one a degree, a prime number."""


@dataclass(frozen=True)
class CorrectedScale(Scale):
    """A scale that knows how far out its head is.

    errors      the head's, as measured
    head_ratio  crank turns for one turn of the spindle; 1 where no crank turns
    """

    errors: KnownErrors
    head_ratio: Fraction

    @property
    def key(self) -> str:
        return f"{KEY}{self.errors.date}"

    @cached_property
    def _at_start(self) -> float:
        return self._law(0.0, 0.0)

    @cached_property
    def _law(self) -> Callable[[float, float], float]:
        return self.errors.law()

    @cached_property
    def _doubt(self) -> Callable[[float, float], float]:
        return self.errors.doubt_from(0.0, 0.0)

    @cached_property
    def _worked_out(self) -> dict[int, int]:
        """Places whose error is already worked out, in steps: the same ones are asked for many times over."""
        return {}

    def _stands(self, place: int) -> tuple[float, float]:
        """Return the parts of a turn that wheel and worm stand at, at a place: what `float` makes of the exact ones."""
        bottom, top = self.all_round.numerator, place * self.all_round.denominator
        crank, crank_bottom = top * self.head_ratio.numerator, bottom * self.head_ratio.denominator
        return top % bottom / bottom, crank % crank_bottom / crank_bottom

    def _steps_out(self, place: int) -> int:
        """Return how far out the spindle is at a place, in thousandths of a second of arc."""
        steps = self._worked_out.get(place)
        if steps is None:
            steps = round((self._law(*self._stands(place)) - self._at_start) * THOUSANDTHS)
            self._worked_out[place] = steps
        return steps

    def doubt_at(self, place: int) -> float:
        """Return how surely the error at a place is known: its standard uncertainty in seconds of arc."""
        return self._doubt(*self._stands(place))

    def head_error(self, place: int) -> Fraction:
        return Fraction(self._steps_out(place), STEPS)

    def achieved(self, place: int) -> Fraction:
        return Fraction(self._achieved(place), self.all_round.numerator * STEPS)

    def _achieved(self, place: int) -> int:
        """Return where a place really puts the work, in parts of a turn: all round times STEPS of them, if whole."""
        return place * self.all_round.denominator * STEPS + self._steps_out(place) * self.all_round.numerator

    def out_by(self, place: int, target: Fraction) -> Fraction:
        """Return where a place really puts the work, less a target, in turns."""
        parts = self.all_round.numerator * STEPS
        top = self._achieved(place) * target.denominator - target.numerator * parts
        return Fraction(top, parts * target.denominator)

    def nearest(self, target: Fraction) -> int:
        """Return the place that really comes nearest to a target; of two as near, the even one.

        The error changes more slowly than the scale (a head file that says otherwise is refused), so each
        correction comes nearer to the place; its neighbours are looked at last.
        """
        # In whole numbers: a run of 20,000 positions asks for each of them several times.
        top, bottom = self.all_round.numerator, self.all_round.denominator
        wanted, out_of = target.numerator * top, target.denominator * bottom
        place, before = nearest_whole(wanted, out_of), None
        for _ in range(MOST_CORRECTIONS):
            if place == before:
                break
            before = place
            corrected = wanted * STEPS - self._steps_out(place) * target.denominator * top
            place = nearest_whole(corrected, out_of * STEPS)
        sought, denominator = wanted * STEPS, target.denominator
        return min(
            (place - 1, place, place + 1),
            key=lambda one: (abs(self._achieved(one) * denominator - sought), one % 2),
        )

    def place_of(self, achieved: Fraction) -> int:
        return self.nearest(achieved)

    def move_of(self, divisions: Divisions) -> int | None:
        return None

    def worst_error(self, divisions: Divisions) -> Fraction:
        return max(abs(self.out_by(self.nearest(target), target)) for _, target in divisions.targets())


class Compared(NamedTuple):
    """One position before and after, all in turns but for the uncertainty.

    before       where the uncorrected setting really puts the work, less its target
    after        where the corrected one does
    uncertainty  standard uncertainty of both, in seconds of arc
    target       where the position is
    """

    position: int
    before: Fraction
    after: Fraction
    uncertainty: float
    target: Fraction = Fraction(0)


def corrected_ways(head: Head, divisions: Divisions, tolerance: Fraction | None = None) -> list[ScaleWay]:
    """Return every way that can correct for the head's known errors, the best first.

    tolerance  how far out a position may be, in turns; None when not asked

    Ways that make the same move every time cannot. Raises BadDivisions when the head was never measured,
    or there are too many positions to work out one by one.
    """
    known = head.known_errors
    if known is None:
        raise BadDivisions(
            "corrected",
            f"the errors of {head.name!r} are not known; measure it (crankwise measure plan), and use the "
            "head file that crankwise measure fit gives",
        )
    if len(divisions) > MOST_POSITIONS:
        raise BadDivisions(
            "corrected", f"{len(divisions):,} positions; at most {MOST_POSITIONS:,} are corrected, one by one"
        )
    return [way for way in ranked(_every_way(head, divisions, known), tolerance) if isinstance(way, ScaleWay)]


def _every_way(head: Head, divisions: Divisions, known: KnownErrors) -> Iterator[ScaleWay]:
    """Every fine scale that turns the worm; also those that would meet the parts exactly on a perfect head."""
    ratio = head.ratio

    def scale(turning: Fraction, places: int) -> Scale | None:
        plain = Scale(turning, places)
        if plain.all_round > FINEST or not (plain.closes or not divisions.goes_round):
            return None
        return CorrectedScale(turning, places, known, ratio or Fraction(1))

    if ratio and head.dial and (found := scale(ratio, head.dial.places)):
        yield OnDial(head, divisions, found)
    for circle in head.circles if ratio else ():
        if found := scale(ratio or Fraction(1), circle):
            yield NearestHole(head, divisions, found)
    for circles in circle_pairs(head) if ratio else ():
        places = lcm(*circles)
        if places not in circles and (found := scale(ratio or Fraction(1), places)):
            yield TwoCircle(head, divisions, found, circles)
    if head.stepper:
        turning = Fraction(1) if head.stepper.per_turn_of == "spindle" else ratio or Fraction(1)
        if found := scale(turning, head.stepper.steps):
            yield OnStepper(head, divisions, found)


def _scales(head: Head, known: KnownErrors) -> Iterator[CorrectedScale]:
    """Every fine scale by itself that comes round whole."""
    ratio = head.ratio or Fraction(1)
    found = [(ratio, head.dial.places)] if head.ratio and head.dial else []
    found += [(ratio, circle) for circle in head.circles] if head.ratio else []
    if head.stepper:
        turning = Fraction(1) if head.stepper.per_turn_of == "spindle" else ratio
        found.append((turning, head.stepper.steps))
    for turning, places in found:
        plain = Scale(turning, places)
        if plain.closes and plain.all_round <= FINEST:
            yield CorrectedScale(turning, places, known, ratio)


def find_corrected(head: Head, divisions: Divisions, key: str) -> ScaleWay | None:
    """Return the corrected way with this key, or None where this head has none such."""
    known = head.known_errors
    if known is None:
        return None
    return next((way for way in _every_way(head, divisions, known) if way.key == key), None)


def correction_of(way: Way) -> CorrectedScale:
    """Return the scale of a way that corrects."""
    assert isinstance(way, ScaleWay)
    assert isinstance(way.scale, CorrectedScale)
    return way.scale


def compared(way: Way) -> tuple[Compared, ...]:
    """Return every position of a way that corrects, before and after the correction."""
    return _compared(correction_of(way), way.divisions)


def all_round(head: Head, known: KnownErrors) -> tuple[Compared, ...]:
    """Return what a calibration does for a head at places evenly round the spindle; nothing without a fine scale.

    The finest of dial, hole circles and stepper is set. The places are a prime number, so that the crank
    stands elsewhere in its turn at each.
    """
    finest = max(_scales(head, known), key=lambda scale: scale.all_round, default=None)
    return _compared(finest, EqualDivisions(LOOKED_AT)) if finest else ()


def _compared(scale: CorrectedScale, divisions: Divisions) -> tuple[Compared, ...]:
    plain = Scale(scale.ratio, scale.places)
    found = []
    for position, target in divisions.targets():
        uncorrected = plain.nearest(target)
        found.append(
            Compared(
                position,
                scale.out_by(uncorrected, target),
                scale.out_by(scale.nearest(target), target),
                scale.doubt_at(uncorrected),
                target,
            )
        )
    return tuple(found)


def uncorrected(way: ScaleWay) -> ScaleWay:
    """Return the same way as it would be set if the head's errors were not known."""
    return replace(way, scale=Scale(way.scale.ratio, way.scale.places))
