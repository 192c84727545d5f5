"""The chart as a table of text: a row a number of parts."""

from collections.abc import Iterable
from fractions import Fraction

from crankwise.ways.chart import ChartRow
from crankwise.ways.ranking import is_within
from crankwise.ways.way import Way
from crankwise.wording.division import Table, worst_error_text
from crankwise.wording.figures import at_the_rim
from crankwise.wording.ways import method_name, setup_text


def chart_table(rows: Iterable[ChartRow], rim_mm: Fraction | None, tolerance: Fraction | None) -> Table:
    """Return headings and a row a number: the best way, its set-up and worst error, and the best exact way.

    Where no tolerance was asked an exact way is always put first, so it is not told twice.
    """
    headings = ["parts", "best way", "set-up", "worst error"]
    headings += ["at the rim"] if rim_mm else []
    headings += ["within", "best exact way"] if tolerance is not None else []
    table = []
    for row in rows:
        cells = [str(row.divisions), *_best(row.best)]
        if rim_mm:
            cells.append(at_the_rim(row.best.worst_error, rim_mm) if row.best else "")
        if tolerance is not None:
            cells += ["yes" if row.best and is_within(row.best, tolerance) else "no", _exact(row)]
        table.append(cells)
    return headings, table


def _best(way: Way | None) -> list[str]:
    return [method_name(way), setup_text(way), worst_error_text(way)] if way else ["none", "", ""]


def _exact(row: ChartRow) -> str:
    if row.best_exact is None:
        return "none"
    if row.best_exact is row.best:
        return "the same"
    return f"{method_name(row.best_exact)}: {setup_text(row.best_exact)}"
