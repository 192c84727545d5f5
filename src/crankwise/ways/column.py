"""One column of the chart: a device of the head, asked how far out any number of equal parts would be.

The chart asks thousands of questions and shows few of the answers, so a column answers in whole
numbers and makes a `Way` only for the answer that is shown. It must say what the way itself would
say; the tests compare the two over many heads.
"""

from abc import ABC, abstractmethod
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import gcd
from typing import NamedTuple

from crankwise.head.head import Head
from crankwise.part.divisions import EqualDivisions
from crankwise.ways.scale import Scale
from crankwise.ways.way import ScaleWay, Way


class Judged(NamedTuple):
    """How a column would divide: the operator's burden, and the worst error as top / bottom of a turn."""

    burden: int
    top: int
    bottom: int


class Column(ABC):
    """A device of the head, with the method that uses it."""

    @property
    def least_burden(self) -> int:
        """A bound: the burden is never smaller than this."""
        return 0

    @abstractmethod
    def judge(self, count: int) -> Judged | None:
        """Return how `count` equal parts of the whole circle would come out, or None if not this way."""

    @abstractmethod
    def way(self, count: int) -> Way:
        """Return the way that was judged."""


class Family(ABC):
    """Columns that are asked last, and passed over together where none of them could be shown.

    Their method tells near ways only where it has no exact one.
    """

    @property
    @abstractmethod
    def members(self) -> tuple[Column, ...]:
        """The columns, in the order in which their method finds the ways."""

    @abstractmethod
    def at_best(self, count: int) -> Judged:
        """Return a bound: no member has a smaller burden, nor a smaller worst error."""

    @abstractmethod
    def first_of(self, ways: Sequence[Way]) -> Way:
        """Return which of several ways of equal rank the method finds first; they stand in the columns' order."""


@dataclass(frozen=True)
class ScaleColumn(Column):
    """A scale that closes, and the method that sets its places.

    kind     the method's class
    exact    whether the method takes the numbers that the scale meets exactly
    rounded  whether it takes the others

    All the way round, the targets k x places / count meet every residue over the least bottom
    b = count / gcd(places, count), so the worst of them is the residue next to the middle:
    floor(b / 2) / b of a place. Source: derived; the case of `worst_rounding` in which all are met.
    """

    head: Head
    scale: Scale
    kind: type[ScaleWay]
    exact: bool = True
    rounded: bool = True

    @cached_property
    def places(self) -> int:
        """Places in one turn of the spindle."""
        assert self.scale.closes
        return self.scale.all_round.numerator

    @cached_property
    def least_burden(self) -> int:
        return 0 if self.exact else self.burden_of_rounding

    @cached_property
    def burden_of_rounding(self) -> int:
        """What it asks of the operator where the moves differ."""
        return self.kind.burden_of(self.scale, None).total

    def judge(self, count: int) -> Judged | None:
        places = self.places
        common = gcd(places, count)
        if common != count:
            bottom = count // common
            return Judged(self.burden_of_rounding, bottom // 2, bottom * places) if self.rounded else None
        if not self.exact:
            return None
        return Judged(self.kind.burden_of(self.scale, places // count).total, 0, 1)

    def way(self, count: int) -> Way:
        return self.kind(self.head, EqualDivisions(count), self.scale)


def closing_circles(head: Head) -> Iterator[Scale]:
    """Yield the scale of each hole circle on which a full circle closes; none without a worm."""
    if head.ratio is not None:
        scales = (Scale(head.ratio, circle) for circle in head.circles)
        yield from (scale for scale in scales if scale.closes)
