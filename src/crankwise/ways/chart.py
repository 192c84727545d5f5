"""The chart: for every number of parts the best way, and the best exact one.

It gives the same answers as `find_ways`, number by number, but looks at the columns of the head in
whole numbers and makes only the ways that are shown.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import count as counting

from crankwise.errors import BadDivisions
from crankwise.head.head import Head
from crankwise.part.divisions import MOST_DIVISIONS
from crankwise.ways.column import Column, Family, Judged
from crankwise.ways.registry import charted_methods
from crankwise.ways.way import Way

MOST_ROWS = 10_000


@dataclass(frozen=True, slots=True)
class ChartRow:
    """One number of parts.

    divisions   the number
    best        the way that is put first; None when the head cannot divide so
    best_exact  the first of the exact ways; None when none is exact
    """

    divisions: int
    best: Way | None
    best_exact: Way | None


def chart(head: Head, first: int, last: int, tolerance: Fraction | None = None) -> Iterator[ChartRow]:
    """Return a row for each number of parts from `first` to `last`, both included.

    tolerance  how far out a position may be, in turns; None asks for exact ways first

    Raises BadDivisions when the numbers are out of their range or too many.
    """
    if first < 1:
        raise BadDivisions("from", f"{first}; a circle is divided into 1 part or more")
    if last < first:
        raise BadDivisions("to", f"{last}; the chart runs from {first} upwards")
    if last > MOST_DIVISIONS:
        raise BadDivisions(
            "to", f"{last:,}; at most {MOST_DIVISIONS:,}, which is finer than any head can be read"
        )
    if last - first >= MOST_ROWS:
        raise BadDivisions(
            "to",
            f"{last:,}; from {first:,} that is {last - first + 1:,} rows, and a chart has {MOST_ROWS:,} at most",
        )
    columns = _Columns.of(head)
    return (_row(columns, count, tolerance or Fraction(0)) for count in range(first, last + 1))


@dataclass(frozen=True, slots=True)
class _Columns:
    """All columns of a head, each with its place in the order of the methods; families apart, to be asked last."""

    single: list[tuple[int, Column]]
    families: list[tuple[Family, list[tuple[int, Column]]]]

    @classmethod
    def of(cls, head: Head) -> "_Columns":
        columns, order = cls([], []), counting()
        for found in (found for method in charted_methods(head) for found in method.columns(head)):
            if isinstance(found, Column):
                columns.single.append((next(order), found))
            else:
                members = [(next(order), column) for column in found.members]
                columns.families.append((found, members))
        return columns


class _Leader:
    """The way that is put first, of those that have been judged, by the order of `ranking.ranked`.

    Errors are compared as top / bottom by multiplying across, which is exact and needs no Fraction.
    """

    __slots__ = ("bottom", "burden", "family", "is_within", "order", "tied", "tolerance", "top")

    def __init__(self, tolerance: Fraction) -> None:
        self.tolerance = tolerance.numerator, tolerance.denominator
        self.tied: list[Column] = []
        self.family: Family | None = None
        self.is_within = False
        self.burden = self.order = self.top = 0
        self.bottom = 1

    def offer(self, judged: Judged, order: int, column: Column, family: Family | None = None) -> None:
        """Put a way first if it comes before the leader; note one of the same method that ties with it."""
        compared = self._compared(judged) if self.tied else -1
        if compared > 0:
            return
        if compared == 0 and family is not None and type(family) is type(self.family):
            self.tied.append(column)
        elif compared < 0 or order < self.order:
            self.burden, self.top, self.bottom = judged
            self.is_within = self._is_within(judged)
            self.tied, self.family, self.order = [column], family, order

    def may_be_joined(self, bound: Judged) -> bool:
        """Return whether a way that is no better than this bound could come first, or tie."""
        return not self.tied or self._compared(bound) <= 0

    def is_exact_and_simpler_than(self, burden: int) -> bool:
        """Return whether no way of such a burden or more can come first, or be the first exact one."""
        return bool(self.tied) and not self.top and self.burden < burden

    def way(self, count: int) -> Way | None:
        """Return the way that is put first, made now."""
        if self.family is None or len(self.tied) == 1:
            return self.tied[0].way(count) if self.tied else None
        return self.family.first_of([column.way(count) for column in self.tied])

    def _is_within(self, judged: Judged) -> bool:
        top, bottom = self.tolerance
        return judged.top * bottom <= top * judged.bottom

    def _compared(self, judged: Judged) -> int:
        """Return below 0 where a way comes before the leader, 0 where it ties, above 0 where it comes after."""
        burden, top, bottom = judged
        most, unit = self.tolerance
        is_within = top * unit <= most * bottom
        if is_within:
            if not self.is_within:
                return -1
            return burden - self.burden or top * self.bottom - self.top * bottom
        if self.is_within:
            return 1
        return top * self.bottom - self.top * bottom or burden - self.burden


def _row(columns: _Columns, count: int, tolerance: Fraction) -> ChartRow:
    best, exact = _Leader(tolerance), _Leader(Fraction(0))

    for order, column in columns.single:
        if not best.is_exact_and_simpler_than(column.least_burden):
            judged = column.judge(count)
            if judged is not None:
                best.offer(judged, order, column)
                if judged.top == 0:
                    exact.offer(judged, order, column)
    for offer in _of_the_families(columns, count, best, exact):
        best.offer(*offer)
    shown = best.way(count)
    return ChartRow(count, shown, shown if exact.tied == best.tied else exact.way(count))


_Offer = tuple[Judged, int, Column, Family]


def _of_the_families(columns: _Columns, count: int, best: _Leader, exact: _Leader) -> list[_Offer]:
    """Offer what is exact, and return the near ways of the methods that have nothing exact.

    A family with an exact way is passed over only for a leader that no near way of its method beats.
    """
    near: list[_Offer] = []
    methods_with_exact = set()
    for family, members in columns.families:
        bound = family.at_best(count)
        if not (best.may_be_joined(bound) or (bound.top == 0 and exact.may_be_joined(bound))):
            continue
        for order, column in members:
            judged = column.judge(count)
            if judged is None:
                continue
            if judged.top:
                near.append((judged, order, column, family))
            else:
                methods_with_exact.add(type(family))
                best.offer(judged, order, column, family)
                exact.offer(judged, order, column, family)
    return [offer for offer in near if type(offer[3]) not in methods_with_exact]
