"""The run sheet of a job as a page. The files to print or keep are handed out beside it."""

from crankwise.errors import BadDivisions
from crankwise.plan.schedule import schedule
from crankwise.tasks.job_plan import job_made
from crankwise.web.answers import Page
from crankwise.web.objects import job_object, row_object
from crankwise.web.visit import Visit
from crankwise.wording.cautions import cautions
from crankwise.wording.run import asked_text
from crankwise.wording.sheet import backlash_text, before_the_first_cut, ending_text, turn_text, zero_text
from crankwise.wording.sheet_cells import (
    beyond_the_cut,
    position_label,
    ring_check_text,
    ring_unit,
    set_heading,
    set_here,
)

ROWS_ON_A_PAGE = 200
MOST_ROWS = 20_000
"""As many as a run may have; each page is counted from the first row."""


def show(visit: Visit) -> Page:
    """Show one page of the sheet; `?page=2` is the next."""
    job = visit.workshop.job(visit.id("job_id"))
    plan = job.plan
    if len(plan.part.divisions) > MOST_ROWS:
        raise BadDivisions(
            f"sheet: {len(plan.part.divisions):,} positions; this page shows {MOST_ROWS:,} at most; "
            f"take the CSV file, /jobs/{job.id}/sheet.csv"
        )
    rows = schedule(plan)
    pages = -(-len(rows) // ROWS_ON_A_PAGE)
    number = min(_page_asked(visit.query.get("page", "")), pages)
    shown = rows[(number - 1) * ROWS_ON_A_PAGE : number * ROWS_ON_A_PAGE]
    setting = rows[0].reached.setting
    first = plan.part.divisions.numbers[0]
    columns = list(set_here(setting))
    beyond = beyond_the_cut(plan.part)
    values = {
        "job": job,
        "asked": asked_text(plan),
        "rows": [
            (
                row,
                position_label(row, first),
                set_here(row.reached.setting).values(),
                ring_check_text(plan.head, row.ring_check),
                "" if row.closing else beyond.get(row.reached.position, ""),
            )
            for row in shown
        ],
        "columns": [
            " ".join(set_heading(name, plan.way, setting, ring_unit(plan.head))).strip() for name in columns
        ],
        "has_marks": any(beyond.values()),
        "has_ring": plan.head.ring is not None and "ring" not in columns,
        "number": number,
        "pages": pages,
        "before": (
            turn_text(plan, setting),
            zero_text(plan, setting),
            *before_the_first_cut(plan, setting),
        ),
        "rule": backlash_text(plan, setting),
        "ending": ending_text(plan, rows[-1].closing),
        "cautions": job_made(job.asked).cautions or cautions(plan.part.work, len(plan.part.divisions)),
    }
    as_json = job_object(job) | {
        "page": number,
        "pages": pages,
        "rows": [row_object(plan, row) for row in shown],
    }
    return Page("sheet.html", values, as_json)


def _page_asked(typed: str) -> int:
    return max(int(typed), 1) if typed.isascii() and typed.isdecimal() and len(typed) < 9 else 1
