"""The lines of a printed run sheet: a tick box for each pass, then one cell a column, the setting largest."""

from collections.abc import Sequence
from dataclasses import dataclass

from crankwise.sheets.columns import Cell, Column, Role
from crankwise.sheets.pdf_pen import Align, Pen
from crankwise.sheets.sheet import Line

LINE_HEIGHT, TALL_LINE = 21.0, 25.0
HEADING_HEIGHT = 23.0
TICK_WIDTH, ONE_OF_SEVERAL = 22.0, 27.0
GAP = 5.0


@dataclass(frozen=True, slots=True)
class Look:
    """How a column's cells are written: width and size of letters in points, weight, side."""

    width: float
    size: float
    bold: bool = False
    align: Align = "right"


_LOOKS: dict[Role, Look] = {
    "position": Look(44, 12, bold=True),
    "notches": Look(62, 18, bold=True),
    "second wheel": Look(62, 15, bold=True),
    "turns": Look(58, 13),
    "hole": Look(62, 18, bold=True),
    "back pin": Look(56, 15, bold=True),
    "circle": Look(46, 13),
    "dial": Look(66, 18, bold=True),
    "numeral": Look(66, 10.5),
    "ring": Look(72, 18, bold=True),
    "steps": Look(96, 18, bold=True),
    "ring check": Look(60, 11),
    "target": Look(72, 8),
    "error": Look(76, 8),
    "remark": Look(60, 7.5, align="left"),
}
"""The remark takes what is left; where too little is left, all give way."""
TO_WRITE = 30.0
"""Room for the reading that is written down at a check."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A column with its place on the paper."""

    column: Column
    look: Look
    x: float
    width: float


def laid_out(columns: Sequence[Column], left: float, width: float, ticks: int = 1) -> list[Placed]:
    """Return the columns from left to right across the width, the last one taking what is left.

    ticks  tick boxes of a line, at its left end
    """
    wide = {column.role: _LOOKS[column.role].width for column in columns}
    if columns[-2].heading[1] == "":  # an error that is not told at the rim as well
        wide["error"] = 50
    room = width - _ticks_width(ticks)
    spare = room - sum(wide.values())
    if spare < 0:
        wide = {role: share * room / (room - spare) for role, share in wide.items()}
    else:
        wide["remark"] += spare
    placed, x = [], left + _ticks_width(ticks)
    for column in columns:
        placed.append(Placed(column, _LOOKS[column.role], x, wide[column.role]))
        x += wide[column.role]
    return placed


def draw_headings(
    pen: Pen, columns: Sequence[Placed], ticks: Sequence[str], left: float, width: float, top: float
) -> None:
    """Draw the two lines of headings and the rule under them."""
    for index, tick in enumerate(ticks):
        pen.text(left + index * ONE_OF_SEVERAL, top + 18, tick, 7.5, bold=True)
    for placed in columns:
        x = placed.x + (GAP if placed.look.align == "left" else placed.width - GAP)
        lines = [text for text in placed.column.heading if text]
        for up, text in enumerate(reversed(lines)):
            pen.fitted(x, top + 18 - up * 9, text, 7.5, placed.width - 4, bold=True, align=placed.look.align)
    pen.rule(left, top + HEADING_HEIGHT - 1, width, 1.2)


def draw_line(
    pen: Pen,
    columns: Sequence[Placed],
    line: Line,
    ticks: int,
    left: float,
    width: float,
    top: float,
    tall: float,
    page_begins: bool,
) -> None:
    """Draw one position. Every fifth is shaded, every tenth has a rule above it, a check's ring is boxed."""
    if line.tally % 5 == 0:
        pen.shade(left, top, width, tall, 0.88)
    if line.closing and not page_begins:
        pen.rule(left, top - 1, width, 0.8)
        pen.rule(left, top + 1, width, 0.8)
    elif not page_begins:
        tenth = line.tally % 10 == 0
        pen.rule(left, top, width, 1.2 if tenth else 0.3, 0.0 if tenth else 0.6)
    for index in range(ticks):
        pen.box(left + index * ONE_OF_SEVERAL + 3, top + (tall - 13) / 2, 13, 13, 1)
    for placed, cell in zip(columns, line.cells, strict=True):
        _draw_cell(pen, placed, cell, line, top, tall, page_begins)


def draw_counts(pen: Pen, ticks: int, told: str, left: float, width: float, top: float) -> None:
    """Draw under the ticks of each pass a box to write their count in, and what it must be."""
    wide = ONE_OF_SEVERAL - 4 if ticks > 1 else TICK_WIDTH
    for index in range(ticks):
        pen.box(left + index * ONE_OF_SEVERAL, top + 3, wide, 15, 0.6)
    x = left + _ticks_width(ticks) + GAP
    pen.fitted(x, top + 13, told, 9, left + width - x)


def _ticks_width(ticks: int) -> float:
    return TICK_WIDTH if ticks == 1 else ticks * ONE_OF_SEVERAL


def _draw_cell(
    pen: Pen, placed: Placed, cell: Cell, line: Line, top: float, tall: float, page_begins: bool
) -> None:
    look, role = placed.look, placed.column.role
    x = placed.x + (GAP if look.align == "left" else placed.width - GAP)
    room = placed.width - GAP
    bold = look.bold or (role == "turns" and (line.turns_change or page_begins))
    if role == "ring check" and line.is_check:
        pen.shade(placed.x + 2, top + 2, placed.width - 3, tall - 4, 1)
        pen.box(placed.x + 2, top + 2, placed.width - 3, tall - 4, 1.6)
    text = cell.text
    if cell.small:
        pen.fitted(x, top + tall / 2 - 1.5, cell.text, look.size, room, bold, look.align)
        pen.fitted(x, top + tall / 2 + 7, cell.small, look.size - 1, room, False, look.align)
    elif role == "remark" and pen.text_width(text, look.size) > room - (TO_WRITE if line.is_check else 0):
        first, text = _in_two(text)
        pen.fitted(x, top + tall / 2 - 1.5, first, look.size, room)
        pen.fitted(x, top + tall / 2 + 7, text, look.size, room)
    elif text:
        pen.fitted(x, top + tall / 2 + look.size * 0.36, cell.text, look.size, room, bold, look.align)
    if role == "remark" and line.is_check:
        lead = min(pen.text_width(text, look.size), room) + GAP + 3
        pen.rule(placed.x + lead, top + tall - 5, max(placed.width - lead - 3, 0), 0.6)


def _in_two(remark: str) -> tuple[str, str]:
    """Return a remark as two lines: what is said last, a numeral or what to read, stands by itself."""
    for mark in ("; ", ", "):
        first, found, last = remark.rpartition(mark)
        if found:
            return first + mark.rstrip(), last
    return "", remark
