"""A run sheet as words: what stands at its head, and one line a position, ready to be laid out."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row, schedule
from crankwise.wording import sheet as words
from crankwise.wording.angle import decimal_degrees, degrees_minutes_seconds
from crankwise.wording.cautions import cautions
from crankwise.wording.figures import decimal

Role = Literal["position", "turns", "setting", "back", "numeral", "ring", "target", "error", "remark"]


@dataclass(frozen=True, slots=True)
class Column:
    """One column: what it holds, and its heading in two lines."""

    role: Role
    heading: tuple[str, str]


@dataclass(frozen=True, slots=True)
class Cell:
    """What stands in one column of a line: the figure, and a smaller one under it."""

    text: str
    small: str = ""


@dataclass(frozen=True, slots=True)
class Line:
    """One position as it is printed.

    tally        counts the positions worked; every fifth is shaded, every tenth ruled
    label        the position's number, "0 = 149" where it is the first met again
    place        its setting in one phrase, for the recap of a page: 31 turns + 56.5
    cells        one a column
    turns_change whether the whole turns differ from those of the line before
    is_check     whether the ring is read and written down here
    closing      whether it is the first position met again
    """

    tally: int
    label: str
    place: str
    cells: tuple[Cell, ...]
    turns_change: bool
    is_check: bool
    closing: bool


@dataclass(frozen=True, slots=True)
class Sheet:
    """A whole run sheet.

    title     the job's name, as its owner typed it
    summary   head, way and direction in one line, for every page
    facts     what stands at the head: name and text
    before    what is done and ticked before the first cut
    cautions  the usual ones for this work
    columns   what each line holds, in order
    lines     one a position, the closing one last where the run goes round
    ending    what must be seen at the end
    """

    title: str
    summary: str
    facts: tuple[tuple[str, str], ...]
    before: tuple[str, ...]
    cautions: tuple[str, ...]
    columns: tuple[Column, ...]
    lines: tuple[Line, ...]
    ending: str


def sheet_of(plan: Plan, title: str) -> Sheet:
    """Return the run sheet of a plan, under the name of its job."""
    rows = schedule(plan)
    by = words.set_by(rows[0].reached.setting)
    columns = tuple(_columns(plan, rows[0], by))
    return Sheet(
        title=title,
        summary=_summary(plan, by),
        facts=_facts(plan, by),
        before=words.before_the_first_cut(plan, by),
        cautions=cautions(plan.part.work, len(plan.part.divisions)),
        columns=columns,
        lines=tuple(_lines(plan, rows, columns)),
        ending=words.ending_text(plan, rows[-1].closing),
    )


def check_rows(rows: Sequence[Row]) -> frozenset[int]:
    """Return the rows, by index, at which the ring is read and written down.

    They are the first position at or past each quarter of the circle, and the closing row: a whole
    turn of the crank lost or doubled shows within a quarter. None where there is no ring to read.
    """
    if rows[0].ring_check is None:
        return frozenset()
    targets = [row.reached.target for row in rows]
    quarters = int((targets[-1] - targets[0]) * 4)
    return frozenset(bisect_left(targets, targets[0] + Fraction(n, 4)) for n in range(1, quarters + 1))


def _facts(plan: Plan, by: words.SetBy) -> tuple[tuple[str, str], ...]:
    return (
        ("Part", words.part_text(plan.part)),
        ("Head", words.head_text(plan)),
        ("Way", words.way_text(plan)),
        ("Set on", words.scale_text(plan, by)),
        ("Zero", words.zero_text(plan, by)),
        ("Turn", words.turn_text(plan, by)),
        ("Slack", words.backlash_text(plan, by)),
        ("Worst error", words.worst_text(plan)),
        ("", words.OWN_ROUNDING),
    )


def _summary(plan: Plan, by: words.SetBy) -> str:
    turn = words.turn_text(plan, by).partition(",")[0].rstrip(".")
    return f"{plan.head.name} · {words.counted(plan.part)} · {words.way_text(plan)} · {turn}"


def _columns(plan: Plan, first: Row, by: words.SetBy) -> Iterator[Column]:
    setting = first.reached.setting
    unit = words.ring_unit(plan.head)
    yield Column("position", ("position", ""))
    if setting.turns is not None:
        yield Column("turns", ("whole turns", "since zero"))
    yield Column("setting", words.setting_heading(plan.way, by, unit))
    if setting.holes is not None and len(setting.holes) > 1:
        yield Column("back", ("back pin", f"{words.circles_of(plan.way)[1]} circle"))
    if by == "dial" and plan.head.dial and plan.head.dial.numbered_every:
        yield Column("numeral", ("numeral", "+ marks past it"))
    if by != "ring" and first.ring_check is not None:
        yield Column("ring", ("ring check", unit))
    yield Column("target", ("target", "from the start"))
    yield Column("error", ("error", "at the rim" if plan.part.rim_mm else ""))
    yield Column("remark", ("remark", ""))


def _lines(plan: Plan, rows: Sequence[Row], columns: Sequence[Column]) -> Iterator[Line]:
    every = getattr(plan.part.divisions, "every", 1)
    first = rows[0].reached.position
    # A way that visits the positions out of order is counted by visits.
    in_order = len(rows) < 3 or rows[2].reached.position == first + 2 * every
    checks = check_rows(rows)
    beyond = words.beyond_the_cut(plan.part)
    turns_before: int | None = None
    for row in rows:
        setting = row.reached.setting
        label = words.position_label(row, first)
        is_check = row.index in checks
        told = beyond.get(row.reached.position, "")
        yield Line(
            tally=row.reached.position // every if in_order else row.index,
            label=label,
            place=words.place_text(setting),
            cells=tuple(_cell(plan, row, column.role, label, told, is_check) for column in columns),
            turns_change=setting.turns != turns_before,
            is_check=is_check,
            closing=row.closing,
        )
        turns_before = setting.turns


def _cell(plan: Plan, row: Row, role: Role, label: str, beyond: str, is_check: bool) -> Cell:
    reached = row.reached
    match role:
        case "position":
            return Cell(label)
        case "turns":
            return Cell(str(reached.setting.turns))
        case "setting":
            return Cell(words.setting_cell(reached.setting))
        case "back":
            return Cell(words.back_pin_cell(reached.setting))
        case "numeral":
            return Cell(words.past_numeral(plan.head, reached.setting.reading or Fraction(0)))
        case "ring":
            return Cell(decimal(row.ring_check or Fraction(0), 2) + words.ring_sign(plan.head))
        case "target":
            return Cell(degrees_minutes_seconds(reached.target), decimal_degrees(reached.target))
        case "error":
            rim = plan.part.rim_mm
            at_rim = " ".join(words.signed_rim(reached.error, rim)) if rim and reached.error else ""
            return Cell(words.signed_arcseconds(reached.error), at_rim)
        case "remark":
            told = (beyond, words.READ_HERE if is_check else "")
            return Cell("; ".join(filter(None, told)))
