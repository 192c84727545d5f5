"""The run sheet of a job or a run as a page. The files to print or keep are handed out beside it."""

from collections.abc import Sequence
from typing import Any, get_args

from crankwise.errors import BadDivisions, Mendable
from crankwise.plan.passes import has_trace
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row, schedule
from crankwise.plan.side_by_side import SideBySide, own_targets, side_by_side
from crankwise.sheets.columns import Role, beyond_here, cell_of, columns_of
from crankwise.sheets.sheet import pass_facts
from crankwise.tasks.asked_passes import ORDERS, passes_answer
from crankwise.tasks.job_plan import job_made
from crankwise.web.answers import Page
from crankwise.web.asked_sheet import AskedSheet, asked_sheet, in_one_pass, read_passes
from crankwise.web.errors import sentences_of
from crankwise.web.objects import job_object, row_object
from crankwise.web.visit import Visit
from crankwise.wording.cautions import plan_cautions
from crankwise.wording.passes import list_title
from crankwise.wording.run import asked_text
from crankwise.wording.sheet import backlash_text, before_the_first_cut, ending_text, turn_text, zero_text
from crankwise.wording.sheet_cells import SetHere, beyond_the_cut, row_label

ROWS_ON_A_PAGE = 200
_SHOWN: tuple[Role, ...] = (*get_args(SetHere), "ring check")
"""What has a column here; position, target and error stand beside them, told as the visitor likes them."""
MOST_ROWS = 20_000
"""As many as a run may have; each page is counted from the first row."""


def show(visit: Visit) -> Page:
    """Show one page of the sheet; `?page=2` is the next, `?trace=1&cuts=two` and the like ask for passes."""
    error = None
    try:
        sheet = asked_sheet(visit)
        lists = _lists(sheet)
    except Mendable as wrong:
        if visit.wants_json or "job_id" not in visit.ids:
            raise
        error, sheet = wrong, in_one_pass(visit)
        lists = _lists(sheet)
    plan = sheet.plan
    rows = [row for one in lists for row in one.rows]
    pages = -(-len(rows) // ROWS_ON_A_PAGE)
    number = min(_page_asked(visit.query.get("page", "")), pages)
    shown = rows[(number - 1) * ROWS_ON_A_PAGE : number * ROWS_ON_A_PAGE]
    made = job_made(sheet.job.asked)
    values = {
        "job": sheet.job,
        "plan": plan,
        "asked": asked_text(plan),
        "sheet": sheet,
        "number": number,
        "pages": pages,
        "ending": ending_text(plan, rows[-1].closing),
        "cautions": plan_cautions(plan, made.cautions),
        "part_setup": made.setup,
        "passes": read_passes(visit.query),
        "orders": ORDERS,
        "tells_lines_apart": bool(plan.part.marks),
        "sentences": sentences_of(error),
        "pass_facts": pass_facts(plan, sheet.passes, lists),
        **_head(sheet, rows[0]),
        **_table(plan, lists, shown),
    }
    return Page("sheet.html", values, _object(sheet, lists, shown, number, pages), error=error)


def _lists(sheet: AskedSheet) -> tuple[SideBySide, ...]:
    plan, positions = sheet.plan, len(sheet.plan.part.divisions)
    if positions * len(sheet.passes) > MOST_ROWS:
        told = f" in {len(sheet.passes)} passes" if len(sheet.passes) > 1 else ""
        raise BadDivisions(
            "sheet",
            f"{positions:,} positions{told}; this page shows {MOST_ROWS:,} at most; "
            f"take the CSV file, {sheet.address}.csv",
        )
    return side_by_side(schedule(plan, sheet.passes))


def _head(sheet: AskedSheet, first: Row) -> dict[str, Any]:
    plan, setting = sheet.plan, first.reached.setting
    return {
        "before": (
            turn_text(plan, setting),
            zero_text(plan, setting),
            *before_the_first_cut(plan, setting, has_trace(sheet.passes)),
        ),
        "rule": backlash_text(plan, setting),
    }


def _table(plan: Plan, lists: Sequence[SideBySide], shown: Sequence[Row]) -> dict[str, Any]:
    columns = [one for one in columns_of(plan, lists[0].rows[0]) if one.role in _SHOWN]
    beyond = beyond_the_cut(plan.part)
    targets = own_targets(plan, shown)
    of = sum(len(one.passes) for one in lists)
    titles = {one.rows[0].index: title for one in lists if (title := list_title(one, of, plan.part))}
    if titles and shown[0].index not in titles:
        going_on = max(index for index in titles if index < shown[0].index)
        titles[shown[0].index] = f"{titles[going_on]} (goes on)"
    return {
        "rows": [
            (
                titles.get(row.index, ""),
                row,
                targets[row.index],
                row_label(plan.part, row),
                [(one.role, cell_of(plan, row, one.role, targets[row.index]).text) for one in columns],
                beyond_here(row, beyond),
            )
            for row in shown
        ],
        "columns": [" ".join(one.heading).strip() for one in columns],
        "strong": [one.role for one in columns if one.role != "ring check"][-1],
        "has_marks": any(beyond.values()),
    }


def _object(
    sheet: AskedSheet, lists: Sequence[SideBySide], shown: Sequence[Row], number: int, pages: int
) -> dict[str, Any]:
    passes = {
        row.index: [one.number + index for index in range(len(one.passes))]
        for one in lists
        for row in one.rows
    }
    return job_object(sheet.job) | {
        "page": number,
        "pages": pages,
        "passes": passes_answer(sheet.plan, sheet.passes),
        "rows": [row_object(sheet.plan, row) | {"passes": passes[row.index]} for row in shown],
    }


def _page_asked(typed: str) -> int:
    return max(int(typed), 1) if typed.isascii() and typed.isdecimal() and len(typed) < 9 else 1
