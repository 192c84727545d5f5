"""The chart of a whole head as pages for the workshop wall: three columns of numbers to a page."""

from collections.abc import Sequence
from typing import NamedTuple

from crankwise.sheets.pdf_pages import BOTTOM, LEFT, PAPERS, RIGHT, TOP, Paper
from crankwise.sheets.pdf_pen import Pen

COLUMNS = 3
GUTTER = 9.0
LINE = 10.4
NUMBER, ENTRY = 8.4, 7.2
NUMBER_ROOM, ERROR_ROOM = 25.0, 33.0


class ChartLine(NamedTuple):
    """One number of the chart: its settings in the chart's short form, and its worst error; bold when exact."""

    number: str
    entry: str
    error: str
    exact: bool


def wall_chart_bytes(
    title: str, notes: Sequence[str], lines: Sequence[ChartLine], paper: Paper = "A4"
) -> bytes:
    """Return the chart as a PDF. The same chart gives the same bytes.

    title  what stands at the head of every page
    notes  how to read the entries, and what the head cannot do, on the first page

    Raises MissingExtra when the PDF package is not installed.
    """
    pen = Pen(*PAPERS[paper], title=title)
    width = pen.width - LEFT - RIGHT
    column = (width - GUTTER * (COLUMNS - 1)) / COLUMNS
    done, page = 0, 0
    while done < len(lines):
        if page:
            pen.turn_page()
        page += 1
        top = _head(pen, title, notes if page == 1 else (), width, page)
        room = int((pen.height - BOTTOM - 14 - top) // LINE)
        page_lines = lines[done : done + COLUMNS * room]
        for index in range(COLUMNS):
            shown = page_lines[index * room : (index + 1) * room]
            _column(pen, LEFT + index * (column + GUTTER), top, column, shown)
        done += len(page_lines)
    return pen.pdf()


def _head(pen: Pen, title: str, notes: Sequence[str], width: float, page: int) -> float:
    pen.fitted(LEFT, TOP + 6, title, 15, width - 50, bold=True)
    pen.text(pen.width - RIGHT, TOP + 6, f"page {page}", 8, align="right")
    y = TOP + 20
    for line in notes:
        for piece in pen.wrapped(line, 7.8, width, most=12):
            pen.text(LEFT, y, piece, 7.8)
            y += 10
    return y + 2


def _column(pen: Pen, x: float, top: float, width: float, lines: Sequence[ChartLine]) -> None:
    for index, line in enumerate(lines):
        y = top + index * LINE
        if int(line.number) % 10 == 0:
            pen.shade(x, y, width, LINE, 0.88)
        base = y + LINE - 2.6
        pen.text(x + NUMBER_ROOM - 4, base, line.number, NUMBER, bold=True, align="right")
        pen.fitted(
            x + NUMBER_ROOM, base, line.entry, ENTRY, width - NUMBER_ROOM - ERROR_ROOM, bold=line.exact
        )
        pen.text(x + width - 1, base, line.error, ENTRY, align="right")
        pen.rule(x, y + LINE, width, 0.25, 0.6)
