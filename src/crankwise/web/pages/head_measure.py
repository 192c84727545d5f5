"""Plan a measurement of a head: which angles, in which order, what to set and read; to print or to fill in."""

from urllib.parse import urlencode

from crankwise.accuracy.measuring_plan import REFERENCES, MeasuringPlan
from crankwise.errors import Mendable
from crankwise.tasks.measure import plan_answer, plan_csv, plan_measuring
from crankwise.web.answers import Download, Page, file_name
from crankwise.web.errors import sentences_of
from crankwise.web.visit import Visit
from crankwise.wording.calibration import REFERENCE_NAMES
from crankwise.wording.measure import plan_notes, plan_table

_USUAL = {"reference": "index", "points": "36"}
_FIELDS = ("reference", "points", "steps", "reverse")


def show(visit: Visit) -> Page:
    """Show the form, and the plan of what it says; nothing is kept."""
    kept = visit.workshop.head(visit.id("head_id"))
    asked = _asked(visit)
    plan, error = None, None
    try:
        plan = _plan(visit, asked)
    except Mendable as told:
        error = told
    values = {
        "kept": kept,
        "filled": asked,
        "references": [(key, REFERENCE_NAMES[key]) for key in REFERENCES],
        "table": plan_table(plan) if plan else None,
        "to_read": "gauge, seconds of arc" if plan and plan.steps else "measured",
        "notes": plan_notes(plan) if plan else [],
        "query": urlencode({name: text for name, text in asked.items() if text}),
        "sentences": sentences_of(error),
    }
    return Page("head_measure.html", values, plan_answer(plan) if plan else None, error=error)


def csv(visit: Visit) -> Download:
    """Hand out the plan as a file to fill in."""
    kept = visit.workshop.head(visit.id("head_id"))
    asked = _asked(visit)
    name = file_name(kept.head.name, "head")
    content = plan_csv(_plan(visit, asked)).encode()
    return Download(content, "text/csv; charset=utf-8", f"{name}-{asked['reference']}.csv")


def _asked(visit: Visit) -> dict[str, str]:
    typed = {name: visit.query.get(name, _USUAL.get(name, "")).strip() for name in _FIELDS}
    return typed | {"reverse": "1" if typed["reverse"] else ""}


def _plan(visit: Visit, asked: dict[str, str]) -> MeasuringPlan:
    head = visit.workshop.head(visit.id("head_id")).head
    return plan_measuring(head, asked["points"], asked["reference"], asked["steps"], bool(asked["reverse"]))
