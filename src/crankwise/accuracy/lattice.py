"""Every way a part can come out but for its scatter, by points that fill all sizes and phases evenly.

Few dimensions are filled better than many. So waves on the same circle are first put together into one
of uniform phase, whose length has a distribution of its own; and scatters of the same weight into one.
Doubts may be many and are small: they have points of their own, which fill any number of dimensions.
"""

from collections.abc import Callable, Iterator, Sequence
from math import cos, hypot, pi, sin
from statistics import NormalDist

from crankwise.accuracy.pitch_law import (
    TO_EITHER_SIDE_95,
    Doubt,
    PitchLaw,
    Pull,
    Range,
    Scatter,
    waves_of,
)

Quantiles = Callable[[float], float]
"""The value that a share of all stays below, for a share from 0 to 1."""

_MULTIPLIERS = {31: 7, 61: 30, 127: 44, 251: 62, 503: 162}
"""The multiplier of each lattice, by its number of points."""

_TOGETHER = 503
"""Points by which sizes on one circle are put together."""


def outcomes(law: PitchLaw, count: int) -> Iterator[tuple[list[float], list[float]]]:
    """Yield for each of at most `count` points the errors without their scatter, and the variances of the scatter.

    Lengths in micrometres, variances in square micrometres, in the order of the law's positions. One
    point is enough, and only one is given, where nothing but a scatter of known size is left to chance.
    """
    circles = [(cosines, sines, lengths(sizes)) for cosines, sines, sizes in waves_of(law)]
    pulls = [(part.size.at, part.curve) for part in law.parts if isinstance(part, Pull)]
    scatters = [(squares(sizes), [one**2 for one in weight]) for weight, sizes in scatters_of(law)]
    doubts = [part.curve for part in law.parts if isinstance(part, Doubt)]
    ranges = [part.size for part in law.parts if isinstance(part, Pull | Scatter)]
    if not circles and not doubts and all(size.low == size.high for size in ranges):
        count = 1
    points = list(evenly(2 * len(circles) + len(pulls) + len(scatters), count))
    normal = NormalDist().inv_cdf
    for point, doubted in zip(points, evenly_in_many(len(doubts), len(points)), strict=True):
        chance = iter(point)
        errors = list(law.known)
        for cosines, sines, length in circles:
            size, phase = length(next(chance)), 2 * pi * next(chance)
            c, s = size * cos(phase), size * sin(phase)
            errors = [
                error + c * one - s * other for error, one, other in zip(errors, cosines, sines, strict=True)
            ]
        for pull, curve in pulls:
            size = pull(next(chance))
            errors = [error + size * one for error, one in zip(errors, curve, strict=True)]
        for share, curve in zip(doubted, doubts, strict=True):
            size = normal(share)
            errors = [error + size * one for error, one in zip(errors, curve, strict=True)]
        variances = [0.0] * len(errors)
        for square, weight in scatters:
            size = square(next(chance)) / TO_EITHER_SIDE_95**2
            variances = [total + size * one for total, one in zip(variances, weight, strict=True)]
        yield errors, variances


def scatters_of(law: PitchLaw) -> list[tuple[tuple[float, ...], list[Range]]]:
    """Return the scatters put together by their weights: the weights, the sizes that have them."""
    found: dict[tuple[float, ...], list[Range]] = {}
    for part in law.parts:
        if isinstance(part, Scatter):
            found.setdefault(part.weight, []).append(part.size)
    return list(found.items())


def lengths(sizes: Sequence[Range]) -> Quantiles:
    """Return the distribution of the length of waves of random phase put together."""
    if len(sizes) == 1:
        return sizes[0].at

    def length(point: Sequence[float]) -> float:
        x = y = 0.0
        for size, at, turn in zip(sizes, point[::2], point[1::2], strict=True):
            x, y = x + size.at(at) * cos(2 * pi * turn), y + size.at(at) * sin(2 * pi * turn)
        return hypot(x, y)

    return _sorted([length(point) for point in evenly(2 * len(sizes), _TOGETHER)])


def squares(sizes: Sequence[Range]) -> Quantiles:
    """Return the distribution of the sum of the sizes' squares."""
    if len(sizes) == 1:
        return lambda share: sizes[0].at(share) ** 2

    def square(point: Sequence[float]) -> float:
        return sum(size.at(at) ** 2 for size, at in zip(sizes, point, strict=True))

    return _sorted([square(point) for point in evenly(len(sizes), _TOGETHER)])


def _sorted(values: list[float]) -> Quantiles:
    values.sort()
    return lambda share: values[min(int(share * len(values)), len(values) - 1)]


def evenly(dimensions: int, count: int) -> Iterator[tuple[float, ...]]:
    """Yield at most so many points that fill a cube of sides 1 evenly; its middle where there is to be one.

    A lattice rule: point i of n has the coordinates (i a^j mod n + 1/2) / n, so that each dimension alone is
    filled as evenly as n points can. scripts/find_lattice.py finds the multiplier a of each n.
    """
    if count == 1:
        yield (0.5,) * dimensions
        return
    points = max((n for n in _MULTIPLIERS if n <= count), default=min(_MULTIPLIERS))
    steps = [pow(_MULTIPLIERS[points], power, points) for power in range(dimensions)]
    for index in range(points):
        yield tuple((index * step % points + 0.5) / points for step in steps)


def evenly_in_many(dimensions: int, count: int) -> Iterator[tuple[float, ...]]:
    """Yield so many points that fill a cube of any number of dimensions evenly, none of them on its sides.

    Each dimension goes on by a step of its own, a power of the root of x^(d + 1) = x + 1, and drops whole
    turns. Source: common practice for quasi-random points; the golden section is the case of one dimension.
    """
    root = 1.5
    for _ in range(60):
        root = (1 + root) ** (1 / (dimensions + 1))
    steps = [root ** -(power + 1) for power in range(dimensions)]
    for index in range(count):
        yield tuple((0.5 + (index + 1) * step) % 1 or 0.5 for step in steps)
