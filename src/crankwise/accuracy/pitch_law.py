"""The law of a part's errors: position by position, what is known and what is left to chance.

The error of position k along the rim, in micrometres, positive the way the work advances, is

    known[k] + sum of waves: size * cos(2 pi cycles[k] + phase)
             + sum of pulls: size * curve[k]
             + sum of scatters: a normal chance of its own for each position, size * weight[k]
             + sum of doubts: one normal chance for the whole part * curve[k]

The size of each is somewhere in its range, every value as likely as the next; so is a wave's phase all
round. A scatter's size is what 19 in 20 keep to either side. All are independent.
Source: propagation of errors through a sum; the JCGM guide (GUM), 5.1, for the standard deviations.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, pi, sin

TO_EITHER_SIDE_95 = 1.959963984540054
"""Standard deviations that 95 % of a normal distribution keep to either side."""


@dataclass(frozen=True, slots=True)
class Range:
    """A size in micrometres at the rim, from low to high, each as likely; low = high when it is known."""

    low: float
    high: float

    def at(self, chance: float) -> float:
        """Return the size that a share `chance` of all stays below."""
        return self.low + chance * (self.high - self.low)

    @property
    def mean(self) -> float:
        """The mean size."""
        return (self.low + self.high) / 2

    @property
    def mean_square(self) -> float:
        """The mean of the size's square: (a^2 + ab + b^2) / 3 of a rectangular distribution."""
        return (self.low**2 + self.low * self.high + self.high**2) / 3

    def times(self, factor: float) -> "Range":
        """Return the range so many times as large."""
        return Range(self.low * factor, self.high * factor)


@dataclass(frozen=True, slots=True)
class Wave:
    """A sine: size, and how many turns of it have passed at each position."""

    size: Range
    cycles: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Pull:
    """An error of known shape and unknown size."""

    size: Range
    curve: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Scatter:
    """A chance of its own at each position; the weights say at which it is larger."""

    size: Range
    weight: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Doubt:
    """What a measurement left in doubt: one normal chance for the whole part, times a curve of standard deviations."""

    curve: tuple[float, ...]


Part = Wave | Pull | Scatter | Doubt


@dataclass(frozen=True, slots=True)
class PitchLaw:
    """The errors of all positions, in the order in which they stand on the part.

    known       known errors, in micrometres at the rim
    parts       what is left to chance
    goes_round  whether the last position is followed by the first
    """

    known: tuple[float, ...]
    parts: tuple[Part, ...]
    goes_round: bool

    @property
    def pitches(self) -> int:
        """How many pitches there are from one position to the next."""
        count = len(self.known)
        return count if self.goes_round and count > 1 else count - 1

    def variance(self, one: int, other: int) -> float:
        """Return the variance of the error of one position less that of another, in square micrometres.

        Exact: a wave of random phase has covariance size^2 / 2 * cos of the angle between the two.
        Source: GUM 5.1.2, all sensitivities being 1.
        """
        total = 0.0
        for part in self.parts:
            if isinstance(part, Wave):
                between = 2 * pi * (part.cycles[one] - part.cycles[other])
                total += part.size.mean_square * (1 - cos(between))
            elif isinstance(part, Pull):
                spread = part.size.mean_square - part.size.mean**2
                total += spread * (part.curve[one] - part.curve[other]) ** 2
            elif isinstance(part, Doubt):
                total += (part.curve[one] - part.curve[other]) ** 2
            elif one != other:
                weights = part.weight[one] ** 2 + part.weight[other] ** 2
                total += part.size.mean_square / TO_EITHER_SIDE_95**2 * weights
        return total

    def mean(self, one: int, other: int) -> float:
        """Return the mean of the error of one position less that of another, in micrometres."""
        pulls = (part for part in self.parts if isinstance(part, Pull))
        expected = sum(part.size.mean * (part.curve[one] - part.curve[other]) for part in pulls)
        return self.known[one] - self.known[other] + expected

    def neighbours(self) -> list[tuple[int, int]]:
        """Return each pitch as the position after it and the position before it."""
        count = len(self.known)
        return [((index + 1) % count, index) for index in range(self.pitches)]


def waves_of(law: PitchLaw) -> list[tuple[list[float], list[float], list[Range]]]:
    """Return the waves put together by the circle they follow: its cosine, its sine, the sizes on it."""
    circles: dict[tuple[float, ...], list[Range]] = {}
    for part in law.parts:
        if isinstance(part, Wave):
            circles.setdefault(part.cycles, []).append(part.size)
    return [
        ([cos(2 * pi * turn) for turn in cycles], [sin(2 * pi * turn) for turn in cycles], sizes)
        for cycles, sizes in circles.items()
    ]


def pitch_deviations(errors: Sequence[float], goes_round: bool) -> list[float]:
    """Return the deviation of each pitch: the error of its end less the error of its beginning."""
    after = [*errors[1:], errors[0]] if goes_round and len(errors) > 1 else errors[1:]
    return [end - beginning for beginning, end in zip(errors, after, strict=False)]
