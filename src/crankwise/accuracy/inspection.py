"""The finished part as measured: its deviations; what they say about the cause is in `part_causes`.

Whatever was measured becomes one curve: how far each position stands from where it should, along the rim.
Neighbours compared need no reference, and chords no exact diameter, since the circle closes.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import accumulate, pairwise
from math import asin, cos, pi, sin

from crankwise.errors import BadLength, BadNumber

LEAST_POSITIONS = 3
MOST_POSITIONS = 100_000


@dataclass(frozen=True, slots=True)
class Inspected:
    """A part's deviations along the rim, in micrometres, positive the way the work advances.

    single      of the pitch from each position to the next; where it goes round the last leads back to the
                first, and they come to 0
    goes_round  whether the last position is followed by the first
    targets     where the positions should be, in turns; empty for even ones all round
    """

    single: tuple[float, ...]
    goes_round: bool = True
    targets: tuple[float, ...] = ()

    @property
    def angles(self) -> tuple[float, ...]:
        """Where the positions should be, in turns."""
        count = len(self.single)
        return self.targets or tuple(index / count for index in range(count))

    @property
    def cumulative(self) -> tuple[float, ...]:
        """How far each position stands from where it should, as seen from position 0."""
        return (0.0, *accumulate(self.single[:-1] if self.goes_round else self.single))

    @property
    def single_pitch(self) -> float:
        """The largest deviation of any one pitch, either way."""
        return max(map(abs, self.single))

    @property
    def cumulative_pitch(self) -> float:
        """The height of the cumulative curve."""
        return max(self.cumulative) - min(self.cumulative)

    @property
    def adjacent_pitch(self) -> float:
        """The largest difference of two neighbouring pitches."""
        neighbours = pairwise((*self.single, self.single[0]) if self.goes_round else self.single)
        return max((abs(one - before) for before, one in neighbours), default=0.0)

    @property
    def goes_far_enough(self) -> bool:
        """Whether no gap between neighbours is as large as half a turn, so that a wave can be told."""
        ordered = sorted(angle % 1 for angle in self.angles)
        return max(after - before for before, after in pairwise([*ordered, ordered[0] + 1])) < 0.5

    def less(self, pitches: Sequence[float]) -> "Inspected":
        """Return the same with something known taken off each pitch, in micrometres."""
        return replace(
            self, single=tuple(one - known for one, known in zip(self.single, pitches, strict=True))
        )


def wave_of_pitches(part: Inspected, order: int) -> tuple[list[float], list[float]]:
    """Return what a cosine of the positions, and a sine, each of height 1, make of every pitch.

    order  how many times round;  1 or more

    Source: a pitch is the wave's value at its end less that at its beginning.
    """
    turns = [2 * pi * order * angle for angle in part.angles]
    ends = list(pairwise((*turns, turns[0]) if part.goes_round else turns))
    return (
        [cos(end) - cos(begin) for begin, end in ends],
        [sin(end) - sin(begin) for begin, end in ends],
    )


def _checked(count: int, what: str) -> None:
    if not LEAST_POSITIONS <= count <= MOST_POSITIONS:
        raise BadNumber(what, f"{count}; from {LEAST_POSITIONS} to {MOST_POSITIONS:,} all round the part")


def from_neighbours(readings_um: Sequence[Fraction]) -> Inspected:
    """Return the deviations from a comparator set to one pitch and carried round all.

    readings_um  for each pitch, in order, from any zero, in micrometres; larger for a wider pitch

    The mean is the pitch itself, since all pitches make the circle. Raises BadNumber when there are too few.
    Source: closure, as for the steps of a head.
    """
    _checked(len(readings_um), "pitches")
    mean = Fraction(sum(readings_um), len(readings_um))
    return Inspected(tuple(float(reading - mean) for reading in readings_um))


def from_angles(
    measured: Sequence[Fraction], targets: Sequence[Fraction], rim_mm: Fraction, goes_round: bool = True
) -> Inspected:
    """Return the deviations from measured angles.

    measured, targets  of each position, in turns, from any zero
    rim_mm             diameter of the rim, above 0
    goes_round         whether the last position is followed by the first

    Raises BadNumber when they are not as many, or too few.
    """
    _checked(len(measured), "angles")
    if len(measured) != len(targets):
        raise BadNumber("angles", f"{len(measured)} measured; the part has {len(targets)} positions")
    out = angles_out(measured, targets)
    along = [float(one) * pi * float(rim_mm) * 1000 for one in out]
    pitches = pairwise((*along, along[0]) if goes_round else along)
    return Inspected(
        tuple(after - before for before, after in pitches), goes_round, tuple(float(one) for one in targets)
    )


def angles_out(measured: Sequence[Fraction], targets: Sequence[Fraction]) -> list[Fraction]:
    """Return how far each angle is from its target, in turns, as seen from the middle one: within half a turn.

    An instrument may have any zero, and begins again at a full turn.
    """
    first = measured[0] - targets[0]
    half = Fraction(1, 2)
    out = [
        (there - wanted - first + half) % 1 - half for there, wanted in zip(measured, targets, strict=True)
    ]
    middle = sorted(out)[len(out) // 2]
    return [(one - middle + half) % 1 - half for one in out]


def from_chords(chords_mm: Sequence[Fraction]) -> tuple[Inspected, float]:
    """Return the deviations from the distance of each hole to the next, and the diameter of their circle in mm.

    chords_mm  centre to centre, in order, the last back to the first, each above 0

    The circle on which they close is found with them; positions must be meant to be equal.
    Raises BadNumber when there are too few, BadLength when no circle closes.
    Source: derived; the angle of a chord c is 2 asin(c / D), and all make a full turn.
    """
    _checked(len(chords_mm), "chords")
    chords = [float(chord) for chord in chords_mm]
    if min(chords) <= 0:
        raise BadLength("chords", "one is not above 0; write centre to centre, in mm")

    def turned(diameter: float) -> float:
        return sum(2 * asin(min(chord / diameter, 1.0)) for chord in chords)

    low, high = max(chords), sum(chords)
    if turned(low) < 2 * pi:
        raise BadLength(
            "chords", "the longest is as long as all others go; measure each hole to the next one"
        )
    while high - low > 1e-13 * high:
        middle = (low + high) / 2
        low, high = (middle, high) if turned(middle) > 2 * pi else (low, middle)
    mean = 2 * pi / len(chords)
    return (
        Inspected(tuple((2 * asin(min(chord / low, 1.0)) - mean) * low / 2 * 1000 for chord in chords)),
        low,
    )


@dataclass(frozen=True, slots=True)
class Sizes:
    """A size measured at several places: over pins, across teeth, a thickness; in millimetres.

    mean    of all;  spread  greatest less least;  off  mean less wanted, None where nothing was wanted
    beyond  the places, counted from 1, where it is outside its limits
    all     what was measured at each place, in order
    low, high  its limits; None where there are none
    """

    mean: Fraction
    spread: Fraction
    off: Fraction | None
    beyond: tuple[int, ...] = ()
    all: tuple[Fraction, ...] = ()
    low: Fraction | None = None
    high: Fraction | None = None


def sizes(
    measured_mm: Sequence[Fraction],
    wanted_mm: Fraction | None = None,
    low_mm: Fraction | None = None,
    high_mm: Fraction | None = None,
) -> Sizes:
    """Return what a size at several places comes to. Raises BadNumber when there is none."""
    if not measured_mm:
        raise BadNumber("sizes", "none; write what was measured at each place, in mm")
    mean = Fraction(sum(measured_mm), len(measured_mm))
    beyond = tuple(
        place
        for place, size in enumerate(measured_mm, 1)
        if (low_mm is not None and size < low_mm) or (high_mm is not None and size > high_mm)
    )
    spread = max(measured_mm) - min(measured_mm)
    off = None if wanted_mm is None else mean - wanted_mm
    return Sizes(mean, spread, off, beyond, tuple(measured_mm), low_mm, high_mm)
