"""The run sheet as pages for a clipboard: A4 or Letter, large figures, a tick box for each pass of a position.

Each page stands alone: it names the job and the set-up, tells where the page before ended, repeats
the headings, and tells where the next page begins. A lost page does no harm.
"""

from collections.abc import Callable, Sequence
from typing import Literal

from crankwise.draw.code import QUIET, code_modules, dark_runs
from crankwise.sheets.pdf_breaks import Piece, page_breaks
from crankwise.sheets.pdf_lines import (
    HEADING_HEIGHT,
    LINE_HEIGHT,
    TALL_LINE,
    draw_counts,
    draw_headings,
    draw_line,
    laid_out,
)
from crankwise.sheets.pdf_pen import Pen
from crankwise.sheets.sheet import List, Sheet
from crankwise.wording.passes import count_here
from crankwise.wording.sheet import CODE_LEADS, FILL_IN
from crankwise.wording.sheet_cells import page_ends_at, page_follows

Paper = Literal["A4", "letter"]

MM = 72 / 25.4
PAPERS: dict[Paper, tuple[float, float]] = {"A4": (210 * MM, 297 * MM), "letter": (8.5 * 72, 11 * 72)}
# The clip holds the top, the punch the left.
TOP, LEFT, RIGHT, BOTTOM = 15 * MM, 13 * MM, 9 * MM, 9 * MM
RECAP_HEIGHT = 15.0
ENDING_HEIGHT = 30.0
TITLE_HEIGHT, COUNT_HEIGHT, COUNT_IN_ALL_HEIGHT = 22.0, 20.0, 14.0
CODE = 27 * MM
"""Side of the code back to the run, its quiet zone included: read from a foot away."""

TITLE, FACT, NOTE = 16.0, 8.4, 8.0
FACTS_AT = 68.0  # clear of the longest name, Change gears
MOST_SUMMARY, SUMMARY_LINE = 3, 10.5
"""Lines that head, way and direction may take on a later page, and the height of each."""


def pdf_bytes(sheet: Sheet, paper: Paper = "A4") -> bytes:
    """Return the sheet as a PDF. The same plan gives the same bytes.

    Raises MissingExtra when the PDF package is not installed.
    """
    pen = Pen(*PAPERS[paper], title=sheet.title)
    width = pen.width - LEFT - RIGHT
    top = _draw_head(pen, sheet, width)
    later_top = _later_top(pen, sheet, width)
    first_room, room = (_room(pen, y) / LINE_HEIGHT for y in (top, later_top))
    pages = page_breaks(
        [len(one.lines) for one in sheet.lists],
        first_room,
        room,
        [(HEADING_HEIGHT + _beside(one)) / LINE_HEIGHT for one in sheet.lists],
    )
    done = 0
    for number, pieces in enumerate(pages, 1):
        if number > 1:
            pen.turn_page()
            top = _draw_short_head(pen, sheet, width, done)
        done = _draw_pieces(pen, sheet, width, top, pieces, done)
        pen.text(pen.width - RIGHT, pen.height - BOTTOM, f"page {number} of {len(pages)}", 9, True, "right")
        pen.fitted(LEFT, pen.height - BOTTOM, sheet.title, 8, width - 90)
    return pen.pdf()


def _room(pen: Pen, top: float) -> float:
    return pen.height - BOTTOM - 12 - ENDING_HEIGHT - top


def _beside(one: List) -> float:
    """What a list takes on a page beside its lines and their headings."""
    return TITLE_HEIGHT * bool(one.title) + (COUNT_HEIGHT + COUNT_IN_ALL_HEIGHT) * one.counts


def _draw_head(pen: Pen, sheet: Sheet, width: float) -> float:
    """Draw all that stands at the head of the first page; return where it ends."""
    y, whole = TOP, width
    if sheet.link:
        width -= CODE
        draw_code(pen, sheet.link, LEFT + width, TOP, CODE)
        pen.text(LEFT + width + CODE / 2, TOP + CODE + 1, CODE_LEADS, 7, align="centre")
    for line in pen.wrapped(sheet.title, TITLE, width, bold=True, most=2):
        y += TITLE
        pen.text(LEFT, y, line, TITLE, bold=True)
        y += 3
    y += 3
    for name, text in sheet.facts:
        strong = name == "Turn"
        pen.text(LEFT, y + FACT, name, FACT, bold=True)
        for line in pen.wrapped(text, FACT + 2 * strong, width - FACTS_AT, bold=strong):
            y += FACT + 2.6 + 2 * strong
            pen.text(LEFT + FACTS_AT, y - 2.6, line, FACT + 2 * strong, bold=strong)
    y, width = max(y, TOP + CODE if sheet.link else 0), whole
    y = _draw_fill_in(pen, y + 17, width)
    y = _draw_cautions(pen, sheet, y + 7, width)
    for todo in sheet.before:
        y += 13
        pen.box(LEFT, y - 8.5, 9, 9)
        pen.fitted(LEFT + 15, y - 0.5, todo, FACT, width - 15)
    y += 15
    pen.text(LEFT, y, sheet.rhythm, 9.5, bold=True)
    return y + 4


