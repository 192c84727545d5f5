"""What the deviations of a finished part point to: off centre, a slip, a step that added up, a bad setting."""

from collections.abc import Sequence
from itertools import accumulate, pairwise
from math import atan2, cos, hypot, log, pi, sin, sqrt
from statistics import median
from typing import Literal, NamedTuple

from crankwise.accuracy.chances import f_beyond, t_limit
from crankwise.accuracy.inspection import Inspected
from crankwise.accuracy.least_squares import Indistinct, dot, least_squares

LEAST_FOR_CAUSES = 6
LEVEL = 0.01
_STEP_SEEN = 0.5
"""Of a step's own square, in positions: below it a step is told from level and wave by nothing but chance."""
_NEIGHBOURS = 7
"""Waves that are fitted with the once per turn, and tell what chance makes of one."""

CauseName = Literal["off-centre", "slip", "added-up", "bad-setting"]


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
