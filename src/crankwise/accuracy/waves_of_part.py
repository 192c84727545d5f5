"""What one measured part shows of its head: the waves that the head and its mounting left on it, and the rest.

The errors of the positions, less the way's own rounding, are fitted by least squares with a wave for each
circle that turns on the head: once round the spindle, once and twice round the crank. What is left scatters.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import cos, pi, sin

from crankwise.accuracy.inspection import Inspected
from crankwise.accuracy.least_squares import Columns, Indistinct, Solved, least_squares
from crankwise.accuracy.pitch_law import TO_EITHER_SIDE_95, Pull, Scatter, Wave
from crankwise.accuracy.sources import SizedCause, causes, pitch_law
from crankwise.head.error_sizes import Size
from crankwise.plan.plan import Plan

CIRCLES: Mapping[str, tuple[str, ...]] = {
    "spindle": ("work-off-centre", "wheel", "ring-off-centre"),
    "crank": ("worm", "dial-off-centre"),
    "crank-twice": ("worm-twice",),
}
"""The circles that make waves, each with the causes that follow it."""

LEAST_TOLD = 4.0
"""Times the variance that an even circle would tell a wave with, from where positions do not tell it."""


@dataclass(frozen=True, slots=True)
class MeasuredPart:
    """One part of a head: how it was divided, where errors are told, and how far each position is out.

    rim_mm  diameter, above 0
    """

    plan: Plan
    rim_mm: float
    part: Inspected


@dataclass(frozen=True, slots=True)
class PartWave:
    """A wave found on one part, in micrometres at the rim: its cosine and sine, and the variance of each."""

    cosine: float
    sine: float
    variance: float


@dataclass(frozen=True, slots=True)
class PartWaves:
    """What one part shows.

    per_arcsec  micrometres at the rim that a second of arc comes to
    waves       by circle; a circle that its positions cannot tell is left out
    squares     of what is left, in square micrometres;  freedom  of them
    expected    the same as the sizes of the causes that scatter would make it
    causes      the causes that the part's way meets, with their sizes
    """

    per_arcsec: float
    waves: dict[str, PartWave]
    squares: float
    freedom: int
    expected: float
    causes: tuple[SizedCause, ...]


def part_waves(measured: MeasuredPart, sizes: Mapping[str, Size]) -> PartWaves:
    """Return what a part shows of its head.

    sizes  what is known of the head now, by the cause's name

    Source: least squares; the variance of a wave from what is left. The expected squares are those of
    independent scatters seen through the same fit: the sum of variance x (1 - leverage).
    """
    plan, rim = measured.plan, measured.rim_mm
    found = causes(plan, sizes)
    law = pitch_law(plan, (), rim)
    errors = [one - known for one, known in zip(measured.part.cumulative, law.known, strict=True)]
    circles = _circles(plan, found, rim)
    columns, solved, kept = _fitted(errors, circles)
    variance = solved.squares / solved.freedom if solved.freedom > 0 else 0.0
    waves = {}
    for number, name in enumerate(kept):
        c, s = 1 + 2 * number, 2 + 2 * number
        unsure = variance * (solved.inverse[c][c] + solved.inverse[s][s]) / 2
        waves[name] = PartWave(solved.values[c], solved.values[s], unsure)
    return PartWaves(
        pi / 648_000 * rim / 2 * 1000,
        waves,
        solved.squares,
        solved.freedom,
        _expected(plan, found, rim, columns, solved),
        found,
    )


def _circles(plan: Plan, found: Sequence[SizedCause], rim_mm: float) -> dict[str, tuple[float, ...]]:
    """Return the circles that the part's causes follow, with how far each position has turned on it."""
    cycles: dict[str, tuple[float, ...]] = {}
    for name, followers in CIRCLES.items():
        for cause in found:
            if cause.kind.name not in followers or name in cycles:
                continue
            for part in pitch_law(plan, (cause,), rim_mm).parts:
                if isinstance(part, Wave):
                    cycles[name] = part.cycles
    return cycles


def _fitted(
    errors: Sequence[float], circles: dict[str, tuple[float, ...]]
) -> tuple[Columns, Solved, list[str]]:
    """Fit all circles that the positions can tell apart; the later ones are given up first."""
    kept = list(circles)
    while True:
        columns = [[1.0] * len(errors)]
        for name in kept:
            columns.append([cos(2 * pi * turn) for turn in circles[name]])
            columns.append([sin(2 * pi * turn) for turn in circles[name]])
        try:
            solved = least_squares(columns, errors)
        except Indistinct as told:
            kept.pop((told.column - 1) // 2 if told.column else -1)
            continue
        most = LEAST_TOLD * 2 / len(errors)
        unsure = [
            name
            for number, name in enumerate(kept)
            if max(solved.inverse[k][k] for k in (1 + 2 * number, 2 + 2 * number)) > most
        ]
        if not unsure or solved.freedom < 0:
            return columns, solved, kept
        kept.remove(unsure[-1])


def _expected(
    plan: Plan, found: Sequence[SizedCause], rim_mm: float, columns: Columns, solved: Solved
) -> float:
    count = len(solved.residuals)
    free = []
    for index in range(count):
        row = [column[index] for column in columns]
        leverage = sum(
            here * there * solved.inverse[i][j] for i, here in enumerate(row) for j, there in enumerate(row)
        )
        free.append(1 - leverage)
    total = 0.0
    for part in pitch_law(plan, found, rim_mm).parts:
        if isinstance(part, Scatter):
            square = part.size.mean_square / TO_EITHER_SIDE_95**2
            total += square * sum(weight**2 * left for weight, left in zip(part.weight, free, strict=True))
        elif isinstance(part, Pull):
            total += part.size.mean_square * sum(
                one**2 * left for one, left in zip(part.curve, free, strict=True)
            )
    return total
