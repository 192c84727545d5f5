"""The dial and a plate together: a hole for the round part, whole marks of the dial for the rest.

The crank goes to a hole, the dial is set to zero there, the pin is drawn, and the crank goes on by
whole marks. A circle of H holes and a dial of D marks so make a scale of lcm(H, D) places in a turn,
and divide exactly what neither of them does alone. Holes are counted from the start and the dial
begins afresh at each, so nothing adds up.

Only exact settings are offered, each a line on a line: such a scale has places far finer than the eye
reads a dial, and to promise the nearest of them would be a promise that nobody could keep.
Source: derived (exact/two_circles.py, with the dial for the second circle, and forward only).
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import floor, gcd, lcm
from typing import ClassVar

from crankwise.exact.number import as_text
from crankwise.head.head import Head
from crankwise.part.divisions import Divisions, EqualDivisions
from crankwise.ways.column import Column, Judged, ScaleColumn
from crankwise.ways.scale import Scale
from crankwise.ways.way import Burden, Reached, ScaleWay, Setting, Step


@dataclass(frozen=True)
class DialAndPlate(ScaleWay):
    """Each position by a hole of one circle, and on from there by whole marks of the dial.

    circle  its holes
    """

    method: ClassVar[str] = "dial-and-plate"
    circle: int

    @property
    def marks(self) -> int:
        """Marks of the dial; such a way exists only where there is one."""
        assert self.head.dial is not None
        return self.head.dial.marks

    @property
    def setup(self) -> Mapping[str, object]:
        return {"circle": self.circle, "dial": self.marks}

    @classmethod
    def burden_of(cls, scale: Scale, move: int | None) -> Burden:
        """Fit the plate and the pin; turns, holes, the dial to zero, marks, and both looked up."""
        return Burden(to_set_up=2, to_count=6, looked_up=2)

    def setting(self, place: int) -> Setting:
        """The hole and the marks on from it, under one turn; the hole may lie before the start."""
        holes, marks = split(place, self.circle, self.marks)
        turns, holes = divmod(holes, self.circle)
        return Setting(turns=turns, reading=Fraction(marks), holes=(holes,))

    def move(self, before: Reached | None, after: Reached) -> Setting:
        """Whole turns from where the crank stands, the hole to come to after them, and the marks on from it.

        The crank stands off its last hole, so the next is told by its number. It may lie behind: then the
        turns are below 0, and the crank goes back beyond the hole and comes up to it.
        """
        stands = before.achieved * self.scale.ratio if before else Fraction(0)
        hole = (after.setting.turns or 0) + Fraction((after.setting.holes or (0,))[0], self.circle)
        return after.setting._replace(turns=floor(hole - stands))

    def working(self) -> tuple[Step, ...]:
        ratio, circle, marks = as_text(self.scale.ratio), self.circle, self.marks
        position, target = min(
            ((number, target) for number, target in self.divisions.targets() if target),
            default=(0, Fraction(0)),
            key=lambda row: row[1],
        )
        a, b = split(int(target * self.scale.all_round), circle, marks)
        turns = target * self.scale.ratio
        line = 1 / (self.scale.ratio * marks)
        return (
            Step(
                f"places that {circle} holes and {marks} marks make in one turn of the crank",
                f"lcm({circle}, {marks})",
                Fraction(self.scale.places),
                "places",
            ),
            Step(
                f"position {position}, counted from the start", f"{as_text(target)} x {ratio}", turns, "turns"
            ),
            Step("the hole and the marks on from it", f"{a}/{circle} + {b}/{marks}", turns, "turns"),
            Step(
                "the eye: a tenth of a mark, line on line, is",
                f"1 / (10 x {ratio} x {marks})",
                line / 10,
                "angle",
            ),
        )


def split(place: int, circle: int, marks: int) -> tuple[int, int]:
    """Return (holes, marks): the place of the common scale as a hole and the fewest marks on from it.

    place  places of lcm(circle, marks) in a turn, from the start
    The marks are 0 or more and fewer than one turn; the holes count from the start, and may be negative.

    >>> split(1, 19, 100)
    (-15, 79)
    """
    common = gcd(circle, marks)
    hole, mark = marks // common, circle // common
    forward = place * pow(mark, -1, hole) % hole if hole > 1 else 0
    return (place - forward * mark) // hole, forward


def ways(head: Head, divisions: Divisions) -> Iterator[DialAndPlate]:
    """Yield each circle with which the dial's marks meet every position exactly, where neither does alone.

    Only where the dial can be set to zero at any hole.
    """
    for circle, scale in _pairs(head):
        if scale.meets(divisions) and not _one_is_enough(head, divisions, circle):
            yield DialAndPlate(head, divisions, scale, circle)


def _one_is_enough(head: Head, divisions: Divisions, circle: int) -> bool:
    return any(
        Scale(head.ratio, places).meets(divisions)
        for places in (circle, head.dial.places if head.dial else 1)
        if head.ratio
    )


def columns(head: Head) -> Iterator[Column]:
    """Yield the same circles, as the chart asks them."""
    for circle, scale in _pairs(head):
        if scale.closes:
            yield DialAndPlateColumn(head, scale, DialAndPlate, rounded=False, circle=circle)


@dataclass(frozen=True)
class DialAndPlateColumn(ScaleColumn):
    """A circle with the dial; not for the numbers that one of the two meets by itself."""

    circle: int = 1

    @cached_property
    def least_burden(self) -> int:
        return self.burden_of_rounding

    def judge(self, count: int) -> Judged | None:
        if self.places % count or _one_is_enough(self.head, EqualDivisions(count), self.circle):
            return None
        return super().judge(count)

    def way(self, count: int) -> DialAndPlate:
        return DialAndPlate(self.head, EqualDivisions(count), self.scale, self.circle)


def _pairs(head: Head) -> Iterator[tuple[int, Scale]]:
    if head.ratio is None or head.dial is None or not head.dial.settable:
        return
    for circle in head.circles:
        places = lcm(circle, head.dial.marks)
        if places not in (circle, head.dial.marks):
            yield circle, Scale(head.ratio, places)
