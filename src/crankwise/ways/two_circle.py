"""Two circles of one plate as a fine scale, each position set from the start.

The index pin goes to a hole of circle A and the pin at the back to a hole of circle B, both counted
from the start, so that a/A + b/B comes nearest to the target. Circles of A and B holes make a scale
of lcm(A, B) places in a turn of the crank, so no position is further out than half of that, and the
errors never add up. It reaches any number, primes too, with no change gears.
Source: derived (exact/two_circles.py).
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from math import lcm
from typing import ClassVar

from crankwise.exact.two_circles import fewest_holes
from crankwise.head.head import Head
from crankwise.part.divisions import Divisions, EqualDivisions
from crankwise.ways.column import Column, Judged, ScaleColumn
from crankwise.ways.compound import circle_pairs, has_exact_circle
from crankwise.ways.from_the_start import working_from_the_start
from crankwise.ways.scale import Scale
from crankwise.ways.way import Burden, Reached, ScaleWay, Setting, Step


@dataclass(frozen=True)
class TwoCircle(ScaleWay):
    """Each position on the nearest place of two circles together.

    circles  holes of the circle of the index pin, and of the circle of the pin at the back
    """

    method: ClassVar[str] = "two-circle"
    circles: tuple[int, int]

    @property
    def setup(self) -> Mapping[str, object]:
        return {"circles": self.circles}

    @classmethod
    def burden_of(cls, scale: Scale, move: int | None) -> Burden:
        """Fit the plate and the pin at the back; count turns and two lots of holes, and look both up."""
        return Burden(to_set_up=2, to_count=5, looked_up=2)

    def setting(self, place: int) -> Setting:
        turns, a, b = fewest_holes(place, *self.circles)
        return Setting(turns=turns, holes=(a, b))

    def move(self, before: Reached | None, after: Reached) -> Setting:
        """How far each pin goes from where it stands; the plate's part may go back."""
        was = before.setting if before else Setting(turns=0, holes=(0, 0))
        circle = self.circles[0]
        holes = _counted(after.setting, circle) - _counted(was, circle)
        turns, rest = divmod(holes, circle)
        return Setting(turns=turns, holes=(rest, _back(after.setting) - _back(was)))

    def working(self) -> tuple[Step, ...]:
        return working_from_the_start(self.scale, self.divisions, self.worst_error, "places", 1)


def ways(head: Head, divisions: Divisions) -> Iterator[TwoCircle]:
    """Yield every pair of circles of one plate that makes a finer scale than either alone, each pair once.

    None where a single circle meets every position.
    """
    if has_exact_circle(head, divisions):
        return
    for circles, scale in _pairs(head):
        if scale.closes or not divisions.goes_round:
            yield TwoCircle(head, divisions, scale, circles)


def columns(head: Head) -> Iterator[Column]:
    """Yield each pair on which a full circle closes, as the chart asks it."""
    for circles, scale in _pairs(head):
        if scale.closes:
            yield TwoCircleColumn(head, scale, TwoCircle, circles=circles)


@dataclass(frozen=True)
class TwoCircleColumn(ScaleColumn):
    """A pair of circles; not for the numbers that one of them meets by itself."""

    circles: tuple[int, int] = (1, 1)

    @cached_property
    def least_burden(self) -> int:
        return self.burden_of_rounding

    @cached_property
    def _holes_all_round(self) -> tuple[int, int, int]:
        """Holes of each circle in a full circle of the spindle, times the last: the ratio's denominator."""
        ratio = self.scale.ratio
        return ratio.numerator * self.circles[0], ratio.numerator * self.circles[1], ratio.denominator

    def judge(self, count: int) -> Judged | None:
        first, second, denominator = self._holes_all_round
        bottom = denominator * count
        if first % bottom == 0 or second % bottom == 0:
            return None
        return super().judge(count)

    def way(self, count: int) -> TwoCircle:
        return TwoCircle(self.head, EqualDivisions(count), self.scale, self.circles)


def _pairs(head: Head) -> Iterator[tuple[tuple[int, int], Scale]]:
    if head.ratio is None:
        return
    for circles in circle_pairs(head):
        places = lcm(*circles)
        if places not in circles:
            yield circles, Scale(head.ratio, places)


def _counted(setting: Setting, circle: int) -> int:
    return (setting.turns or 0) * circle + (setting.holes or (0, 0))[0]


def _back(setting: Setting) -> int:
    return (setting.holes or (0, 0))[1]
