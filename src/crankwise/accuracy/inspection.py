"""The finished part as measured: its deviations, and what they say about the cause.

Whatever was measured becomes one curve: how far each position stands from where it should, along the rim.
Neighbours compared need no reference, and chords no exact diameter, since the circle closes.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate
from math import asin, atan2, cos, hypot, pi, sin
from statistics import median
from typing import Literal, NamedTuple

from crankwise.accuracy.chances import f_beyond, t_limit
from crankwise.accuracy.least_squares import least_squares
from crankwise.errors import BadLength, BadNumber

LEAST_POSITIONS = 3
MOST_POSITIONS = 100_000
LEAST_FOR_CAUSES = 8
LEVEL = 0.01

CauseName = Literal["off-centre", "slip", "bad-setting"]


@dataclass(frozen=True, slots=True)
class Inspected:
    """A part's deviations along the rim, in micrometres, positive the way the work advances.

    single  of the pitch from each position to the next, the last back to the first; they come to 0
    """

    single: tuple[float, ...]

    @property
    def cumulative(self) -> tuple[float, ...]:
        """How far each position stands from where it should, as seen from position 0."""
        return (0.0, *accumulate(self.single[:-1]))

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
        return max(abs(one - before) for before, one in zip(self.single, _on(self.single), strict=True))


def _on(values: Sequence[float]) -> tuple[float, ...]:
    return (*values[1:], values[0])


def _checked(count: int, what: str) -> None:
    if not LEAST_POSITIONS <= count <= MOST_POSITIONS:
        raise BadNumber(f"{what}: {count}; from {LEAST_POSITIONS} to {MOST_POSITIONS:,} all round the part")


def from_neighbours(readings_um: Sequence[Fraction]) -> Inspected:
    """Return the deviations from a comparator set to one pitch and carried round all.

    readings_um  for each pitch, in order, from any zero, in micrometres; larger for a wider pitch

    The mean is the pitch itself, since all pitches make the circle. Raises BadNumber when there are too few.
    Source: closure, as for the steps of a head.
    """
    _checked(len(readings_um), "pitches")
    mean = Fraction(sum(readings_um), len(readings_um))
    return Inspected(tuple(float(reading - mean) for reading in readings_um))


def from_angles(measured: Sequence[Fraction], targets: Sequence[Fraction], rim_mm: Fraction) -> Inspected:
    """Return the deviations from measured angles.

    measured, targets  of each position, in turns, from any zero
    rim_mm             diameter of the rim, above 0

    Raises BadNumber when they are not as many, or too few.
    """
    _checked(len(measured), "angles")
    if len(measured) != len(targets):
        raise BadNumber(f"angles: {len(measured)} measured; the part has {len(targets)} positions")
    out = [
        (there - wanted + Fraction(1, 2)) % 1 - Fraction(1, 2)
        for there, wanted in zip(measured, targets, strict=True)
    ]
    along = [float(one) * pi * float(rim_mm) * 1000 for one in out]
    return Inspected(tuple(after - before for before, after in zip(along, _on(along), strict=True)))


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
        raise BadLength("chords: one is not above 0; write centre to centre, in mm")

    def turned(diameter: float) -> float:
        return sum(2 * asin(min(chord / diameter, 1.0)) for chord in chords)

    low, high = max(chords), sum(chords)
    if turned(low) < 2 * pi:
        raise BadLength("chords: the longest is as long as all others go; measure each hole to the next one")
    while high - low > 1e-13 * high:
        middle = (low + high) / 2
        low, high = (middle, high) if turned(middle) > 2 * pi else (low, middle)
    mean = 2 * pi / len(chords)
    return (
        Inspected(tuple((2 * asin(min(chord / low, 1.0)) - mean) * low / 2 * 1000 for chord in chords)),
        low,
    )


class Cause(NamedTuple):
    """What the deviations point to.

    name    off-centre: a wave once per turn; slip: a step that stays; bad-setting: one position out, the
            next right again
    size    in micrometres along the rim: the amplitude, the step, or how far that position is out
    at      the position where the wave is highest, after which the step is, or which is out
    chance  how often chance alone gives as much; judged from what is left of the other pitches
    """

    name: CauseName
    size: float
    at: int
    chance: float


def causes(part: Inspected) -> tuple[Cause, ...]:
    """Return what the deviations point to, the plainest first; nothing where chance alone may have made them.

    Too few positions tell no cause: below 8 nothing is said.
    Source: the wave by an F test; steps by what is left, held against Student's t on the median deviation.
    """
    count = len(part.single)
    if count < LEAST_FOR_CAUSES:
        return ()
    odd: set[int] = set()
    left: list[float] = []
    wave: Cause | None = None
    for _ in range(3):
        wave, left = _wave(part.single, odd)
        spread = 1.4826 * median(abs(one) for one in left)
        limit = t_limit(max(count - 3, 1), LEVEL / count)
        found = {k for k, one in enumerate(left) if abs(one) > limit * spread} if spread else set()
        if found == odd:
            break
        odd = found
    steps = _steps(left, odd, count)
    return ((wave,) if wave else ()) + tuple(sorted(steps, key=lambda one: -abs(one.size)))


def _wave(single: Sequence[float], odd: set[int]) -> tuple[Cause | None, list[float]]:
    """Fit the once per turn to the pitches that are not odd; return it, and what is left of every pitch."""
    count = len(single)
    kept = [k for k in range(count) if k not in odd]
    if len(kept) < LEAST_FOR_CAUSES - 2:
        return None, list(single)
    angles = [2 * pi * (k + 0.5) / count for k in range(count)]
    rows = [[1.0] * count, [cos(angle) for angle in angles], [sin(angle) for angle in angles]]
    solved = least_squares([[row[k] for k in kept] for row in rows], [single[k] for k in kept])
    middle = sum(single[k] for k in kept) / len(kept)
    before = sum((single[k] - middle) ** 2 for k in kept)
    freedom = solved.freedom
    floor = max(solved.squares, before * 1e-18)
    chance = f_beyond((before - solved.squares) / 2 / (floor / freedom), 2, freedom) if before else 1.0
    if chance >= LEVEL:
        return None, [one - middle for one in single]
    _, c, s = solved.values
    # A wave e cos(a - p) of the positions makes pitches of -2 e sin(pi / n) sin(a - p), a at their middle.
    size = hypot(c, s) / (2 * sin(pi / count))
    top = (atan2(s, c) / (2 * pi) + 0.25) % 1
    fitted = [
        sum(value * row[k] for value, row in zip(solved.values, rows, strict=True)) for k in range(count)
    ]
    left = [one - fit for one, fit in zip(single, fitted, strict=True)]
    return Cause("off-centre", size, round(top * count) % count, chance), left


def _steps(left: Sequence[float], odd: set[int], count: int) -> list[Cause]:
    found = []
    done: set[int] = set()
    for k in sorted(odd):
        after = (k + 1) % count
        if k in done:
            continue
        if (
            after in odd
            and left[k] * left[after] < 0
            and abs(left[k] + left[after]) < max(map(abs, (left[k], left[after]))) / 2
        ):
            found.append(Cause("bad-setting", (left[k] - left[after]) / 2, after, LEVEL))
            done |= {k, after}
        else:
            found.append(Cause("slip", left[k], k, LEVEL))
    return found


@dataclass(frozen=True, slots=True)
class Sizes:
    """A size measured at several places: over pins, across teeth, a thickness; in millimetres.

    mean    of all;  spread  greatest less least;  off  mean less wanted, None where nothing was wanted
    """

    mean: Fraction
    spread: Fraction
    off: Fraction | None


def sizes(measured_mm: Sequence[Fraction], wanted_mm: Fraction | None = None) -> Sizes:
    """Return what a size at several places comes to. Raises BadNumber when there is none."""
    if not measured_mm:
        raise BadNumber("sizes: none; write what was measured at each place, in mm")
    mean = Fraction(sum(measured_mm), len(measured_mm))
    return Sizes(mean, max(measured_mm) - min(measured_mm), None if wanted_mm is None else mean - wanted_mm)
