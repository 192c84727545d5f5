"""Which positions the work falls on: equal parts of the circle, a list of angles, or equal steps along a line."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from crankwise.errors import BadDivisions
from crankwise.exact.length import STRAIGHT_MM
from crankwise.exact.number import as_text

MOST_DIVISIONS = 1_000_000
MOST_ALONG_MM = 50_000
"""How long a row of steps may be: less than half the way round of the wheel that a slide is reckoned as."""


@dataclass(frozen=True, slots=True)
class EqualDivisions:
    """Equal parts of the circle, or some of them.

    count  parts in the whole circle, 1 to 1,000,000
    start  angle of position 0 from the start, in turns, 0 to below 1
    first  first position worked, 0 to count - 1
    last   last position that may be worked, `first` to count - 1; None for count - 1
    every  only every so many: 5 works positions 0, 5, 10 ...; 1 to count

    Raises BadDivisions when one is out of its range.
    """

    count: int
    start: Fraction = Fraction(0)
    first: int = 0
    last: int | None = None
    every: int = 1

    def __post_init__(self) -> None:
        if self.count < 1:
            raise BadDivisions("divisions", f"{self.count}; a circle is divided into 1 part or more")
        if self.count > MOST_DIVISIONS:
            raise BadDivisions(
                "divisions",
                f"{self.count:,}; at most {MOST_DIVISIONS:,}, which is finer than any head can be read",
            )
        if not 0 <= self.start < 1:
            raise BadDivisions(
                "start", f"{as_text(self.start * 360)} degrees; the start lies from 0 to below 360 degrees"
            )
        if not 1 <= self.every <= self.count:
            raise BadDivisions("every", f"{self.every}; from 1 to the {self.count} divisions")
        if not 0 <= self.first < self.count:
            raise BadDivisions("first", f"position {self.first}; positions run from 0 to {self.count - 1}")
        if self.last is not None and not self.first <= self.last < self.count:
            raise BadDivisions(
                "last", f"position {self.last}; from the first, {self.first}, to {self.count - 1}"
            )

    @property
    def is_straight(self) -> bool:
        """Whether they lie along a line, and not round a circle."""
        return False

    @property
    def numbers(self) -> range:
        """The positions worked, by number."""
        last = self.count - 1 if self.last is None else self.last
        return range(self.first, last + 1, self.every)

    @property
    def first_target(self) -> Fraction:
        """Target of the first position worked, in turns."""
        return self.start + Fraction(self.first, self.count)

    @property
    def last_target(self) -> Fraction:
        """Target of the last position worked, in turns."""
        return self.start + Fraction(self.numbers[-1], self.count)

    @property
    def step(self) -> Fraction:
        """Angle from one position worked to the next, in turns."""
        return Fraction(self.every, self.count)

    @property
    def goes_round(self) -> bool:
        """Whether the move after the last position comes back to the first one."""
        return len(self.numbers) * self.every == self.count

    @property
    def closing_target(self) -> Fraction | None:
        """Where the first position is met again, in turns; None when the run does not go round."""
        return self.first_target + 1 if self.goes_round else None

    @property
    def closing_number(self) -> int:
        """The number of the first position when it is met again: count on, 127 for 0."""
        return self.first + self.count

    def __len__(self) -> int:
        return len(self.numbers)

    def targets(self) -> Iterator[tuple[int, Fraction]]:
        """Yield each position worked with its exact target in turns, in order."""
        if self.start:
            for number in self.numbers:
                yield number, self.start + Fraction(number, self.count)
        else:
            for number in self.numbers:
                yield number, Fraction(number, self.count)


@dataclass(frozen=True, slots=True)
class AngleList:
    """A list of angles in turns from the start: rising, none twice, none a full turn past the first.

    Position 0 is the first of the list. Raises BadDivisions naming the angle that is wrong.
    """

    angles: tuple[Fraction, ...]

    def __post_init__(self) -> None:
        if not self.angles:
            raise BadDivisions("angles", "the list is empty; give one angle or more")
        if len(self.angles) > MOST_DIVISIONS:
            raise BadDivisions("angles", f"{len(self.angles):,} of them; at most {MOST_DIVISIONS:,}")
        if self.angles[0] < 0:
            raise BadDivisions(
                "angle 1 of the list",
                f"{_degrees(self.angles[0])} is below 0; angles count forward from the start",
            )
        for number, (before, angle) in enumerate(pairwise(self.angles), 2):
            if angle == before:
                raise BadDivisions(
                    f"angle {number} of the list", f"{_degrees(angle)} is there twice; give each angle once"
                )
            if angle < before:
                raise BadDivisions(
                    f"angle {number} of the list",
                    f"{_degrees(angle)} comes after {_degrees(before)}; "
                    "angles must rise, so that the crank always turns one way",
                )
            if angle >= self.angles[0] + 1:
                raise BadDivisions(
                    f"angle {number} of the list",
                    f"{_degrees(angle)} is a full turn or more past the first, "
                    f"{_degrees(self.angles[0])}; the list stays within one turn",
                )

    @property
    def is_straight(self) -> bool:
        """Whether they lie along a line, and not round a circle."""
        return False

    @property
    def numbers(self) -> range:
        """The positions, by number."""
        return range(len(self.angles))

    @property
    def goes_round(self) -> bool:
        """Whether the run must come back to its first position: not for a list, which may yet be closed so."""
        return False

    @property
    def last_target(self) -> Fraction:
        """Target of the last position, in turns."""
        return self.angles[-1]

    @property
    def closing_target(self) -> Fraction:
        """Where the first position is met again, in turns."""
        return self.angles[0] + 1

    @property
    def closing_number(self) -> int:
        """The number of the first position when it is met again."""
        return len(self.angles)

    def __len__(self) -> int:
        return len(self.angles)

    def targets(self) -> Iterator[tuple[int, Fraction]]:
        """Yield each position with its exact target in turns, in order."""
        yield from enumerate(self.angles)


@dataclass(frozen=True, slots=True)
class EqualSteps:
    """Equal steps along a straight line, from position 0 on.

    count    positions, 1 to 1,000,000
    step_mm  from each to the next, in mm, above 0; the last one lies at most 50 m from the first

    Targets are in turns of the wheel that a slide is reckoned as, so that every way, run and sheet takes
    them as it takes an arc. Raises BadDivisions when one is out of its range.
    """

    count: int
    step_mm: Fraction

    def __post_init__(self) -> None:
        if not 1 <= self.count <= MOST_DIVISIONS:
            raise BadDivisions("positions", f"{self.count:,}; along a line there are 1 to {MOST_DIVISIONS:,}")
        if self.step_mm <= 0:
            raise BadDivisions(
                "step", f"{as_text(self.step_mm)} mm; from one position to the next is above 0"
            )
        length = self.step_mm * (self.count - 1)
        if length > MOST_ALONG_MM:
            raise BadDivisions(
                "positions",
                f"the last one lies {float(length):,.0f} mm from the first; {MOST_ALONG_MM:,} mm at most",
            )

    @property
    def is_straight(self) -> bool:
        """Whether they lie along a line, and not round a circle."""
        return True

    @property
    def numbers(self) -> range:
        """The positions, by number."""
        return range(self.count)

    @property
    def step(self) -> Fraction:
        """From each to the next, in turns."""
        return self.step_mm / STRAIGHT_MM

    @property
    def first_target(self) -> Fraction:
        """Target of the first position."""
        return Fraction(0)

    @property
    def last_target(self) -> Fraction:
        """Target of the last position, in turns."""
        return self.step * (self.count - 1)

    @property
    def goes_round(self) -> bool:
        """A line does not come back."""
        return False

    @property
    def closing_target(self) -> None:
        """There is none."""
        return None

    @property
    def closing_number(self) -> int:
        """The number that would come after the last."""
        return self.count

    def __len__(self) -> int:
        return self.count

    def targets(self) -> Iterator[tuple[int, Fraction]]:
        """Yield each position with its exact target in turns, in order."""
        step = self.step
        for number in range(self.count):
            yield number, step * number


Divisions = EqualDivisions | AngleList | EqualSteps


def _degrees(turns: Fraction) -> str:
    return f"{as_text(turns * 360)} degrees"
