"""Chart every number of parts over a range: the best way of each, and the best exact one."""

import csv
import io
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from pathlib import PurePath
from typing import Any

from crankwise.errors import BadDivisions, BadFile
from crankwise.exact.length import read_diameter, read_tolerance
from crankwise.exact.number import as_text
from crankwise.files.whole_file import write_whole
from crankwise.head.head import Head
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.sheets.pdf_pages import Paper
from crankwise.tasks.answers import FORMAT, way_summary
from crankwise.tasks.divide import whole_number
from crankwise.ways.chart import ChartRow, chart
from crankwise.ways.missing import Help, circles_that_help
from crankwise.ways.way import Way
from crankwise.wording.wall_chart import LEGEND, chart_entry, chart_error, chart_title, missing_lines
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
    def missing(self) -> tuple[int, ...]:
        """The numbers that the head has no exact way for."""
        return tuple(row.divisions for row in self.rows if row.best_exact is None)

    @property
    def helps(self) -> tuple[Help, ...]:
        """The hole circles not owned that would make most of the missing numbers exact, the best first."""
        return circles_that_help(self.head, self.missing)

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
    if head.is_straight:
        raise BadDivisions(
            "head", f"{head.name} is a slide, which turns nothing; a chart is of a head that turns the work"
        )
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
        "missing": {
            "divisions": list(charted.missing),
            "circles": [
                {"circle": helped.circle, "makes_exact": list(helped.makes_exact)} for helped in charted.helps
            ],
        },
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


def write_chart(charted: Charted, path: str, paper: Paper = "A4") -> None:
    """Write the chart whole or not at all; the path's ending says in which form: .csv, .xlsx or .pdf.

    Raises BadFile when the ending is none of these or the file cannot be written, MissingExtra when
    the package for a PDF or a workbook is not installed.
    """
    ending = PurePath(path).suffix.lower()
    if ending == ".csv":
        # The mark at the front tells spreadsheets that this is UTF-8.
        content = chart_csv(charted).encode("utf-8-sig")
    elif ending == ".xlsx":
        from crankwise.sheets.workbook import workbook_bytes

        content = workbook_bytes(_title(charted), CSV_HEADINGS, _cells(charted.rows, charted.rim_mm))
    elif ending == ".pdf":
        content = _wall_chart(charted, paper)
    else:
        raise BadFile(
            f"{path}: a chart is written as .pdf for the wall, or as .xlsx or .csv for a spreadsheet"
        )
    write_whole(path, content)


def _title(charted: Charted) -> str:
    return chart_title(charted.head, charted.rows[0].divisions, charted.rows[-1].divisions)


def _wall_chart(charted: Charted, paper: Paper) -> bytes:
    from crankwise.sheets.wall_chart import ChartLine, wall_chart_bytes

    lines = [
        ChartLine(
            str(row.divisions),
            chart_entry(row.best),
            chart_error(row.best),
            bool(row.best and row.best.exact),
        )
        for row in charted.rows
    ]
    notes = (*LEGEND, *missing_lines(charted.missing, charted.helps))
    return wall_chart_bytes(_title(charted), notes, lines, paper)
