"""The run sheet for the wall: figures to be read from two metres, or from one, in blocks of rows side by side.

A figure is as high as a two-hundredth of the distance that it is read from; common practice, no source. What
is set stands at that height, the ring's check and the numeral at seven tenths of it: they are read at a check
or with a stamp in hand. The paper lies the way on which more rows fit, and its foot says from how far it reads.
To be read from one metre, all of it is half as large, and a long run takes a third of the paper.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple, get_args

from crankwise.sheets.columns import Role
from crankwise.sheets.pdf_pages import BOTTOM, LEFT, MM, PAPERS, RIGHT, TOP, Paper, draw_code, recap
from crankwise.sheets.pdf_pen import Pen
from crankwise.sheets.sheet import Line, List, Sheet
from crankwise.wording.passes import wall_reads_from
from crankwise.wording.sheet_cells import SetHere, page_ends_at

FIGURE_MM, LESSER_MM, WORD_MM = 10.0, 7.0, 4.0
NEAR = 0.5
"""How large everything is on the sheet to be read from one metre, to that from two."""
LEAST_SHRUNK = 0.95
"""Figures may be so much smaller where that lets one more block stand on the paper."""

DIGIT = 0.729
"""How high a digit of the font is, to its size."""

ROW, TALLEST_ROW = 12.5 * MM, 16.0 * MM
HEAD, HEADINGS, HEADING, FOOT = 56.0, 22.0, 7.5, 32.0
GAP, LEAST_GAP, GUTTER = 3.8 * MM, 2.6 * MM, 5.0 * MM
CODE = 20 * MM
"""Side of the code to the run, its quiet zone included: read from half a foot."""


class Figures(NamedTuple):
    """One column of a block: what stands in it, how large, how wide."""

    role: Role
    heading: tuple[str, str]
    size: float
    bold: bool
    width: float


@dataclass(frozen=True, slots=True)
class Layout:
    """How the rows stand on the paper.

    width, height  of the paper, in points
    blocks, rows   blocks side by side, rows of each
    columns        of each block
    shrunk         how much smaller than meant all figures are; 1 as a rule
    scale          how large they are meant to be, to those that are read from two metres
    """

    width: float
    height: float
    blocks: int
    rows: int
    columns: tuple[Figures, ...]
    shrunk: float = 1.0
    scale: float = 1.0

    @property
    def block_width(self) -> float:
        """Width of one block, in points."""
        return _across(self.columns)

    @property
    def on_a_page(self) -> int:
        """How many rows a page holds."""
        return self.blocks * self.rows


def wall_sheet_bytes(sheet: Sheet, paper: Paper = "A4", near: bool = False) -> bytes:
    """Return the sheet for the wall as a PDF; each list of a run of several passes begins a page of its own.

    near  whether it is to be read from one metre, on a third of the paper, and not from two

    Raises MissingExtra when the PDF package is not installed.
    """
    layout = laid_out(sheet, paper, near)
    pen = Pen(layout.width, layout.height, title=sheet.title, subject="Run sheet for the wall")
    pages = list(_pages(sheet, layout))
    for number, (one, lines, done) in enumerate(pages, 1):
        if number > 1:
            pen.turn_page()
        _draw_head(pen, sheet, one, f"{number} of {len(pages)}")
        _draw_blocks(pen, layout, lines)
        foot = pen.height - BOTTOM
        told = recap(page_ends_at, sheet, done) if done < sheet.line_count else sheet.ending
        pen.fitted(LEFT, foot - 14, told, 13, pen.width - LEFT - RIGHT, bold=True)
        pen.fitted(LEFT, foot, _reads_from(layout), 8, pen.width - LEFT - RIGHT)
    return pen.pdf()


def laid_out(sheet: Sheet, paper: Paper, near: bool = False) -> Layout:
    """Return the layout on which most rows stand on a page; upright where both ways hold the same."""
    measure = Pen(*PAPERS[paper], title="")
    scale = NEAR if near else 1.0
    columns = tuple(_columns(sheet, measure, scale))
    sides = (PAPERS[paper], PAPERS[paper][::-1])
    options = [_layout(columns, width, height, scale) for width, height in sides]
    return max(options, key=lambda layout: (min(layout.shrunk, LEAST_SHRUNK), layout.on_a_page))


def _reads_from(layout: Layout) -> str:
    roles = {column.role for column in layout.columns}
    figure, lesser, word = (
        height * layout.scale * layout.shrunk for height in (FIGURE_MM, LESSER_MM, WORD_MM)
    )
    return wall_reads_from(figure, lesser, word, "ring check" in roles, "remark" in roles)


def _layout(columns: tuple[Figures, ...], width: float, height: float, scale: float) -> Layout:
    room, across, gutter = width - LEFT - RIGHT, _across(columns), GUTTER * scale
    blocks = max(int((room + gutter) // (LEAST_SHRUNK * across + gutter)), 1)
    rows = int((height - TOP - BOTTOM - HEAD - HEADINGS - FOOT) // (ROW * scale)) // 5 * 5
    shrunk = min((room - (blocks - 1) * gutter) / blocks / across, 1.0)
    smaller = tuple(
        column._replace(size=column.size * shrunk, width=column.width * shrunk) for column in columns
    )
    return Layout(width, height, blocks, rows, smaller, shrunk, scale)


def _across(columns: Sequence[Figures]) -> float:
    return sum(column.width for column in columns)


def _columns(sheet: Sheet, pen: Pen, scale: float) -> Iterator[Figures]:
    gap = max(GAP * scale, LEAST_GAP)
    set_here = get_args(SetHere)
    last_set = [column.role for column in sheet.columns if column.role in set_here][-1]
    for index, column in enumerate(sheet.columns):
        role = column.role
        if role == "position" or role in set_here or role == "ring check":
            size = (LESSER_MM if role == "ring check" else FIGURE_MM) * scale * MM / DIGIT
            bold = role == last_set
            # The one row where the first position is met again may be written smaller.
            texts = {line.cells[index].text for line in sheet.lines if not line.closing}
            wide = max(pen.text_width(text, size, bold) for text in texts)
            wide = max(wide, pen.text_width(max(column.heading, key=len), HEADING, True))
            yield Figures(role, column.heading, size, bold, wide + gap)
    marks = {text for line in sheet.lines for text in _mark_widths(pen, line, scale)}
    if marks - {0.0}:
        yield Figures("remark", ("what", "there"), LESSER_MM * scale * MM / DIGIT, True, max(marks) + gap)


def _mark_widths(pen: Pen, line: Line, scale: float) -> tuple[float, float]:
    return (
        pen.text_width(line.numeral, LESSER_MM * scale * MM / DIGIT, True),
        pen.text_width(line.line_class, WORD_MM * scale * MM / DIGIT),
    )


def _pages(sheet: Sheet, layout: Layout) -> Iterator[tuple[List, Sequence[Line], int]]:
    """Yield each page: its list, its lines, and how many of all lines are done at its end."""
    done = 0
    for one in sheet.lists:
        for start in range(0, len(one.lines), layout.on_a_page):
            lines = one.lines[start : start + layout.on_a_page]
            done += len(lines)
            yield one, lines, done


def _draw_head(pen: Pen, sheet: Sheet, one: List, page: str) -> None:
    facts: Mapping[str, str] = dict(sheet.facts)
    room = pen.width - LEFT - RIGHT
    if sheet.link:
        draw_code(pen, sheet.link, pen.width - RIGHT - CODE, TOP - 3, CODE)
        room -= CODE + 8
    pen.text(LEFT + room, TOP + 16, page, 20, True, "right")
    pen.fitted(LEFT, TOP + 16, sheet.title, 20, room - 90, bold=True)
    pen.fitted(LEFT, TOP + 35, facts["Turn"], 14, room, bold=True)
    told = ".  ".join(filter(None, (one.title, facts["Slack"])))
    pen.fitted(LEFT, TOP + 51, told, 11, room)


def _draw_blocks(pen: Pen, layout: Layout, lines: Sequence[Line]) -> None:
    room = pen.width - LEFT - RIGHT
    apart = 0.0
    if layout.blocks > 1:
        apart = (room - layout.blocks * layout.block_width) / (layout.blocks - 1)
    top = TOP + HEAD + HEADINGS
    tall = min(TALLEST_ROW * layout.scale, (pen.height - BOTTOM - FOOT - top) / layout.rows)
    for block in range(layout.blocks):
        shown = lines[block * layout.rows : (block + 1) * layout.rows]
        if shown:
            _draw_block(pen, layout, shown, LEFT + block * (layout.block_width + apart), top, tall)


def _draw_block(
    pen: Pen, layout: Layout, lines: Sequence[Line], left: float, top: float, tall: float
) -> None:
    x = left
    for column in layout.columns:
        for up, text in enumerate(text for text in reversed(column.heading) if text):
            y = top - 4 - up * 9
            pen.fitted(x + column.width - 4, y, text, HEADING, column.width - 3, True, "right")
        x += column.width
    pen.rule(left, top, layout.block_width, 1.6)
    for index, line in enumerate(lines):
        y = top + index * tall
        if line.tally % 10 == 0:
            pen.shade(left, y, layout.block_width, tall, 0.86)
        if index and line.closing:
            pen.rule(left, y - 1.2, layout.block_width, 1)
            pen.rule(left, y + 1.2, layout.block_width, 1)
        elif index:
            tenth = line.tally % 10 == 0
            pen.rule(left, y, layout.block_width, 2 if tenth else 0.5, 0 if tenth else 0.5)
        _draw_line(pen, layout, line, left, y, tall)
    pen.rule(left, top + len(lines) * tall, layout.block_width, 1.6)
    # Between the position and what is set: two numbers side by side must not be read as one.
    beside = left + layout.columns[0].width
    pen.shade(beside - 0.8, top, 1.6, len(lines) * tall, 0)


def _draw_line(pen: Pen, layout: Layout, line: Line, left: float, y: float, tall: float) -> None:
    x = left
    for column in layout.columns:
        right = x + column.width - 4
        if column.role == "remark":
            _draw_mark(pen, column, line, right, y, tall, layout.scale * layout.shrunk)
        else:
            if column.role == "ring check" and line.is_check:
                pen.box(x + 3, y + 3, column.width - 4, tall - 6, 2.4)
            # "0 = 149" stands in two lines, so that its row alone does not make the column wide.
            texts = line.figures[column.role].split(" = ")
            size = column.size / len(texts)
            for count, text in enumerate(texts, 1):
                base = y + (tall + size * DIGIT) / 2 + (count - (len(texts) + 1) / 2) * tall * 0.45
                sign = " =" if count < len(texts) else ""
                pen.fitted(right, base, text + sign, size, column.width - 6, column.bold, "right")
        x += column.width


def _draw_mark(
    pen: Pen, column: Figures, line: Line, right: float, y: float, tall: float, scale: float
) -> None:
    word = WORD_MM * MM / DIGIT * scale
    high, low = column.size * DIGIT, word * DIGIT
    both = bool(line.numeral and line.line_class)
    used = (high if line.numeral else 0) + (low if line.line_class else 0) + (3 if both else 0)
    top = y + (tall - used) / 2
    if line.numeral:
        pen.fitted(right, top + high, line.numeral, column.size, column.width - 6, True, "right")
    if line.line_class:
        pen.fitted(right, top + used, line.line_class, word, column.width - 6, False, "right")
