"""Holes on a circle: where each lies, what callipers read between them, and what is left between.

A hole plate, or any blank with several circles, is a `HolePattern`: each circle is a run of its own.
"""

from bisect import bisect
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, pairwise
from math import asin, floor, hypot, pi

from crankwise.errors import Fault, FaultsFound
from crankwise.exact.number import as_text
from crankwise.part.divisions import Divisions, EqualDivisions
from crankwise.part.part import Mark, Part
from crankwise.part.polar import Point, point_at, sine
from crankwise.part.suggestion import at_least, at_most, typed_mm

MOST_HOLES = 10_000


@dataclass(frozen=True, slots=True)
class HoleCircle:
    """Holes of one size on one circle.

    divisions   which holes: equal parts, some of them, or a list of angles
    circle_mm   diameter of the circle through the centres, above 0
    hole_mm     diameter of the holes; None when not told
    first_at    where the angle 0 of the divisions lies, in turns, anticlockwise from the +X side (the right)
    clockwise   whether the positions go round clockwise, seen from the side that is drilled

    Raises FaultsFound when a length is not above 0, or the holes run into one another.
    """

    divisions: Divisions
    circle_mm: Fraction
    hole_mm: Fraction | None = None
    first_at: Fraction = Fraction(0)
    clockwise: bool = False

    def __post_init__(self) -> None:
        faults = list(self._faults())
        if faults:
            raise FaultsFound(faults)

    def _faults(self) -> Iterator[Fault]:
        if len(self.divisions) > MOST_HOLES:
            yield Fault("holes", f"{len(self.divisions):,}; at most {MOST_HOLES:,} on one circle")
            return
        if self.circle_mm <= 0:
            yield Fault(
                "circle", f"{as_text(self.circle_mm)} mm; the circle through the holes has a diameter above 0"
            )
            return
        if self.hole_mm is None:
            return
        if self.hole_mm <= 0:
            yield Fault("hole", f"{as_text(self.hole_mm)} mm; a hole has a diameter above 0")
            return
        least = self.least_chord_mm
        if least is not None and self.hole_mm >= least:
            yield Fault("hole", self._overlap(least))

    def _overlap(self, least: float) -> str:
        """Say what would work: a smaller hole, a larger circle, or fewer holes."""
        hole = float(self.hole_mm or 0)
        cures = [
            f"a hole of {at_most(least * 0.999)} at most",
            f"a circle of {at_least(hole / sine(self.least_gap / 2) * 1.001)} at least",
        ]
        if isinstance(self.divisions, EqualDivisions) and self.divisions.every == 1 and hole < self.circle_mm:
            most = floor(pi / asin(hole / float(self.circle_mm)) - 1e-9)
            cures += [f"{most} holes at most"] if 1 < most < self.divisions.count else []
        return (
            f"{typed_mm(hole)}; these holes run into one another, their centres are {at_most(least)} apart: "
            f"it takes {', or '.join(cures)}"
        )

    @property
    def gaps(self) -> tuple[Fraction, ...]:
        """Angle from each hole to the next, in turns, the last one back to the first."""
        targets = [target for _, target in self.divisions.targets()]
        if len(targets) < 2:
            return ()
        return (*(after - before for before, after in pairwise(targets)), 1 - (targets[-1] - targets[0]))

    @property
    def least_gap(self) -> Fraction:
        """The smallest angle between two neighbours, in turns; a full turn where there is one hole."""
        return min(self.gaps, default=Fraction(1))

    @property
    def chords_mm(self) -> tuple[float, ...]:
        """Straight from the centre of each hole to the next, in mm, the last one back to the first.

        Source: chord = D sin(half the angle between).
        """
        return tuple(float(self.circle_mm) * sine(gap / 2) for gap in self.gaps)

    @property
    def least_chord_mm(self) -> float | None:
        """The distance of the two nearest holes, centre to centre, in mm; None where there is one hole."""
        return min(self.chords_mm, default=None)

    @property
    def web_mm(self) -> float | None:
        """The least metal left between two neighbours, in mm; None where there is one hole or no size is told."""
        least = self.least_chord_mm
        return None if least is None or self.hole_mm is None else least - float(self.hole_mm)

    @property
    def is_full_circle(self) -> bool:
        """Whether the holes are equal parts of the whole circle."""
        return isinstance(self.divisions, EqualDivisions) and self.divisions.goes_round

    def across_mm(self, apart: int) -> float:
        """Return the distance from a hole to the one so many on, in mm, on a full circle."""
        return float(self.circle_mm) * sine(Fraction(apart, len(self.divisions)) / 2)

    @property
    def opposite(self) -> int:
        """How many holes on the opposite one is, or the nearer of the two where none is just opposite."""
        return len(self.divisions) // 2

    def angle_of(self, target: Fraction) -> Fraction:
        """Return where a target lies on the plate, in turns, anticlockwise from the +X side, below 1."""
        return (self.first_at - target if self.clockwise else self.first_at + target) % 1

    def coordinates_mm(
        self, centre_mm: tuple[Fraction, Fraction] = (Fraction(0), Fraction(0))
    ) -> list[Point]:
        """Return x and y of each hole, in mm, in the order of the positions; X to the right, Y away from you.

        centre_mm  what the mill's two dials read when the spindle stands over the centre of the circle
        """
        centre = (float(centre_mm[0]), float(centre_mm[1]))
        return [
            point_at(float(self.circle_mm) / 2, self.angle_of(target), centre)
            for _, target in self.divisions.targets()
        ]


