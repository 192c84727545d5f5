"""The run sheet of a job as a page. The files to print or keep are handed out beside it."""

from crankwise.plan.schedule import schedule
from crankwise.ways.way import Setting
from crankwise.web.answers import Page
from crankwise.web.objects import job_object, row_object
from crankwise.web.visit import Visit
from crankwise.wording.cautions import cautions
from crankwise.wording.run import asked_text, ring_text
from crankwise.wording.sheet import (
    back_pin_cell,
    backlash_text,
    before_the_first_cut,
    ending_text,
    position_label,
    ring_unit,
    set_by,
    setting_cell,
    setting_heading,
    turn_text,
    zero_text,
)

ROWS_ON_A_PAGE = 200


def show(visit: Visit) -> Page:
    """Show one page of the sheet; `?page=2` is the next."""
    job = visit.workshop.job(visit.id("job_id"))
    plan = job.plan
    rows = schedule(plan)
    pages = -(-len(rows) // ROWS_ON_A_PAGE)
    number = min(_page_asked(visit.query.get("page", "")), pages)
    shown = rows[(number - 1) * ROWS_ON_A_PAGE : number * ROWS_ON_A_PAGE]
    by = set_by(rows[0].reached.setting)
    first = plan.part.divisions.numbers[0]
    values = {
        "job": job,
        "asked": asked_text(plan),
        "rows": [
            (
                row,
                position_label(row, first),
                _cell(row.reached.setting),
                ring_text(plan.head, row.ring_check),
            )
            for row in shown
        ],
        "has_turns": rows[0].reached.setting.turns is not None,
        "set_to": " ".join(setting_heading(plan.way, by, ring_unit(plan.head))),
        "has_ring": plan.head.ring is not None and by != "ring",
        "number": number,
        "pages": pages,
        "before": (turn_text(plan, by), zero_text(plan, by), *before_the_first_cut(plan, by)),
        "rule": backlash_text(plan, by),
        "ending": ending_text(plan, rows[-1].closing),
        "cautions": cautions(plan.part.work, len(plan.part.divisions)),
    }
    as_json = job_object(job) | {
        "page": number,
        "pages": pages,
        "rows": [row_object(plan, row) for row in shown],
    }
    return Page("sheet.html", values, as_json)


def _cell(setting: Setting) -> str:
    """What is set, and the pin at the back where there is one."""
    back = f" {back_pin_cell(setting)}" if setting.holes is not None and len(setting.holes) > 1 else ""
    return setting_cell(setting) + back


def _page_asked(typed: str) -> int:
    return max(int(typed), 1) if typed.isascii() and typed.isdecimal() and len(typed) < 9 else 1
