"""The run sheet as pages for a clipboard: A4 or Letter, large figures, a tick box at each position.

Each page stands alone: it names the job and the set-up, tells where the page before ended, repeats
the headings, and tells where the next page begins. A lost page does no harm.
"""

from collections.abc import Callable
from itertools import pairwise
from typing import Literal

from crankwise.draw.code import QUIET, code_modules, dark_runs
from crankwise.sheets.pdf_lines import (
    HEADING_HEIGHT,
    LINE_HEIGHT,
    TALL_LINE,
    draw_headings,
    draw_line,
    laid_out,
)
from crankwise.sheets.pdf_pen import Pen
from crankwise.sheets.sheet import Sheet
from crankwise.wording.sheet import CODE_LEADS, FILL_IN, RHYTHM
from crankwise.wording.sheet_cells import page_ends_at, page_follows

Paper = Literal["A4", "letter"]

MM = 72 / 25.4
PAPERS: dict[Paper, tuple[float, float]] = {"A4": (210 * MM, 297 * MM), "letter": (8.5 * 72, 11 * 72)}
# The clip holds the top, the punch the left.
TOP, LEFT, RIGHT, BOTTOM = 15 * MM, 13 * MM, 9 * MM, 9 * MM
RECAP_HEIGHT = 15.0
ENDING_HEIGHT = 30.0
LEAST_LINES = 5
CODE = 27 * MM
"""Side of the code back to the run, its quiet zone included: read from a foot away."""

TITLE, FACT, NOTE = 16.0, 8.4, 8.0


