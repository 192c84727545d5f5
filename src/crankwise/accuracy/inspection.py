"""The finished part as measured: its deviations, and what they say about the cause.

Whatever was measured becomes one curve: how far each position stands from where it should, along the rim.
Neighbours compared need no reference, and chords no exact diameter, since the circle closes.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate, pairwise
from math import asin, atan2, cos, hypot, log, pi, sin, sqrt
from statistics import median
from typing import Literal, NamedTuple

from crankwise.accuracy.chances import f_beyond, t_limit
from crankwise.accuracy.least_squares import Indistinct, dot, least_squares
from crankwise.errors import BadLength, BadNumber

LEAST_POSITIONS = 3
MOST_POSITIONS = 100_000
LEAST_FOR_CAUSES = 6
LEVEL = 0.01
_STEP_SEEN = 0.5
"""Of a step's own square, in positions: below it a step is told from level and wave by nothing but chance."""
_NEIGHBOURS = 7
"""Waves that are fitted with the once per turn, and tell what chance makes of one."""

CauseName = Literal["off-centre", "slip", "added-up", "bad-setting"]


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
        raise BadNumber(f"angles: {len(measured)} measured; the part has {len(targets)} positions")
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

    name    off-centre: a wave once per turn; slip: a step that stays; added-up: the last pitch alone takes up
            what all others have too much or too little; bad-setting: one position out, the next right again
    size    in micrometres along the rim: the amplitude, the step, or how far that position is out
    at      the position where the wave is highest, after which the step is, or which is out
    chance  how often chance alone gives as much; judged from what is left of the other pitches
    towards of a wave: the position towards which the middle of the part stood off the axis; it lies a quarter
            turn before the highest, since there an offset carries the rim straight on
    """

    name: CauseName
    size: float
    at: int
    chance: float
    towards: int | None = None


def causes(part: Inspected) -> tuple[Cause, ...]:
    """Return what the deviations point to, the plainest first; nothing where chance alone may have made them.

    Too few positions tell no cause: below 6 nothing is said. Positions within half a turn tell no wave.
    Source: the wave by an F test against the next slower ones, two to seven times round, since scatter between
    neighbours adds up to a wandering sum that must pass for no wave; simulated, chance alone passes for one in
    fewer than one part in fifteen. Steps by what is left, held against Student's t on the median deviation.
    """
    count = len(part.single)
    if count < LEAST_FOR_CAUSES:
        return ()
    odd: set[int] = set()
    left: list[float] = []
    wave: Cause | None = None
    for _ in range(3):
        wave, left = _wave(part, odd)
        spread = 1.4826 * median(abs(one) for one in left)
        limit = t_limit(max(count - 3, 1), LEVEL / count)
        found = {k for k, one in enumerate(left) if abs(one) > limit * spread} if spread else set()
        if found == odd:
            break
        odd = found
    steps = _steps(left, odd, part.goes_round)
    return ((wave,) if wave else ()) + tuple(sorted(steps, key=lambda one: -abs(one.size)))


def _goes_far_enough(angles: Sequence[float]) -> bool:
    """Whether no gap between neighbours is as large as half a turn."""
    ordered = sorted(angle % 1 for angle in angles)
    return max(after - before for before, after in pairwise([*ordered, ordered[0] + 1])) < 0.5


def _wave(part: Inspected, odd: set[int]) -> tuple[Cause | None, list[float]]:
    """Fit the once per turn to the pitches that are not odd; return it, and what is left of every pitch."""
    single, angles = part.single, [2 * pi * angle for angle in part.angles]
    kept = [k for k in range(len(single)) if k not in odd]
    orders = range(1, min(_NEIGHBOURS, (len(kept) - 2) // 2) + 1)
    if len(orders) < 2 or not _goes_far_enough(part.angles):
        return None, list(single)
    # A wave of the positions makes pitches of its value at the end less that at the beginning.
    ends = list(pairwise((*angles, angles[0]) if part.goes_round else angles))
    rows = [[1.0] * len(ends)]
    for order in orders:
        rows.append([cos(order * end) - cos(order * begin) for begin, end in ends])
        rows.append([sin(order * end) - sin(order * begin) for begin, end in ends])
    columns = [[row[k] for k in kept] for row in rows]
    try:
        solved = least_squares(columns, [single[k] for k in kept])
    except Indistinct:
        return None, list(single)
    sizes_of = [dot(row, row) for row in columns]
    heights = [
        solved.values[k] ** 2 * sizes_of[k] + solved.values[k + 1] ** 2 * sizes_of[k + 1]
        for k in range(1, len(columns), 2)
    ]
    slopes = [
        sqrt((sizes_of[k] + sizes_of[k + 1]) / (sizes_of[1] + sizes_of[2])) for k in range(1, len(columns), 2)
    ]
    chance = _chance(heights, slopes, bool(part.targets))
    if chance >= LEVEL:
        middle = sum(single[k] for k in kept) / len(kept)
        return None, [one - middle for one in single]
    c, s = solved.values[1:3]
    top = atan2(s, c)
    left = [one - c * x - s * y for one, x, y in zip(single, rows[1], rows[2], strict=True)]
    found = Cause("off-centre", hypot(c, s), _nearest(angles, top), chance, _nearest(angles, top - pi / 2))
    return found, left


def _chance(heights: Sequence[float], slopes: Sequence[float], of_positions: bool) -> float:
    """Return how often chance makes so high a first wave, judged by the others.

    heights       squares of the waves, as they stand in the pitches
    slopes        how much a wave of the positions grows, from the first on, when it is seen in the pitches
    of_positions  whether each position was measured by itself, so that scatter is that of positions

    Scatter of positions makes waves that rise with the slope's square, scatter of the gauge between neighbours
    makes even ones, both together something between. The most cautious of the three that the others do not
    contradict is taken: by likelihood, not more than e times less likely than the best.
    """
    tried = []
    for power in (2,) if of_positions else (0, 1, 2):
        shape = [slope**power for slope in slopes]
        ratios = [height / there for height, there in zip(heights[1:], shape[1:], strict=True)]
        mean = max(sum(ratios) / len(ratios), heights[0] * 1e-18)
        if not mean:
            return 1.0
        tried.append((-sum(log(there * mean) for there in shape[1:]), mean))
    best = max(likely for likely, _ in tried)
    mean = next(mean for likely, mean in tried if likely >= best - 1)
    return f_beyond(heights[0] / mean, 2, 2 * (len(heights) - 1))


def _nearest(angles: Sequence[float], angle: float) -> int:
    """Return the position nearest to an angle; all in radians."""
    return max(range(len(angles)), key=lambda k: cos(angles[k] - angle))


def _steps(left: Sequence[float], odd: set[int], goes_round: bool) -> list[Cause]:
    found = []
    done: set[int] = set()
    for k in sorted(odd):
        after = (k + 1) % len(left) if goes_round else k + 1
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
    return _without_the_closing(found, left) if goes_round else found


def _without_the_closing(steps: list[Cause], left: Sequence[float]) -> list[Cause]:
    """Return the steps with the one from the last position back to the first told for what it is.

    Position 0 was cut before anything slipped, so the last pitch takes back all that slipped on the way: no
    slip of its own. Where no other pitch stands out, the curve says whether it slipped at one place or was added
    up little by little.
    """
    closing = next((one for one in steps if one.name == "slip" and one.at == len(left) - 1), None)
    if closing is None:
        return steps
    others = [one for one in steps if one is not closing]
    slipped = [one.size for one in others if one.name == "slip"]
    if not slipped:
        return [*others, _slipped_or_added_up(closing, left)]
    taken_back = abs(closing.size + sum(slipped)) < abs(closing.size) / 2
    return others if taken_back else steps


def _slipped_or_added_up(closing: Cause, left: Sequence[float]) -> Cause:
    """Return what the last pitch takes back: the step that fits the curve best, or a slope where that fits better.

    Either is fitted beside a level and a wave once per turn, which may not have been seen for the step. One
    that is not about as large as what the last pitch takes back is not believed; that pitch is then told as it is.
    Source: derived; least squares, level and wave being projected out of the curve and of what is tried.
    """
    count = len(left)
    turns = [2 * pi * k / count for k in range(count)]
    even = ([sqrt(1 / count)] * count, *([sqrt(2 / count) * f(turn) for turn in turns] for f in (cos, sin)))
    # All pitches with the last come to nothing; what was taken for their mean is put back.
    back = sum(left) / count
    curve = [0.0, *accumulate(one - back for one in left[:-1])]
    for row in even:
        along = dot(row, curve)
        curve = [one - along * there for one, there in zip(curve, row, strict=True)]

    slope = [float(k) for k in range(count)]
    free = dot(slope, slope) - sum(dot(row, slope) ** 2 for row in even)
    found = dot(slope, curve)
    best, size, at, name = found**2 / free, found / free * count, closing.at, "added-up"
    after = [0.0] * (len(even) + 1)
    for k in range(count - 1, 0, -1):  # a step before position k: all from k on
        after = [one + row[k] for one, row in zip(after, (*even, curve), strict=True)]
        free = count - k - sum(one**2 for one in after[:-1])
        if free > _STEP_SEEN and after[-1] ** 2 / free > best:
            best, size, at, name = after[-1] ** 2 / free, after[-1] / free, k - 1, "slip"
    if abs(size + closing.size) > abs(closing.size) / 2:
        return closing
    return closing._replace(name="added-up") if name == "added-up" else closing._replace(size=size, at=at)


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
        raise BadNumber("sizes: none; write what was measured at each place, in mm")
    mean = Fraction(sum(measured_mm), len(measured_mm))
    beyond = tuple(
        place
        for place, size in enumerate(measured_mm, 1)
        if (low_mm is not None and size < low_mm) or (high_mm is not None and size > high_mm)
    )
    spread = max(measured_mm) - min(measured_mm)
    off = None if wanted_mm is None else mean - wanted_mm
    return Sizes(mean, spread, off, beyond, tuple(measured_mm), low_mm, high_mm)
