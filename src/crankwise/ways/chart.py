"""The chart: for every number of parts the best way, and the best exact one.

It gives the same answers as `find_ways`, number by number, but looks at the columns of the head in
whole numbers and makes only the ways that are shown.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from crankwise.errors import BadDivisions
from crankwise.head.head import Head
from crankwise.part.divisions import MOST_DIVISIONS
from crankwise.ways.column import Column, Judged
from crankwise.ways.registry import COLUMNS
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
        raise BadDivisions(f"from: {first}; a circle is divided into 1 part or more")
    if last < first:
        raise BadDivisions(f"to: {last}; the chart runs from {first} upwards")
    if last > MOST_DIVISIONS:
        raise BadDivisions(
            f"to: {last:,}; at most {MOST_DIVISIONS:,}, which is finer than any head can be read"
        )
    if last - first >= MOST_ROWS:
        raise BadDivisions(
            f"to: {last:,}; from {first:,} that is {last - first + 1:,} rows, and a chart has {MOST_ROWS:,} at most"
        )
    columns = [column for made in COLUMNS for column in made(head)]
    return (_row(columns, count, tolerance or Fraction(0)) for count in range(first, last + 1))


def _row(columns: list[Column], count: int, tolerance: Fraction) -> ChartRow:
    """Look once at every column; the order is that of `ranking.ranked`, and ties stay with the first found.

    Errors are compared as top / bottom by multiplying across, which is exact and needs no Fraction.
    """
    best: Column | None = None
    best_exact: Column | None = None
    leader = exact = Judged(0, 1, 0)
    leader_is_within = False
    for column in columns:
        judged = column.judge(count)
        if judged is None:
            continue
        burden, top, bottom = judged
        if top == 0 and (best_exact is None or burden < exact.burden):
            best_exact, exact = column, judged
        is_within = top * tolerance.denominator <= tolerance.numerator * bottom
        if best is not None:
            if is_within != leader_is_within:
                better = is_within
            else:
                closer, further = top * leader.bottom, leader.top * bottom
                if is_within:
                    better = (burden, closer) < (leader.burden, further)
                else:
                    better = (closer, burden) < (further, leader.burden)
            if not better:
                continue
        best, leader, leader_is_within = column, judged, is_within
    shown = best.way(count) if best else None
    if best_exact is best:
        return ChartRow(count, shown, shown)
    return ChartRow(count, shown, best_exact.way(count) if best_exact else None)
