"""Cut many gears in the computer: the same law, with its chances drawn from a seeded generator.

This is the one file of the trade that uses a package: numpy, from the extra `accuracy`, imported where it
is used (docs/decisions/0008). Memory is bounded: gears are cut in batches that fit a processor's cache,
and of each gear only its two deviations are kept.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from crankwise.accuracy.bounds import CONFIDENCE, Bounds
from crankwise.accuracy.pitch_law import TO_EITHER_SIDE_95, Doubt, PitchLaw, Pull, Scatter, waves_of
from crankwise.errors import BadNumber, MissingExtra

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

GENERATOR = "PCG64"
MOST_GEARS = 10_000_000
_VALUES_AT_ONCE = 64_000
"""Half a megabyte: a batch and its differences stay in a processor's own cache."""


@dataclass(frozen=True, slots=True)
class Simulated:
    """What came out of so many gears.

    gears        how many were cut
    bounds       what 95 in 100 of them keep, in micrometres at the rim
    error        standard error of those two figures, by the chance of the drawing
    """

    gears: int
    seed: int
    bounds: Bounds
    error: Bounds


@dataclass(frozen=True, slots=True)
class Batch:
    """One batch of gears: the largest pitch deviation and the cumulative deviation of each, in micrometres."""

    single: "Floats"
    cumulative: "Floats"


@dataclass(frozen=True, slots=True)
class Spread:
    """How often each size came out, in steps of the same width from `low` on, in micrometres."""

    low: float
    step: float
    counts: tuple[int, ...]


def the_package() -> Any:
    """Return numpy. Raises MissingExtra when it is not installed."""
    try:
        import numpy
    except ImportError:
        raise MissingExtra(
            "simulation: its package is not installed; get it with  pip install 'crankwise[accuracy]'  "
            "or do without: the closed form needs nothing more"
        ) from None
    return numpy


def batches(law: PitchLaw, gears: int, seed: int) -> Iterator[Batch]:
    """Yield the deviations of so many gears, batch by batch; stop asking and it stops.

    gears  1 to 10,000,000
    seed   0 or more; the same seed cuts the same gears

    Raises BadNumber when there are too few or too many gears, MissingExtra without numpy.
    """
    if not 1 <= gears <= MOST_GEARS:
        raise BadNumber("simulate", f"{gears:,} gears; from 1 to {MOST_GEARS:,}")
    if seed < 0:
        raise BadNumber("seed", f"{seed}; a seed is 0 or more")
    return _cut(law, gears, seed)