def pdf_bytes(sheet: Sheet, paper: Paper = "A4") -> bytes:
    """Return the sheet as a PDF. The same plan gives the same bytes.

    Raises MissingExtra when the PDF package is not installed.
    """
    pen = Pen(*PAPERS[paper], title=sheet.title)
    width = pen.width - LEFT - RIGHT
    top = _draw_head(pen, sheet, width)
    first_room = int(_room(pen, top) // LINE_HEIGHT)
    room = int(_room(pen, TOP + 34 + RECAP_HEIGHT) // LINE_HEIGHT)
    breaks = page_breaks(len(sheet.lines), first_room, room)
    for number, (start, stop) in enumerate(pairwise(breaks), 1):
        if number > 1:
            pen.turn_page()
            top = _draw_short_head(pen, sheet, width, start)
        _draw_table(pen, sheet, width, top, start, stop)
        pen.text(
            pen.width - RIGHT, pen.height - BOTTOM, f"page {number} of {len(breaks) - 1}", 9, True, "right"
        )
        pen.fitted(LEFT, pen.height - BOTTOM, sheet.title, 8, width - 90)
    return pen.pdf()


def page_breaks(lines: int, first_room: int, room: int) -> list[int]:
    """Return where pages begin and the last one ends, as indexes of lines.

    first_room, room  lines that fit on the first page and on each later one

    A page that is not the last takes a multiple of five, so that the shading looks the same on all.
    A first page with no room for five lines takes none.
    """
    breaks = [0]
    fits = first_room if first_room >= LEAST_LINES else 0
    while lines - breaks[-1] > fits:
        breaks.append(breaks[-1] + fits // 5 * 5)
        fits = room
    return [*breaks, lines]


def _room(pen: Pen, top: float) -> float:
    return pen.height - BOTTOM - 12 - ENDING_HEIGHT - HEADING_HEIGHT - top


def _draw_head(pen: Pen, sheet: Sheet, width: float) -> float:
    """Draw all that stands at the head of the first page; return where it ends."""
    y, whole = TOP, width
    if sheet.link:
        width -= CODE
        _draw_code(pen, sheet.link, LEFT + width, TOP)
    for line in pen.wrapped(sheet.title, TITLE, width, bold=True, most=2):
        y += TITLE
        pen.text(LEFT, y, line, TITLE, bold=True)
        y += 3
    y += 3
    for name, text in sheet.facts:
        strong = name == "Turn"
        pen.text(LEFT, y + FACT, name, FACT, bold=True)
        for line in pen.wrapped(text, FACT + 2 * strong, width - 62, bold=strong):
            y += FACT + 2.6 + 2 * strong
            pen.text(LEFT + 62, y - 2.6, line, FACT + 2 * strong, bold=strong)
    y, width = max(y, TOP + CODE if sheet.link else 0), whole
    y = _draw_fill_in(pen, y + 17, width)
    y = _draw_cautions(pen, sheet, y + 7, width)
    for todo in sheet.before:
        y += 13
        pen.box(LEFT, y - 8.5, 9, 9)
        pen.fitted(LEFT + 15, y - 0.5, todo, FACT, width - 15)
    y += 15
    pen.text(LEFT, y, RHYTHM, 9.5, bold=True)
    return y + 4


def _draw_code(pen: Pen, link: str, x: float, y: float) -> None:
    modules = code_modules(link)
    side = CODE / (len(modules) + 2 * QUIET)
    for column, row, length in dark_runs(modules):
        # A hair taller than its row, so that no light line shows between rows.
        pen.shade(x + (column + QUIET) * side, y + (row + QUIET) * side, length * side, side * 1.02, grey=0)
    pen.text(x + CODE / 2, y + CODE + 1, CODE_LEADS, 7, align="centre")


def _draw_fill_in(pen: Pen, y: float, width: float) -> float:
    share = width / len(FILL_IN)
    for index, name in enumerate(FILL_IN):
        x = LEFT + index * share
        pen.text(x, y, name, FACT, bold=True)
        lead = pen.text_width(name, FACT, True) + 4
        pen.rule(x + lead, y + 1.5, share - lead - 10)
    return y


def _draw_cautions(pen: Pen, sheet: Sheet, top: float, width: float) -> float:
    lines = [line for caution in sheet.cautions for line in pen.wrapped(f"• {caution}", NOTE, width - 12)]
    height = len(lines) * (NOTE + 2.2) + 7
    pen.box(LEFT, top, width, height, 1)
    for index, line in enumerate(lines, 1):
        pen.text(LEFT + 6, top + index * (NOTE + 2.2) + 1, line, NOTE)
    return top + height


def _draw_short_head(pen: Pen, sheet: Sheet, width: float, start: int) -> float:
    pen.fitted(LEFT, TOP + 11, sheet.title, 12, width, bold=True)
    pen.fitted(LEFT, TOP + 24, sheet.summary, FACT, width)
    y = TOP + 30 + RECAP_HEIGHT - 4
    if start:
        pen.fitted(LEFT, y, _recap(page_follows, sheet, start), 9.5, width, bold=True)
    return y + 8


def _draw_table(pen: Pen, sheet: Sheet, width: float, top: float, start: int, stop: int) -> None:
    if start == stop:
        return
    columns = laid_out(sheet.columns, LEFT, width)
    draw_headings(pen, columns, LEFT, width, top)
    y = top + HEADING_HEIGHT
    tall = min(TALL_LINE, max(LINE_HEIGHT, _room(pen, top) / (stop - start)))
    for line in sheet.lines[start:stop]:
        draw_line(pen, columns, line, LEFT, width, y, tall, line is sheet.lines[start])
        y += tall
    pen.rule(LEFT, y, width, 1.2)
    if stop < len(sheet.lines):
        pen.fitted(LEFT, y + 12, _recap(page_ends_at, sheet, stop), 9.5, width, bold=True)
        return
    pen.box(LEFT, y + 5, width, 19, 1.4)
    pen.fitted(LEFT + 6, y + 18, sheet.ending, 9.5, width - 12, bold=True)


def _recap(told: Callable[[str, str, str, str], str], sheet: Sheet, cut: int) -> str:
    """Tell the lines on both sides of a page break."""
    before, after = sheet.lines[cut - 1], sheet.lines[cut]
    return told(before.label, before.place, after.label, after.place)
