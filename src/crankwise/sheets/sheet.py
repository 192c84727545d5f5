"""A run sheet as words: what stands at its head, and one line a position, ready to be laid out."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from crankwise.part.part import Mark
from crankwise.plan.passes import ONE_PASS, Passes, has_trace
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row, schedule
from crankwise.plan.side_by_side import SideBySide, own_targets, side_by_side
from crankwise.run.check_points import returns
from crankwise.sheets.check_rows import check_rows, checks_fact, weighed
from crankwise.sheets.columns import Cell, Column, Role, beyond_here, cell_of, columns_of
from crankwise.ways.way import Setting
from crankwise.wording import along
from crankwise.wording import passes as pass_words
from crankwise.wording import sheet as words
from crankwise.wording import sheet_cells as cells
from crankwise.wording.cautions import plan_cautions
from crankwise.wording.run_checks import returns_text


@dataclass(frozen=True, slots=True)
class Line:
    """One position as it is printed.

    tally        counts the positions worked, or the lines of a list out of order; every fifth is shaded,
                 every tenth ruled
    label        the position's number, "0 = 149" where it is the first met again
    place        its setting in one phrase, for the recap of a page: 31 turns + 56.5
    cells        one a column
    turns_change whether the whole turns differ from those of the line before
    is_check     whether the ring is read and written down here
    closing      whether it is the first position met again
    figures      what is set, and what the ring must show: the texts of those cells
    line_class   class of the line made here; empty where lines are not told apart
    numeral      figures stamped here; empty for none
    """

    tally: int
    label: str
    place: str
    cells: tuple[Cell, ...]
    turns_change: bool
    is_check: bool
    closing: bool
    figures: Mapping[Role, str]
    line_class: str = ""
    numeral: str = ""


@dataclass(frozen=True, slots=True)
class List:
    """The lines of one pass, or of several over the same positions in the same order, a tick box a pass.

    title   which passes and how many positions; empty where the sheet has but one list
    where   the same in the fewest words, for the end of a page; empty where the sheet has but one list
    ticks   what is ticked in each pass
    lines   one a position, the closing one last where it goes round
    counts  whether the ticks are counted, page by page and in all
    wanted  how many positions each pass goes over
    in_all  what is counted on the work at the end; empty where nothing is
    """

    title: str
    where: str
    ticks: tuple[str, ...]
    lines: tuple[Line, ...]
    counts: bool
    wanted: int
    in_all: str


@dataclass(frozen=True, slots=True)
class Sheet:
    """A whole run sheet.

    title     the job's name, as its owner typed it
    summary   direction, head and way, for every page
    facts     what stands at the head: name and text
    before    what is done and ticked before the first cut
    cautions  the usual ones for this work
    columns   what each line holds, in order
    lists     the lines, a list for all passes that can share one
    rhythm    what is done at every line, in its order
    ending    what must be seen at the end
    link      where a phone finds the run; empty where that is not known
    """

    title: str
    summary: str
    facts: tuple[tuple[str, str], ...]
    before: tuple[str, ...]
    cautions: tuple[str, ...]
    columns: tuple[Column, ...]
    lists: tuple[List, ...]
    rhythm: str
    ending: str
    link: str = ""

    @property
    def lines(self) -> tuple[Line, ...]:
        """All lines, from the first list to the last."""
        return tuple(line for one in self.lists for line in one.lines)

    @property
    def line_count(self) -> int:
        """How many lines there are in all."""
        return sum(len(one.lines) for one in self.lists)


def sheet_of(
    plan: Plan,
    title: str,
    usual: tuple[str, ...] = (),
    link: str = "",
    setup: tuple[tuple[str, str], ...] = (),
    passes: Passes = ONE_PASS,
) -> Sheet:
    """Return the run sheet of a plan, under the name of its job.

    usual  the cautions of this kind of part; those of its work where none are given
    link   where a phone finds the run; empty where that is not known
    setup  what else is set on the machine for this kind of part: names and texts
    passes  once or more over the positions; as many ticks on a line, or lists of their own

    Raises BadDivisions when the way cannot make these passes.
    """
    rows = schedule(plan, passes)
    setting = rows[0].reached.setting
    columns = tuple(columns_of(plan, rows[0]))
    lists = side_by_side(rows)
    found = [weighed(plan, one.rows) for one in lists]
    return Sheet(
        title=title,
        summary=_summary(plan, setting),
        facts=_facts(plan, rows, setup, passes, lists, checks_fact(plan, [one.rows for one in lists], found)),
        before=words.before_the_first_cut(plan, setting, has_trace(passes)),
        cautions=plan_cautions(plan, usual),
        columns=columns,
        lists=tuple(
            _list(plan, one, columns, passes, check_rows(one.rows, asked))
            for one, asked in zip(lists, found, strict=True)
        ),
        rhythm=words.rhythm_text(plan.part),
        ending=words.ending_text(plan, rows[-1].closing),
        link=link,
    )


def pass_facts(plan: Plan, passes: Passes, lists: Sequence[SideBySide]) -> tuple[tuple[str, str], ...]:
    """Return what is told of passes at the head of a sheet, names and texts; nothing where there is but one."""
    if passes == ONE_PASS:
        return ()
    share = any(len(one.passes) > 1 for one in lists)
    again = (("", pass_words.TURNS_BEGIN_AGAIN),) if share else ()
    return (("Passes", pass_words.passes_text(passes, plan.part)), *again)


def _facts(
    plan: Plan,
    rows: Sequence[Row],
    setup: tuple[tuple[str, str], ...],
    passes: Passes,
    lists: Sequence[SideBySide],
    checked: tuple[tuple[str, str], ...],
) -> tuple[tuple[str, str], ...]:
    setting = rows[0].reached.setting
    return (
        ("Part", words.part_text(plan.part)),
        ("Slide" if plan.head.slide else "Head", words.head_text(plan)),
        ("Way", words.way_text(plan)),
        *setup,
        *pass_facts(plan, passes, lists),
        ("Set on", words.scales_text(plan, setting)),
        ("Zero", words.zero_text(plan, setting)),
        ("Turn", words.turn_text(plan, setting)),
        ("Slack", words.backlash_text(plan, setting)),
        *checked,
        *_going_back(plan, rows),
        ("Worst error", words.worst_text(plan)),
        ("", along.OWN_ROUNDING if plan.part.is_straight else words.OWN_ROUNDING),
    )


def _going_back(plan: Plan, rows: Sequence[Row]) -> tuple[tuple[str, str], ...]:
    """Return when the tool is brought to the first line on the way; the closing alone is told at the end."""
    found = returns(plan, rows)
    on_the_way = any(not rows[back.row].closing for back in found)
    return (("Look back", returns_text(plan, found, rows)),) if on_the_way else ()


def _summary(plan: Plan, setting: Setting) -> str:
    turn = words.turn_text(plan, setting).partition(",")[0].rstrip(".")
    return f"{turn} · {plan.head.name} · {words.counted(plan.part)} · {words.way_text(plan)}"


def _list(
    plan: Plan,
    shared: SideBySide,
    columns: Sequence[Column],
    passes: Passes,
    checks: frozenset[int],
) -> List:
    ticks = tuple(pass_words.TICKED[one.name] for one in shared.passes)
    counts, wanted = passes != ONE_PASS, pass_words.wanted(shared)
    return List(
        title=pass_words.list_title(shared, len(passes), plan.part),
        where=pass_words.where_in(shared, len(passes)),
        ticks=ticks,
        lines=tuple(_lines(plan, shared.rows, columns, checks)),
        counts=counts,
        wanted=wanted,
        in_all=pass_words.count_in_all(wanted, plan.part, ticks) if counts else "",
    )


def _lines(
    plan: Plan, rows: Sequence[Row], columns: Sequence[Column], checks: frozenset[int]
) -> Iterator[Line]:
    every = getattr(plan.part.divisions, "every", 1)
    first = plan.part.divisions.numbers[0]
    begins = rows[0].reached.position
    # Positions out of order, or with gaps of their own, are counted by visits.
    in_order = begins == first and (len(rows) < 3 or rows[2].reached.position == first + 2 * every)
    beyond = cells.beyond_the_cut(plan.part)
    numbers = (number for number, _ in plan.part.divisions.targets())
    marks = dict(zip(numbers, plan.part.marks, strict=False))
    targets = own_targets(plan, rows)
    before: Row | None = None
    for count, row in enumerate(rows):
        setting = row.reached.setting
        label = cells.row_label(plan.part, row)
        is_check = row.index in checks
        remarks = (
            beyond_here(row, beyond),
            pass_words.BACK_FIRST if row.goes_back else "",
            pass_words.ROUND_AGAIN if _is_round_again(row, before) else "",
            words.READ_HERE if is_check else "",
        )
        told = "; ".join(filter(None, remarks))
        mark = Mark() if row.closing else marks.get(row.reached.position, Mark())
        drawn = tuple(cell_of(plan, row, column.role, targets[row.index], told) for column in columns)
        yield Line(
            tally=row.reached.position // every if in_order else count,
            label=label,
            place=cells.place_text(cells.in_its_notch(plan.way, setting)),
            cells=drawn,
            turns_change=before is None or setting.turns != before.reached.setting.turns,
            is_check=is_check,
            closing=row.closing,
            figures={column.role: cell.text for column, cell in zip(columns, drawn, strict=True)},
            line_class=mark.line_class,
            numeral=mark.numeral,
        )
        before = row


def _is_round_again(row: Row, before: Row | None) -> bool:
    """Whether a spread order has come round and begins its next circuit here."""
    if before is None or row.closing or row.goes_back or row.work.spread == 1:
        return False
    return row.reached.position < before.reached.position