@dataclass(frozen=True, slots=True)
class HolePattern:
    """Circles of holes in one blank, as in a hole plate.

    circles   at least one, in the order in which they are drilled
    blank_mm  outside diameter of a round blank; None when not told

    Raises FaultsFound naming two circles whose holes meet, or one whose holes break out of the blank.
    """

    circles: tuple[HoleCircle, ...]
    blank_mm: Fraction | None = None

    def __post_init__(self) -> None:
        faults = list(self._faults())
        if faults:
            raise FaultsFound(faults)

    @property
    def names(self) -> tuple[str, ...]:
        """What each circle and its run are called: circle 2 (19 holes)."""
        counts = (len(circle.divisions) for circle in self.circles)
        return tuple(
            f"circle {number} ({count} hole{'' if count == 1 else 's'})"
            for number, count in enumerate(counts, 1)
        )

    def _faults(self) -> Iterator[Fault]:
        for number, circle in enumerate(self.circles, 1):
            out = float(circle.circle_mm + (circle.hole_mm or 0))
            if self.blank_mm is not None and out >= self.blank_mm:
                yield Fault(
                    f"circle {number}",
                    f"its holes break out of the blank of {typed_mm(self.blank_mm)}; a blank of {at_least(out)} "
                    "would just reach, and some millimetres more make an edge",
                )
        for (number, one), (other, two) in combinations(enumerate(self.circles, 1), 2):
            apart = float((one.hole_mm or 0) + (two.hole_mm or 0)) / 2
            nearest = _nearest_mm(one, two, apart)
            if nearest is not None and nearest <= apart:
                radial = float(min(one.circle_mm, two.circle_mm)) + 2 * apart
                yield Fault(
                    f"circle {other}",
                    f"one of its holes runs into one of circle {number}: they are {at_most(nearest)} apart; "
                    f"the larger circle clears the smaller from {at_least(radial)} on",
                )


def _nearest_mm(one: HoleCircle, two: HoleCircle, apart: float) -> float | None:
    """The least distance of two circles' holes; None where their radii alone keep them apart."""
    if abs(float(one.circle_mm - two.circle_mm)) / 2 > apart:
        return None
    angles = sorted(two.angle_of(target) for _, target in two.divisions.targets())
    least = float("inf")
    for _, target in one.divisions.targets():
        angle = one.angle_of(target)
        after = bisect(angles, angle) % len(angles)
        x, y = point_at(float(one.circle_mm) / 2, angle)
        for near in (angles[after - 1], angles[after]):
            other_x, other_y = point_at(float(two.circle_mm) / 2, near)
            least = min(least, hypot(x - other_x, y - other_y))
    return least


def part_of(circle: HoleCircle, name: str = "") -> Part:
    """Return the holes as a part to divide; errors are told as lengths on the circle through them.

    name  what to call this circle in the notes, as where a blank has several
    """
    marks = tuple(Mark(note=name) for _ in circle.divisions.numbers) if name else ()
    return Part(circle.divisions, circle.circle_mm, "hole", marks)


def parts_of(pattern: HolePattern) -> tuple[Part, ...]:
    """Return one part for each circle: each is a run of its own, from the same zero."""
    if len(pattern.circles) == 1:
        return (part_of(pattern.circles[0]),)
    counts = [len(circle.divisions) for circle in pattern.circles]
    told = [
        f"circle of {count}" + (f" on {as_text(circle.circle_mm)} mm" if counts.count(count) > 1 else "")
        for count, circle in zip(counts, pattern.circles, strict=True)
    ]
    return tuple(map(part_of, pattern.circles, told))