def draw_code(pen: Pen, link: str, x: float, y: float, across: float) -> None:
    """Draw the code that leads a phone to a link, so far across with its quiet zone, from its upper left corner."""
    modules = code_modules(link)
    side = across / (len(modules) + 2 * QUIET)
    for column, row, length in dark_runs(modules):
        # A hair taller than its row, so that no light line shows between rows.
        pen.shade(x + (column + QUIET) * side, y + (row + QUIET) * side, length * side, side * 1.02, grey=0)


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


def _summary(pen: Pen, sheet: Sheet, width: float) -> list[str]:
    return pen.wrapped(sheet.summary, FACT, width, most=MOST_SUMMARY)


def _later_top(pen: Pen, sheet: Sheet, width: float) -> float:
    return TOP + 34 + RECAP_HEIGHT + (len(_summary(pen, sheet, width)) - 1) * SUMMARY_LINE


def _draw_short_head(pen: Pen, sheet: Sheet, width: float, start: int) -> float:
    pen.fitted(LEFT, TOP + 11, sheet.title, 12, width, bold=True)
    for number, line in enumerate(_summary(pen, sheet, width)):
        pen.text(LEFT, TOP + 24 + number * SUMMARY_LINE, line, FACT)
    top = _later_top(pen, sheet, width)
    if start:
        pen.fitted(LEFT, top - 8, recap(page_follows, sheet, start), 9.5, width, bold=True)
    return top


def _draw_pieces(pen: Pen, sheet: Sheet, width: float, top: float, pieces: Sequence[Piece], done: int) -> int:
    """Draw what stands on one page; return how many lines are done then."""
    if not pieces:
        return done
    count = sum(piece.stop - piece.start for piece in pieces)
    beside = sum(HEADING_HEIGHT + _beside(sheet.lists[piece.which]) for piece in pieces)
    tall = min(TALL_LINE, max(LINE_HEIGHT, (_room(pen, top) - beside) / count))
    y = top
    for piece in pieces:
        y = _draw_piece(pen, sheet, width, y, piece, tall)
    done += count
    if done < sheet.line_count:
        pen.fitted(LEFT, y + 12, recap(page_ends_at, sheet, done), 9.5, width, bold=True)
    else:
        pen.box(LEFT, y + 5, width, 19, 1.4)
        pen.fitted(LEFT + 6, y + 18, sheet.ending, 9.5, width - 12, bold=True)
    return done


def _draw_piece(pen: Pen, sheet: Sheet, width: float, y: float, piece: Piece, tall: float) -> float:
    """Draw lines of one list under their headings; return where they end."""
    one = sheet.lists[piece.which]
    if one.title:
        pen.fitted(LEFT, y + 15, one.title, 11, width, bold=True)
        y += TITLE_HEIGHT
    columns = laid_out(sheet.columns, LEFT, width, len(one.ticks))
    draw_headings(pen, columns, one.ticks, LEFT, width, y)
    y += HEADING_HEIGHT
    lines = one.lines[piece.start : piece.stop]
    for line in lines:
        draw_line(pen, columns, line, len(one.ticks), LEFT, width, y, tall, line is lines[0])
        y += tall
    pen.rule(LEFT, y, width, 1.2)
    if not one.counts:
        return y
    wanted = sum(not line.closing for line in lines)
    told = count_here(wanted, len(one.ticks), lines[-1].closing)
    draw_counts(pen, len(one.ticks), told, LEFT, width, y)
    y += COUNT_HEIGHT
    if piece.stop == len(one.lines):
        pen.fitted(LEFT, y + 9, one.in_all, 9.5, width, bold=True)
        y += COUNT_IN_ALL_HEIGHT
    return y


def recap(told: Callable[[str, str, str, str], str], sheet: Sheet, cut: int) -> str:
    """Tell the lines on both sides of a page break, with their passes where the sheet has several lists."""
    return told(*_label_and_place(sheet, cut - 1), *_label_and_place(sheet, cut))


def _label_and_place(sheet: Sheet, index: int) -> tuple[str, str]:
    for one in sheet.lists:
        if index < len(one.lines):
            line = one.lines[index]
            return f"{line.label} of {one.where}" if one.where else line.label, line.place
        index -= len(one.lines)
    raise IndexError(index)
