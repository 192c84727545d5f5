"""One job: the ways to do it side by side, the one chosen, and its runs."""

from dataclasses import replace

from crankwise.errors import BadDivisions, Mendable
from crankwise.tasks.answers import warnings_answer, work_answer
from crankwise.tasks.asked_passes import ORDERS, AskedPasses
from crankwise.tasks.job_plan import job_made
from crankwise.tasks.jobs import divided
from crankwise.tasks.runs_of_a_part import together
from crankwise.tasks.workshop import KeptJob
from crankwise.ways.choosing import (
    MISTAKE_AT_A_COUNT,
    MISTAKE_AT_A_LOOK_UP,
    on_the_front,
    spread_of_choice,
    work,
)
from crankwise.ways.ranking import is_within
from crankwise.ways.way import Way
from crankwise.web.answers import GoTo, Page
from crankwise.web.errors import sentences_of
from crankwise.web.job_corrected import corrected_object, corrected_values, settings_are_corrected
from crankwise.web.job_infeed import infeed_values
from crankwise.web.job_part import part_object, part_values
from crankwise.web.objects import job_object, together_objects, way_object
from crankwise.web.pages.job_measured import measured_objects, measured_rows
from crankwise.web.visit import Visit
from crankwise.wording.division import refusal_text
from crankwise.wording.run import asked_text

SHOWN_FIRST = 6
MOST_SHOWN = 30


def show(visit: Visit, asked: AskedPasses | None = None, error: Mendable | None = None) -> Page:
    """Compare the ways.

    asked, error  the passes that were asked for, and what was wrong with them
    """
    job = visit.workshop.job(visit.id("job_id"))
    plan = job.plan
    corrected = settings_are_corrected(visit, job)
    division = divided(plan.head, replace(job_made(job.asked), part=plan.part), job.asked.within, corrected)
    runs = [visit.workshop.run(run_id) for run_id in reversed(job.run_ids)]
    costs = [work(way) for way in division.ways]
    front = on_the_front(division.ways, costs)
    shown = _shown(division.ways, plan.way.key)
    first = _first(spread_of_choice(division.ways, costs), division.ways, plan.way.key)
    warnings = warnings_answer(plan.head, plan.part)
    of_part = together(visit.workshop, job, visit.preferences.inch_first)
    reading, infeeds, wrong_reading = infeed_values(visit, job)
    values = {
        "job": job,
        "asked": asked_text(plan),
        "division": division,
        "ways": first,
        "others": (others := [way for way in shown if way not in first]),
        "left_out": len(division.ways) - len(first) - len(others),
        "on_line": {way.key: _on_line(way) for way in (*first, *others)},
        "costs": dict(zip((way.key for way in division.ways), costs, strict=True)),
        "unbeaten": {way.key for way, is_unbeaten in zip(division.ways, front, strict=True) if is_unbeaten},
        "one_look_up_in": MISTAKE_AT_A_LOOK_UP.denominator,
        "one_count_in": f"{MISTAKE_AT_A_COUNT.denominator:,}",
        "traps": warnings,
        "within": {way.key: is_within(way, division.tolerance) for way in division.ways},
        "chosen": plan.way.key,
        "refusal": ""
        if division.is_answered
        else refusal_text(plan.head, division.ways, plan.part, division.tolerance, division.why_none),
        "runs": runs,
        "together": of_part,
        "measured": measured_rows(visit, job),
        "closes_at_zero": plan.part.divisions.goes_round,
        "passes": asked or AskedPasses(),
        "orders": ORDERS,
        "tells_lines_apart": bool(plan.part.marks),
        "sentences": sentences_of(error),
        **corrected_values(visit, job, first),
        **part_values(job, visit.preferences.inch_first, runs),
        **reading,
    }
    as_json = job_object(job) | {
        **corrected_object(visit, job),
        "part": part_object(job),
        "together": together_objects(of_part),
        "infeeds": infeeds,
        "measurements": measured_objects(visit, job),
        "ways": [
            way_object(plan, way) | {"unbeaten": is_unbeaten, "work": work_answer(cost)}
            for way, cost, is_unbeaten in zip(division.ways, costs, front, strict=True)
        ],
        "warnings": warnings,
        "first_because": division.reason,
    }
    return Page("job.html", values, as_json, error=error or wrong_reading)


def _shown(ways: tuple[Way, ...], chosen: str) -> tuple[Way, ...]:
    """The best ways, and the chosen one wherever it stands: a plate head has hundreds."""
    return (*ways[:MOST_SHOWN], *(way for way in ways[MOST_SHOWN:] if way.key == chosen))


def _first(spread: tuple[Way, ...], ways: tuple[Way, ...], chosen: str) -> list[Way]:
    """The spread of the choice as far as a page compares it at once, and the chosen way, in their ranking."""
    first = spread[:SHOWN_FIRST]
    return [way for way in ways if way in first or way.key == chosen]


def _on_line(way: Way) -> str:
    return f"{way.settings_on_lines()} of {len(way.divisions)}"


def choose_way(visit: Visit) -> GoTo:
    """Choose another way; runs already begun keep theirs."""
    return _back(visit.workshop.choose_way(visit.id("job_id"), visit.typed("way")))


def plan_again(visit: Visit) -> GoTo:
    """Plan the job on its head as that is now; runs already begun keep theirs."""
    return _back(visit.workshop.plan_again(visit.id("job_id")))


def rename(visit: Visit) -> GoTo:
    """Give the job another name."""
    job_id = visit.id("job_id")
    if not visit.typed("name"):
        raise BadDivisions("name", "nothing given; give the job a name to know it by")
    visit.workshop.rename_job(job_id, visit.typed("name"))
    return _back(visit.workshop.job(job_id))


def drop(visit: Visit) -> GoTo:
    """Take a job away, with its runs."""
    job_id = visit.id("job_id")
    visit.workshop.drop_job(job_id)
    return GoTo("/", {"dropped": job_id})


def _back(job: KeptJob) -> GoTo:
    return GoTo(f"/jobs/{job.id}", job_object(job))
