"""A notched wheel with the worm: the wheel for whole notches, the worm for what is left.

The detent of the wheel stands on the worm's wheel, so the spindle is the sum of the two: some notches
of the wheel and some turns of the crank. With g = gcd(N, W), N parts on a wheel of W notches need only
N / g settings of the worm, and at each of them g positions follow by the notch alone. So the worm is
set N / g times, all positions of one setting are done, and only then is it moved on.
Source: derived. p / N = n / W + rest, and the rest depends on p modulo N / g alone.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import gcd
from typing import ClassVar, NamedTuple

from crankwise.exact.number import as_text
from crankwise.exact.places import worst_rounding
from crankwise.head.head import Head
from crankwise.part.divisions import Divisions, EqualDivisions
from crankwise.ways.column import Column, Judged
from crankwise.ways.scale import Scale
from crankwise.ways.way import Burden, Reached, Setting, Step, Way


class Visit(NamedTuple):
    """One position as the run visits it.

    position  its number
    target    its angle in turns from the start, counted on through all the turns of the run
    notch     the notch of the wheel, numbered from the start
    rest      what is left for the worm, in turns of the spindle
    """

    position: int
    target: Fraction
    notch: int
    rest: Fraction


class OfTheWorm(NamedTuple):
    """What is set on the worm: the dial, or one hole circle.

    scale     its places
    circle    holes of the circle; None on the dial
    per_mark  readings that can be told apart in one mark of the dial; 1 on a circle
    """

    scale: Scale
    circle: int | None
    per_mark: int


@dataclass(frozen=True)
class WheelAndWorm(Way):
    """Whole notches of a wheel, and the rest by the worm, set from its zero.

    notches  notches of the wheel
    worm     what is set on the worm
    """

    method: ClassVar[str] = "wheel-and-worm"
    notches: int
    worm: OfTheWorm

    @property
    def setup(self) -> Mapping[str, object]:
        dial = self.head.dial
        on = {"circle": self.worm.circle} if self.worm.circle else {"dial": dial.marks if dial else None}
        return {"wheel": self.notches} | on | {"worm_settings": worm_settings(self.divisions, self.notches)}

    @property
    def burden(self) -> Burden:
        return burden_of(self.worm)

    @cached_property
    def _visits(self) -> tuple[Visit, ...]:
        """Every position in the order of the run: those of one worm setting together, rests rising."""
        notch, on = Fraction(1, self.notches), Fraction(0)
        visits = []
        rests = ((target % notch, position, target) for position, target in self.divisions.targets())
        for rest, position, target in sorted(rests):
            on += (target - on) % 1
            visits.append(Visit(position, on, int(target * self.notches) % self.notches, rest))
        return tuple(visits)

    @cached_property
    def _visit_of(self) -> dict[int, Visit]:
        return {visit.position: visit for visit in self._visits}

    @property
    def _turns_of_the_run(self) -> int:
        """Whole turns of the spindle until the first position is met again."""
        return int(self._visits[-1].target - self._visits[0].target) + 1

    @property
    def crank_turns(self) -> Fraction:
        """The worm goes over one notch, and back where the run comes round."""
        rests = [visit.rest for visit in self._visits]
        there = (max(rests) - min(rests)) * self.worm.scale.ratio
        return there * 2 if self.divisions.closing_target is not None else there

    @cached_property
    def worst_error(self) -> Fraction:
        if isinstance(self.divisions, EqualDivisions):
            return _worst_error(self.divisions, self.notches, self.worm.scale)
        scale = self.worm.scale
        rests = {visit.rest for visit in self._visits}
        return max(abs(scale.achieved(scale.nearest(rest)) - rest) for rest in rests)

    def reached(self) -> Iterator[Reached]:
        for visit in self._visits:
            yield self._at(visit)

    def reach(self, position: int, target: Fraction) -> Reached:
        return self._at(self._visit_of[position])

    def _at(self, visit: Visit) -> Reached:
        scale = self.worm.scale
        place = scale.nearest(visit.rest)
        achieved = visit.target - visit.rest + scale.achieved(place)
        on_line = place % self.worm.per_mark == 0
        return Reached(visit.position, visit.target, self._setting(visit.notch, place), achieved, on_line)

    def closure(self) -> Reached | None:
        """The first position again: the worm back where it began, coming up to it, and the same notch."""
        if self.divisions.closing_target is None:
            return None
        first = self._visits[0]
        number = first.position + self.divisions.closing_number - self.divisions.numbers[0]
        return self.again(self._at(first), 1)._replace(position=number)

    def again(self, reached: Reached, rounds: int) -> Reached:
        turns = rounds * self._turns_of_the_run
        return reached._replace(target=reached.target + turns, achieved=reached.achieved + turns)

    def move(self, before: Reached | None, after: Reached) -> Setting:
        """Notches on, and turns and holes or marks of the worm, which goes back only at the end."""
        was = before.setting if before else self._setting(0, 0)
        places = self._place(after.setting) - self._place(was)
        notches = ((after.setting.notches or 0) - (was.notches or 0)) % self.notches
        return self._setting(notches, places)

    def _setting(self, notches: int, place: int) -> Setting:
        turns, part = divmod(place, self.worm.scale.places)
        if self.worm.circle:
            return Setting(turns=turns, holes=(part,), notches=notches)
        return Setting(turns=turns, reading=Fraction(part, self.worm.per_mark), notches=notches)

    def _place(self, setting: Setting) -> int:
        part = setting.holes[0] if setting.holes else int((setting.reading or 0) * self.worm.per_mark)
        return (setting.turns or 0) * self.worm.scale.places + part

    def working(self) -> tuple[Step, ...]:
        scale, settings = self.worm.scale, worm_settings(self.divisions, self.notches)
        count, rests = len(self.divisions), sorted({visit.rest for visit in self._visits})
        ratio = as_text(scale.ratio)
        lines, unit = scale.places // self.worm.per_mark, "holes" if self.worm.circle else "marks"
        steps = [
            Step(
                "positions at each setting of the worm",
                f"{count} / {settings}",
                Fraction(count, settings),
                "parts",
            )
        ]
        if len(rests) > 1:
            one = rests[1] - rests[0]
            steps += [
                Step(
                    f"a notch is 1/{self.notches} of the circle; from one setting of the worm to the next",
                    f"{as_text(one)} x {ratio}",
                    one * scale.ratio,
                    "turns",
                ),
                Step(
                    f"the same in {unit}",
                    f"{as_text(one)} x {ratio} x {lines}",
                    one * scale.all_round / self.worm.per_mark,
                    unit,
                ),
            ]
        return (
            *steps,
            Step(
                "bound for any position: half of the least that can be set on the worm",
                f"1 / (2 x {ratio} x {scale.places})",
                1 / (2 * scale.all_round),
                "angle",
            ),
            Step(
                "worst position of these",
                f"{as_text(self.worst_error * scale.all_round)} of a place",
                self.worst_error,
                "angle",
            ),
        )


def worm_settings(divisions: Divisions, notches: int) -> int:
    """Return how many settings of the worm serve all positions on a wheel of so many notches.

    Targets that are so many notches apart leave the same for the worm; those of equal parts come round
    again after as many as the step, in notches, has in its denominator.

    >>> worm_settings(EqualDivisions(96), 60)
    8
    """
    if isinstance(divisions, EqualDivisions):
        return min(len(divisions), (divisions.step * notches).denominator)
    return len({target * notches % 1 for _, target in divisions.targets()})


def _worst_error(divisions: EqualDivisions, notches: int, scale: Scale) -> Fraction:
    """Return the worst rounding of what is left for the worm, in turns of the spindle.

    Equal parts leave rests that are evenly spaced over one notch, all of them met (`worm_settings`).
    """
    settings = worm_settings(divisions, notches)
    step = Fraction(1, notches * settings)
    first = divisions.first_target % step
    return worst_rounding(first * scale.all_round, step * scale.all_round, settings) / scale.all_round


def burden_of(worm: OfTheWorm) -> Burden:
    """The detent, and a plate where there is one; count notches, and now and then set the worm by the list."""
    return Burden(to_set_up=2 if worm.circle else 1, to_count=2, looked_up=1)


def ways(head: Head, divisions: Divisions) -> Iterator[WheelAndWorm]:
    """Yield each wheel whose detent is on the worm, with the dial and with each circle.

    Only where one setting of the worm serves two positions or more on the average; else the wheel is
    no help. Wheels that meet every position by themselves are told under direct indexing.
    """
    for notches in _wheels(head):
        if 2 * worm_settings(divisions, notches) <= len(divisions) and not Scale(Fraction(1), notches).meets(
            divisions
        ):
            for worm in _worm_scales(head):
                yield WheelAndWorm(head, divisions, notches, worm)


def columns(head: Head) -> Iterator[Column]:
    """Yield the same wheels and scales, as the chart asks them."""
    for notches in _wheels(head):
        for worm in _worm_scales(head):
            yield WheelAndWormColumn(head, notches, worm)


@dataclass(frozen=True)
class WheelAndWormColumn(Column):
    """A wheel and a scale of the worm; what is left for the worm are the multiples of 1 / (W x N / g)."""

    head: Head
    notches: int
    worm: OfTheWorm

    @cached_property
    def least_burden(self) -> int:
        return burden_of(self.worm).total

    def judge(self, count: int) -> Judged | None:
        common = gcd(count, self.notches)
        settings = count // common
        if common == 1 or settings == 1:
            return None
        worst = _worst_error(EqualDivisions(count), self.notches, self.worm.scale)
        return Judged(burden_of(self.worm).total, worst.numerator, worst.denominator)

    def way(self, count: int) -> WheelAndWorm:
        return WheelAndWorm(self.head, EqualDivisions(count), self.notches, self.worm)


def _wheels(head: Head) -> list[int]:
    return sorted({wheel.notches for wheel in head.notched_wheels if wheel.detent_on == "worm"})


def _worm_scales(head: Head) -> Iterator[OfTheWorm]:
    if head.ratio is None:
        return
    if head.dial:
        yield OfTheWorm(Scale(head.ratio, head.dial.places), None, head.dial.places_per_mark)
    for circle in head.circles:
        yield OfTheWorm(Scale(head.ratio, circle), circle, 1)
