"""Two notched wheels in vernier arrangement: one carries the detent of the other.

The detent of the first wheel stands on the second, whose own detent stands on the bed. The spindle is
then at i / A + j / B, some notches of each; wheels of A and B notches make a scale of lcm(A, B) places
all round, as a vernier does. Both counts are from the start, so nothing adds up.
Source: derived (exact/two_circles.py, with the whole circle for the turn of the crank).
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import lcm
from typing import ClassVar

from crankwise.exact.number import as_text
from crankwise.exact.two_circles import fewest_holes
from crankwise.head.head import Head
from crankwise.part.divisions import Divisions, EqualDivisions
from crankwise.ways.column import Column, Judged, ScaleColumn
from crankwise.ways.from_the_start import working_from_the_start
from crankwise.ways.scale import Scale
from crankwise.ways.way import Burden, Reached, ScaleWay, Setting, Step


@dataclass(frozen=True)
class TwoWheels(ScaleWay):
    """Each position on the nearest place of two wheels together.

    wheels  notches of the wheel on the spindle, and of the wheel that carries its detent
    """

    method: ClassVar[str] = "two-wheels"
    wheels: tuple[int, int]

    @property
    def setup(self) -> Mapping[str, object]:
        return {"wheels": self.wheels}

    @classmethod
    def burden_of(cls, scale: Scale, move: int | None) -> Burden:
        """Two detents; count two lots of notches, and look both up."""
        return Burden(to_set_up=2, to_count=4, looked_up=2)

    def setting(self, place: int) -> Setting:
        """The fewest notches in all; those of the second wheel may go against."""
        turns, i, j = fewest_holes(place, *self.wheels)
        return Setting(notches=turns * self.wheels[0] + i, second_notches=j)

    def move(self, before: Reached | None, after: Reached) -> Setting:
        """How far each wheel goes from where it stands; either may go back."""
        was = before.setting if before else Setting(notches=0, second_notches=0)
        return Setting(
            notches=(after.setting.notches or 0) - (was.notches or 0),
            second_notches=(after.setting.second_notches or 0) - (was.second_notches or 0),
        )

    def working(self) -> tuple[Step, ...]:
        first, second = self.wheels
        _, target = max(self.divisions.targets(), key=lambda row: row[1] % 1 != 0)
        place = self.scale.nearest(target)
        setting = self.setting(place)
        i, j = setting.notches or 0, setting.second_notches or 0
        return (
            *working_from_the_start(self.scale, self.divisions, self.worst_error, "places", 1),
            Step(
                f"place {place} in notches of the two wheels, counted from the start",
                f"({i}/{first} {'-' if j < 0 else '+'} {abs(j)}/{second}) x {as_text(self.scale.all_round)}",
                Fraction(place),
                "places",
            ),
        )


def ways(head: Head, divisions: Divisions) -> Iterator[TwoWheels]:
    """Yield each pair of wheels that makes a finer scale than either; none where one wheel meets all."""
    for wheels, scale in _pairs(head):
        if not any(Scale(Fraction(1), notches).meets(divisions) for notches in wheels):
            yield TwoWheels(head, divisions, scale, wheels)


def columns(head: Head) -> Iterator[Column]:
    """Yield the same pairs, as the chart asks them."""
    for wheels, scale in _pairs(head):
        yield TwoWheelsColumn(head, scale, TwoWheels, wheels=wheels)


@dataclass(frozen=True)
class TwoWheelsColumn(ScaleColumn):
    """A pair of wheels; not for the numbers that one of them meets by itself."""

    wheels: tuple[int, int] = (1, 1)

    @cached_property
    def least_burden(self) -> int:
        return self.burden_of_rounding

    def judge(self, count: int) -> Judged | None:
        return None if any(notches % count == 0 for notches in self.wheels) else super().judge(count)

    def way(self, count: int) -> TwoWheels:
        return TwoWheels(self.head, EqualDivisions(count), self.scale, self.wheels)


def _pairs(head: Head) -> Iterator[tuple[tuple[int, int], Scale]]:
    carriers = sorted({wheel.notches for wheel in head.notched_wheels if wheel.detent_on == "bed"})
    carried = sorted({wheel.notches for wheel in head.notched_wheels if wheel.detent_on == "wheel"})
    for first in carried:
        for second in carriers:
            places = lcm(first, second)
            if places not in (first, second):
                yield (first, second), Scale(Fraction(1), places)
