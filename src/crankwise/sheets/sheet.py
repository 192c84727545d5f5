"""A run sheet as words: what stands at its head, and one line a position, ready to be laid out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row, schedule
from crankwise.ways.way import Setting
from crankwise.wording import sheet as words
from crankwise.wording import sheet_cells as cells
from crankwise.wording.angle import decimal_degrees, degrees_minutes_seconds
from crankwise.wording.cautions import cautions
from crankwise.wording.sheet_cells import SetHere

Role = SetHere | Literal["position", "numeral", "ring check", "target", "error", "remark"]


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
    link      where a phone finds the run; empty where that is not known
    """

    title: str
    summary: str
    facts: tuple[tuple[str, str], ...]
    before: tuple[str, ...]
    cautions: tuple[str, ...]
    columns: tuple[Column, ...]
    lines: tuple[Line, ...]
    ending: str
    link: str = ""


def sheet_of(
    plan: Plan,
    title: str,
    usual: tuple[str, ...] = (),
    link: str = "",
    setup: tuple[tuple[str, str], ...] = (),
) -> Sheet:
    """Return the run sheet of a plan, under the name of its job.

    usual  the cautions of this kind of part; those of its work where none are given
    link   where a phone finds the run; empty where that is not known
    setup  what else is set on the machine for this kind of part: names and texts
    """
    rows = schedule(plan)
    setting = rows[0].reached.setting
    columns = tuple(_columns(plan, rows[0]))
    return Sheet(
        title=title,
        summary=_summary(plan, setting),
        facts=_facts(plan, setting, setup),
        before=words.before_the_first_cut(plan, setting),
        cautions=usual or cautions(plan.part.work, len(plan.part.divisions)),
        columns=columns,
        lines=tuple(_lines(plan, rows, columns)),
        ending=words.ending_text(plan, rows[-1].closing),
        link=link,
    )


def check_rows(rows: Sequence[Row]) -> frozenset[int]:
    """Return the rows, by index, at which the ring is read and written down.

    They are those at each quarter of the run, the last one included, so that a whole turn of the
    crank lost or doubled shows within a quarter. None where there is no ring to read.
    """
    if rows[0].ring_check is None:
        return frozenset()
    moves = len(rows) - 1
    return frozenset(-(-moves * quarter // 4) for quarter in (1, 2, 3, 4))


def _facts(plan: Plan, setting: Setting, setup: tuple[tuple[str, str], ...]) -> tuple[tuple[str, str], ...]:
    return (
        ("Part", words.part_text(plan.part)),
        ("Head", words.head_text(plan)),
        ("Way", words.way_text(plan)),
        *setup,
        ("Set on", words.scales_text(plan, setting)),
        ("Zero", words.zero_text(plan, setting)),
        ("Turn", words.turn_text(plan, setting)),
        ("Slack", words.backlash_text(plan, setting)),
        ("Worst error", words.worst_text(plan)),
        ("", words.OWN_ROUNDING),
    )


def _summary(plan: Plan, setting: Setting) -> str:
    turn = words.turn_text(plan, setting).partition(",")[0].rstrip(".")
    return f"{plan.head.name} · {words.counted(plan.part)} · {words.way_text(plan)} · {turn}"


def _columns(plan: Plan, first: Row) -> Iterator[Column]:
    setting = first.reached.setting
    unit = cells.ring_unit(plan.head)
    yield Column("position", ("position", ""))
    for name in cells.set_here(setting):
        yield Column(name, cells.set_heading(name, plan.way, setting, unit))
        if name == "dial" and plan.head.dial and plan.head.dial.numbered_every:
            yield Column("numeral", ("numeral", "+ marks past it"))
    if first.ring_check is not None and "ring" not in cells.set_here(setting):
        yield Column("ring check", ("ring check", unit))
    yield Column("target", ("target", "from the start"))
    yield Column("error", ("error", "at the rim" if plan.part.rim_mm else ""))
    yield Column("remark", ("remark", ""))


def _lines(plan: Plan, rows: Sequence[Row], columns: Sequence[Column]) -> Iterator[Line]:
    every = getattr(plan.part.divisions, "every", 1)
    first = rows[0].reached.position
    # A way that visits the positions out of order is counted by visits.
    in_order = len(rows) < 3 or rows[2].reached.position == first + 2 * every
    checks = check_rows(rows)
    beyond = cells.beyond_the_cut(plan.part)
    turns_before: int | None = None
    for row in rows:
        setting = row.reached.setting
        label = cells.position_label(row, first)
        is_check = row.index in checks
        told = beyond.get(row.reached.position, "")
        yield Line(
            tally=row.reached.position // every if in_order else row.index,
            label=label,
            place=cells.place_text(setting),
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
        case "numeral":
            return Cell(cells.past_numeral(plan.head, reached.setting.reading or Fraction(0)))
        case "ring check":
            return Cell(cells.ring_check_text(plan.head, row.ring_check))
        case "target":
            return Cell(degrees_minutes_seconds(reached.target), decimal_degrees(reached.target))
        case "error":
            rim = plan.part.rim_mm
            at_rim = " ".join(cells.signed_rim(reached.error, rim)) if rim and reached.error else ""
            return Cell(cells.signed_arcseconds(reached.error), at_rim)
        case "remark":
            told = (beyond, words.READ_HERE if is_check else "")
            return Cell("; ".join(filter(None, told)))
        case _:
            return Cell(cells.set_here(reached.setting)[role])
