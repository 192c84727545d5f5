"""How good a job's part will be: three figures kept apart, what causes them, and what would help most."""

from dataclasses import replace
from typing import Any
from urllib.parse import urlencode

from crankwise.accuracy.budget import Budget
from crankwise.accuracy.cause_kinds import HOLDINGS, KINDS, ROUNDING
from crankwise.accuracy.sources import causes
from crankwise.accuracy.tolerance import STANDARDS
from crankwise.draw.cause_bars import Bar, cause_bars
from crankwise.errors import BadLength, FaultsFound, Mendable
from crankwise.tasks.budget import budget_answer
from crankwise.tasks.divide import Division
from crankwise.tasks.job_accuracy import beside_other_ways, gear_of, job_budget, needs_rim
from crankwise.tasks.job_plan import job_made, job_of
from crankwise.tasks.jobs import divided
from crankwise.tasks.what_if import read_what_if
from crankwise.tasks.workshop import KeptJob
from crankwise.web.answers import Page
from crankwise.web.errors import sentences_of
from crankwise.web.visit import Visit
from crankwise.wording.accuracy import CAUSES, RECALLED, advised, both
from crankwise.wording.cures import do_text
from crankwise.wording.job_accuracy import (
    HELD,
    NOT_ACCURACY,
    UNIT_NAMES,
    cause_size_text,
    class_lines,
    figures,
    known_and_assumed,
    measured_text,
    neighbours_text,
    no_class_text,
    typical_text,
    whole_text,
)
from crankwise.wording.run import asked_text

KEPT = ("rim", "holding", "both_sides", *KINDS)
"""What the address keeps of what was typed."""
LEAST_DRAWN_UM = 0.05


def show(visit: Visit) -> Page:
    """Predict the part; `?holding=arbor&worm=20` and the like reckon with other sizes."""
    job = visit.workshop.job(visit.id("job_id"))
    try:
        what_if = read_what_if(visit.query)
        found = beside_other_ways(predicted(job, visit), _division(job), what_if)
    except Mendable as error:
        # No rim was typed yet: a person is asked for it, only a program is refused.
        is_question = isinstance(error, BadLength) and _asks_for_a_rim(job, visit) and not visit.wants_json
        return _page(visit, job, error=None if is_question else error)
    return _page(visit, job, found)


def _division(job: KeptJob) -> Division:
    """Return the other ways of a job too, of the part as its plan has it."""
    return divided(job.plan.head, replace(job_made(job.asked), part=job.plan.part), job.asked.within)


def predicted(job: KeptJob, visit: Visit) -> Budget:
    """Return the budget of a job with what was typed in the address. Raises Mendable."""
    gear = gear_of(job_made(job.asked))
    return job_budget(job.plan, gear, visit.query.get("rim", "").strip(), read_what_if(visit.query))


def typed_again(visit: Visit) -> str:
    """Return what was typed, to be carried on in an address; empty where nothing was."""
    kept = [(name, text) for name in KEPT if (text := visit.query.get(name, "").strip())]
    return f"?{urlencode(kept)}" if kept else ""


def _needs_rim(job: KeptJob) -> bool:
    return needs_rim(job.plan, gear_of(job_made(job.asked)))


def _asks_for_a_rim(job: KeptJob, visit: Visit) -> bool:
    return _needs_rim(job) and not visit.query.get("rim", "").strip()


def _page(visit: Visit, job: KeptJob, found: Budget | None = None, error: Mendable | None = None) -> Page:
    wrong = {fault.place: fault.message for fault in error.faults} if isinstance(error, FaultsFound) else {}
    values: dict[str, Any] = {
        "job": job,
        "asked": asked_text(job.plan),
        "typed": {name: visit.query.get(name, "") for name in KEPT},
        "again": typed_again(visit),
        "wrong": wrong,
        "sentences": [] if wrong else sentences_of(error),
        "needs_rim": _needs_rim(job),
        "holdings": [("", "as the head file says, or a chuck"), *((key, HELD[key]) for key in HOLDINGS)],
        "fields": _fields(job, bool(visit.query.get("both_sides"))),
        "found": found,
        **(_shown(found, job_of(job.asked).part.kind, visit.preferences.inch_first) if found else {}),
    }
    as_json = budget_answer(found, None) | {"job": job.id} if found else None
    return Page("job_accuracy.html", values, as_json, error=error)


def _fields(job: KeptJob, both_sides: bool) -> list[dict[str, str]]:
    """Return a field for the size of each cause that the part meets."""
    met = {cause.kind.name for cause in causes(job.plan, both_sides=both_sides)}
    return [
        {
            "name": kind.name,
            "title": CAUSES[kind.name].title,
            "unit": UNIT_NAMES[kind.unit],
            "usual": " to ".join(kind.typical),
        }
        for kind in KINDS.values()
        if kind.name in met
    ]


def _cell(size_um: float, text: str) -> tuple[str, str]:
    """Return a figure in one unit, then the other, to stand on two lines."""
    first, _, second = text.rstrip(")").partition(" (")
    return (first, second) if size_um >= LEAST_DRAWN_UM else ("0", "")


def _shown(found: Budget, kind: str, inch_first: bool) -> dict[str, Any]:
    work = found.plan.part.work
    bars = [
        Bar(
            CAUSES[share.name].title,
            share.bounds.single,
            share.bounds.cumulative,
            both(share.bounds.single, inch_first),
            both(share.bounds.cumulative, inch_first),
        )
        for share in found.shares
    ]
    drawn = [bar for bar in bars if max(bar.single, bar.cumulative) >= LEAST_DRAWN_UM]
    return {
        "figures": figures(found, inch_first),
        "class_lines": class_lines(found),
        "no_class": no_class_text(kind),
        "recalled": RECALLED if found.reached else "",
        "not_accuracy": NOT_ACCURACY,
        "chart": cause_bars(drawn) if drawn else "",
        "neighbours": neighbours_text(work),
        "whole": whole_text(work),
        "causes": [
            {
                "title": bar.name,
                "size": cause_size_text(share, inch_first),
                "single": _cell(bar.single, bar.single_text),
                "whole": _cell(bar.cumulative, bar.cumulative_text),
                "told": CAUSES[share.name],
                "do": do_text(share.name),
                "typical": typical_text(share.cause.kind, inch_first) if share.cause else "",
                "exact": share.name == ROUNDING,
            }
            for share, bar in zip(found.shares, bars, strict=True)
        ],
        "advice": advised(found, STANDARDS["iso-2013"], inch_first),
        "measured": measured_text(found.plan),
        "known": known_and_assumed(found, inch_first),
    }
