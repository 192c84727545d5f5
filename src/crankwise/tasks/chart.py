"""Chart every number of parts over a range: the best way of each, and the best exact one."""

import csv
import io
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from crankwise.errors import BadFile
from crankwise.exact.length import read_diameter, read_tolerance
from crankwise.exact.number import as_text
from crankwise.files.whole_file import write_whole
from crankwise.head.head import Head
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.tasks.answers import FORMAT, way_summary
from crankwise.tasks.divide import whole_number
from crankwise.ways.chart import ChartRow, chart
from crankwise.ways.way import Way
from crankwise.wording.ways import method_name, setup_text

CSV_HEADINGS = (
    "divisions",
    "method",
    "set-up",
    "worst error (arcsec)",
    "worst error (um at the rim)",
    "exact method",
    "exact set-up",
)


@dataclass(frozen=True, slots=True)
class Charted:
    """The answer to a chart.

    rim_mm     diameter at which errors are told as lengths, in mm; None when not asked
    tolerance  what was asked, in turns of the spindle; None when nothing was
    """

    head: Head
    rim_mm: Fraction | None
    tolerance: Fraction | None
    rows: tuple[ChartRow, ...]

    @property
    def is_answered(self) -> bool:
        """Whether the head can divide one of the numbers at all."""
        return any(row.best for row in self.rows)


def asked_chart(
    head: Head, first: str, last: str, within: str | None = None, rim: str | None = None
) -> Charted:
    """Return the chart that was typed.

    first, last   the numbers of parts, both included
    within, rim   tolerance and diameter as typed; None or empty when not asked

    Raises Mendable.
    """
    rim_mm = read_diameter(rim, "rim") if rim else None
    tolerance = read_tolerance(within).as_turns(rim_mm) if within else None
    rows = tuple(chart(head, whole_number(first, "from"), whole_number(last, "to"), tolerance))
    return Charted(head, rim_mm, tolerance, rows)


def chart_answer(charted: Charted) -> dict[str, Any]:
    """Return the chart as a plain object, ready for JSON."""
    return {
        "format": FORMAT,
        "ratio": as_text(charted.head.ratio) if charted.head.ratio else None,
        "rows": [
            {
                "divisions": row.divisions,
                "best": _summary(row.divisions, row.best, charted.rim_mm),
                "best_exact": _summary(row.divisions, row.best_exact, charted.rim_mm),
            }
            for row in charted.rows
        ],
    }


def _summary(divisions: int, way: Way | None, rim_mm: Fraction | None) -> dict[str, Any] | None:
    return way_summary(way, Part(EqualDivisions(divisions), rim_mm)) if way else None


def chart_csv(charted: Charted) -> str:
    """Return the chart as CSV, headings first; a number without a way has empty cells."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(CSV_HEADINGS)
    writer.writerows(_cells(charted.rows, charted.rim_mm))
    return text.getvalue()


def _cells(rows: Iterable[ChartRow], rim_mm: Fraction | None) -> Iterable[list[object]]:
    for row in rows:
        best = _summary(row.divisions, row.best, rim_mm) or {}
        yield [
            row.divisions,
            *((method_name(row.best), setup_text(row.best)) if row.best else ("", "")),
            best.get("worst_error_arcsec", ""),
            best.get("worst_error_um", ""),
            *((method_name(row.best_exact), setup_text(row.best_exact)) if row.best_exact else ("", "")),
        ]


def write_chart(charted: Charted, path: str) -> None:
    """Write the chart to a CSV file. Raises BadFile."""
    if not path.lower().endswith(".csv"):
        raise BadFile(f"{path}: a chart is written as CSV; let the name end with .csv")
    # The mark at the front tells spreadsheets that this is UTF-8.
    write_whole(path, chart_csv(charted).encode("utf-8-sig"))
