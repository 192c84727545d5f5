"""The measurement of a part as pages to keep with it: what was found, its errors drawn, and every figure."""

from collections.abc import Sequence
from dataclasses import dataclass

from crankwise.sheets.pdf_pages import BOTTOM, LEFT, PAPERS, RIGHT, TOP, Paper
from crankwise.sheets.pdf_pen import Pen

CHART = 92.0
LINE = 11.0
COLUMNS = 4
GUTTER = 12.0


@dataclass(frozen=True, slots=True)
class Report:
    """What the report says.

    title       the part
    facts       what was made and on what, each a name and its value
    findings    what was found, a sentence each
    errors      error of each position along the rim, in micrometres; empty where sizes were measured
    pitches     deviation of each pitch, from its position to the next, in micrometres; as many where the last
                leads back to the first, else one fewer
    table       the same as texts: position, pitch, cumulative; or what `headings` say
    limits      tolerances of single and cumulative pitch, drawn as a band; 0 for none
    """

    title: str
    facts: Sequence[tuple[str, str]]
    findings: Sequence[str]
    errors: Sequence[float] = ()
    pitches: Sequence[float] = ()
    table: Sequence[tuple[str, str, str]] = ()
    limits: tuple[float, float] = (0.0, 0.0)
    headings: tuple[str, str, str] = ("position", "pitch µm", "sum µm")


def measurement_report_bytes(report: Report, paper: Paper = "A4") -> bytes:
    """Return the report as a PDF. The same report gives the same bytes.

    Raises MissingExtra when the PDF package is not installed.
    """
    pen = Pen(*PAPERS[paper], title=report.title, subject="Measurement report")
    width = pen.width - LEFT - RIGHT
    y = _head(pen, report, width)
    if report.errors:
        y = _charts(pen, report, y, width)
    pages = _table(pen, report, y, width) if report.table else 1
    _foot(pen, report.title, width, pages)
    return pen.pdf()


def _foot(pen: Pen, title: str, width: float, page: int) -> None:
    pen.fitted(LEFT, pen.height - BOTTOM, title, 8, width - 60)
    pen.text(pen.width - RIGHT, pen.height - BOTTOM, f"page {page}", 8, align="right")


def _head(pen: Pen, report: Report, width: float) -> float:
    pen.fitted(LEFT, TOP + 6, report.title, 16, width, bold=True)
    y = TOP + 24
    for name, value in report.facts:
        pen.text(LEFT, y, name, 8.4, bold=True)
        for piece in pen.wrapped(value, 8.4, width - 92):
            pen.text(LEFT + 92, y, piece, 8.4)
            y += LINE
    y += 5
    pen.rule(LEFT, y - 8, width)
    for sentence in report.findings:
        y += 3
        for piece in pen.wrapped(sentence, 9.2, width, most=8):
            pen.text(LEFT, y, piece, 9.2)
            y += 12
    return y + 8


def _charts(pen: Pen, report: Report, y: float, width: float) -> float:
    single, whole = report.limits
    largest = max(single, *map(abs, report.pitches)) or 1.0
    y = _caption(pen, y, "Each pitch, from its position to the next", largest, "±")
    middle, scale, step = y + CHART / 2, CHART / 2 / largest, width / len(report.pitches)
    _band(pen, middle, single * scale, width)
    for index, pitch in enumerate(report.pitches):
        top = middle - max(pitch, 0) * scale
        pen.shade(LEFT + (index + 0.1) * step, top, 0.8 * step, abs(pitch) * scale, 0.25)
    pen.rule(LEFT, middle, width)
    low, high = min(report.errors), max(report.errors)
    full = max(high - low, whole) or 1.0
    y = _caption(pen, y + CHART + 22, "Cumulative curve", full, "over ")
    middle, scale = y + CHART / 2, CHART / full
    _band(pen, middle, whole * scale / 2, width)
    goes_round = len(report.pitches) == len(report.errors)
    errors = [*report.errors, report.errors[0]] if goes_round else list(report.errors)
    centre = (low + high) / 2
    points = [
        (LEFT + width * index / (len(errors) - 1), middle - (error - centre) * scale)
        for index, error in enumerate(errors)
    ]
    pen.strokes([(points, False)], thick=1.0)
    pen.rule(LEFT, middle, width, 0.4, 0.5)
    return y + CHART + 20


def _caption(pen: Pen, y: float, words: str, size: float, sign: str) -> float:
    pen.text(LEFT, y, f"{words}; the chart goes {sign}{size:.1f} µm", 8, bold=True)
    return y + 6


def _band(pen: Pen, middle: float, half: float, width: float) -> None:
    if half:
        pen.shade(LEFT, middle - half, width, 2 * half, 0.9)


def _table(pen: Pen, report: Report, y: float, width: float) -> int:
    """Write the figures, on further pages where they need them; return the last page."""
    page = 1
    column = (width - GUTTER * (COLUMNS - 1)) / COLUMNS
    rows = list(report.table)
    if y + 4 * LINE > pen.height - BOTTOM - 16:
        y, page = _next_page(pen, report, width, page)
    while rows:
        room = int((pen.height - BOTTOM - 16 - y - LINE) // LINE)
        # The columns of the last page are of one height.
        room = min(room, -(-len(rows) // COLUMNS))
        for index in range(COLUMNS):
            shown, rows = rows[:room], rows[room:]
            if shown:
                _column(pen, LEFT + index * (column + GUTTER), y, column, [report.headings, *shown])
        if rows:
            y, page = _next_page(pen, report, width, page)
    return page


def _next_page(pen: Pen, report: Report, width: float, page: int) -> tuple[float, int]:
    _foot(pen, report.title, width, page)
    pen.turn_page()
    return TOP, page + 1


def _column(pen: Pen, x: float, y: float, width: float, rows: Sequence[tuple[str, str, str]]) -> None:
    ends = (x + width * 0.26, x + width * 0.62, x + width)
    for line, cells in enumerate(rows):
        for end, cell in zip(ends, cells, strict=True):
            pen.text(end, y + line * LINE + 8, cell, 7.6, line == 0, "right")
        pen.rule(x, y + line * LINE + 10.4, width, 0.25, 0.0 if line == 0 else 0.7)
