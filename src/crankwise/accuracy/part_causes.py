"""What the deviations of a finished part point to: off centre, a slip, steps that add up, a position set wrong."""

from collections.abc import Sequence, Set
from math import atan2, cos, hypot, log, pi, sqrt
from typing import Literal, NamedTuple

from crankwise.accuracy.chances import f_beyond
from crankwise.accuracy.inspection import Inspected, wave_of_pitches
from crankwise.accuracy.least_squares import Indistinct, dot, least_squares
from crankwise.accuracy.part_steps import StepName, part_steps
from crankwise.accuracy.step_signatures import LEVEL

LEAST_FOR_CAUSES = 6
_NEIGHBOURS = 7
"""Waves that are fitted with the once per turn, and tell what chance makes of one."""

CauseName = Literal["off-centre"] | StepName


class Cause(NamedTuple):
    """What the deviations point to.

    name    off-centre: a wave once per turn; slip: a step that stays; added-up: the last pitch alone takes up
            what all others have too much or too little; bad-setting: one position out, the next right again;
            misread: one pitch that nothing takes back, so that the readings do not close
    size    in micrometres along the rim: the amplitude, the step, how far that position is out, or by how much
            the pitch was misread
    at      the position where the wave is highest, after which the step or the misread pitch is, or which is out
    chance  how often chance alone gives as much; judged from what is left of the other pitches
    towards of a wave: the position towards which the middle of the part stood off the axis; it lies a quarter
            turn before the highest, since there an offset carries the rim straight on
    odds    of a step: how many times likelier than the next explanation, `part_steps.MOST_ODDS` and more told as
            that; None where the readings cannot tell it from a misreading, and of a wave
    """

    name: CauseName
    size: float
    at: int
    chance: float
    towards: int | None = None
    odds: float | None = None


def causes(part: Inspected) -> tuple[Cause, ...]:
    """Return what the deviations point to, the plainest first; nothing where chance alone may have made them.

    Too few positions tell no cause: below 6 nothing is said. Positions within half a turn tell no wave.
    Source: the wave by an F test against the next slower ones, two to seven times round, since scatter between
    neighbours adds up to a wandering sum that must pass for no wave; simulated, chance alone passes for one in
    fewer than one part in fifteen. Steps by `step_signatures`: simulated, chance alone makes one in fewer than one
    part in twenty, whether the positions scatter, the gauge, or both.
    """
    count = len(part.single)
    if count < LEAST_FOR_CAUSES:
        return ()
    steps, places = part_steps(part)
    wave = _wave(part, places)
    told = (Cause(one.name, one.size, one.at, LEVEL, odds=one.odds) for one in steps)
    return (*([wave] if wave else []), *told)


def _wave(part: Inspected, odd: Set[int]) -> Cause | None:
    """Return the once per turn that the pitches that are not odd show; None where it may be chance."""
    single = part.single
    kept = [k for k in range(len(single)) if k not in odd]
    orders = range(1, min(_NEIGHBOURS, (len(kept) - 2) // 2) + 1)
    if len(orders) < 2 or not part.goes_far_enough:
        return None
    rows = [[1.0] * len(single)]
    for order in orders:
        rows += wave_of_pitches(part, order)
    columns = [[row[k] for k in kept] for row in rows]
    try:
        solved = least_squares(columns, [single[k] for k in kept])
    except Indistinct:
        return None
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
        return None
    c, s = solved.values[1:3]
    top = atan2(s, c) / (2 * pi)
    return Cause(
        "off-centre", hypot(c, s), _nearest(part.angles, top), chance, _nearest(part.angles, top - 0.25)
    )


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
    """Return the position nearest to an angle; all in turns."""
    return max(range(len(angles)), key=lambda k: cos(2 * pi * (angles[k] - angle)))