def _cut(law: PitchLaw, gears: int, seed: int) -> Iterator[Batch]:
    np = the_package()
    chance = np.random.Generator(np.random.PCG64(seed))
    workshop = _Workshop(law, chance, np)
    at_once = max(1, _VALUES_AT_ONCE // len(law.known))
    for done in range(0, gears, at_once):
        yield workshop.batch(min(at_once, gears - done))


def one_part(law: PitchLaw, seed: int) -> tuple[float, ...]:
    """Return the error of every position of one part, cut by this seed, in micrometres at the rim.

    Raises MissingExtra without numpy.
    """
    np = the_package()
    cut = _Workshop(law, np.random.Generator(np.random.PCG64(seed)), np).errors(1)
    return tuple(float(error) for error in cut[0])


class _Workshop:
    """The law as arrays, and the generator; cuts gears."""

    def __init__(self, law: PitchLaw, chance: Any, np: Any) -> None:
        self.np, self.chance, self.law = np, chance, law
        self.known = np.array(law.known)
        self.circles = [sizes for _, _, sizes in waves_of(law)]
        self.pulls = [part for part in law.parts if isinstance(part, Pull)]
        rows = [row for cosines, sines, _ in waves_of(law) for row in (cosines, sines)]
        doubts = [part.curve for part in law.parts if isinstance(part, Doubt)]
        self.doubts = len(doubts)
        self.curves = np.array([*rows, *(pull.curve for pull in self.pulls), *doubts])
        self.curves = self.curves.reshape(-1, len(law.known))
        self.scatters: dict[tuple[float, ...], list[Scatter]] = {}
        for part in law.parts:
            if isinstance(part, Scatter):
                self.scatters.setdefault(part.weight, []).append(part)
        self.weights = np.array(list(self.scatters)).reshape(-1, len(law.known)) ** 2

    def batch(self, gears: int) -> Batch:
        """Return the deviations of so many gears more."""
        np, errors = self.np, self.errors(gears)
        cumulative = errors.max(axis=1) - errors.min(axis=1)
        pitches = np.diff(errors, axis=1)
        if not pitches.shape[1]:
            return Batch(np.zeros(gears), cumulative)
        single = np.maximum(pitches.max(axis=1), -pitches.min(axis=1))
        if self.law.goes_round:
            np.maximum(single, np.abs(errors[:, 0] - errors[:, -1]), out=single)
        return Batch(single, cumulative)

    def errors(self, gears: int) -> "Floats":
        """Return the error of every position of so many gears, in micrometres, a row a gear."""
        np = self.np
        shape = (gears, len(self.known))
        smooth = self._sizes(gears) @ self.curves
        smooth += self.known
        if not self.scatters:
            return np.broadcast_to(smooth, shape)  # type: ignore[no-any-return]
        spread = np.stack(
            [
                sum(self._drawn(part.size.low, part.size.high, gears) ** 2 for part in parts)
                for parts in self.scatters.values()
            ],
            axis=1,
        ) / (TO_EITHER_SIDE_95**2)
        errors = self.chance.standard_normal(shape)
        if len(self.scatters) == 1 and (self.weights == self.weights[0, 0]).all():
            errors *= np.sqrt(spread * self.weights[0, 0])
        else:
            spreads = spread @ self.weights
            errors *= np.sqrt(spreads, out=spreads)
        errors += smooth
        return errors  # type: ignore[no-any-return]

    def _sizes(self, gears: int) -> "Floats":
        """Return how much of each curve is in each gear."""
        np, columns = self.np, []
        for sizes in self.circles:
            c, s = np.zeros(gears), np.zeros(gears)
            for size in sizes:
                length, phase = self._drawn(size.low, size.high, gears), self._drawn(0, 2 * np.pi, gears)
                c, s = c + length * np.cos(phase), s - length * np.sin(phase)
            columns += [c, s]
        columns += [self._drawn(pull.size.low, pull.size.high, gears) for pull in self.pulls]
        columns += [self.chance.standard_normal(gears) for _ in range(self.doubts)]
        return np.stack(columns, axis=1) if columns else np.zeros((gears, 0))  # type: ignore[no-any-return]

    def _drawn(self, low: float, high: float, gears: int) -> "Floats":
        return self.chance.uniform(low, high, gears)  # type: ignore[no-any-return]


def summed_up(found: list[Batch], seed: int) -> Simulated:
    """Return what the gears cut so far say; one batch or more.

    The standard error of a quantile is sqrt(p (1 - p) / n) over the density there, taken from the two
    quantiles next to it. Source: any book on order statistics.
    """
    np = the_package()
    single = np.concatenate([batch.single for batch in found])
    cumulative = np.concatenate([batch.cumulative for batch in found])
    values, errors = zip(*(_quantile(np, each) for each in (single, cumulative)), strict=True)
    return Simulated(len(single), seed, Bounds(*values), Bounds(*errors))


def _quantile(np: Any, values: "Floats") -> tuple[float, float]:
    step = (CONFIDENCE * (1 - CONFIDENCE) / len(values)) ** 0.5
    below, middle, above = np.quantile(
        values, [max(CONFIDENCE - step, 0), CONFIDENCE, min(CONFIDENCE + step, 1)]
    )
    return float(middle), float(above - below) / 2


def spreads(found: list[Batch], steps: int = 40) -> tuple[Spread, Spread]:
    """Return how the single and the cumulative deviations of the gears cut so far are spread."""
    np = the_package()
    told = []
    for values in ([batch.single for batch in found], [batch.cumulative for batch in found]):
        counts, edges = np.histogram(np.concatenate(values), bins=steps)
        told.append(Spread(float(edges[0]), float(edges[1] - edges[0]), tuple(int(one) for one in counts)))
    return told[0], told[1]


def simulate(law: PitchLaw, gears: int, seed: int) -> Simulated:
    """Return what so many gears say, all cut at once. See `batches` for the ranges and what is raised."""
    return summed_up(list(batches(law, gears, seed)), seed)
