"""A measurement that was kept: what it says, its report, and dropping it."""

from crankwise.errors import Mendable, UnknownThing
from crankwise.tasks.job_plan import job_made
from crankwise.tasks.kept_parts import (
    KeptMeasurement,
    judged_measurement,
    measurement_answer,
    measurement_summary,
)
from crankwise.tasks.workshop import KeptJob
from crankwise.web.answers import Download, GoTo, Page
from crankwise.web.errors import sentences_of
from crankwise.web.pages.job_measure import read_piece, report, result_values
from crankwise.web.visit import Visit
from crankwise.wording.inspection import measured_text
from crankwise.wording.run import asked_text


def show(visit: Visit) -> Page:
    """Show one measurement."""
    job, kept = _kept(visit)
    values = {
        "job": job,
        "kept": kept,
        "asked": asked_text(kept.plan),
        "what": what_was_measured(kept),
        "run": _run_number(job, kept),
        "sentences": (),
    }
    try:
        found = judged_measurement(kept.plan, job_made(job.asked), kept.typed)
    except Mendable as error:
        # What was kept can be looked at and dropped, whatever this version makes of it.
        values |= {"sentences": sentences_of(error), "verdict": "", "lines": (), "picture": ""}
        return Page("job_measured.html", values, error=error)
    values |= result_values(found, visit.preferences.inch_first)
    return Page("job_measured.html", values, measurement_answer(kept, found))


def hand_out(visit: Visit) -> Download:
    """Hand out the report as PDF; `?paper=letter` for the other size."""
    job, kept = _kept(visit)
    found = judged_measurement(kept.plan, job_made(job.asked), kept.typed)
    return report(visit, job, kept.plan, found, kept.date, kept.typed, kept.run_id, kept.note)


def say_piece(visit: Visit) -> GoTo:
    """Say which piece it was that was measured; empty for not said."""
    job, kept = _kept(visit)
    visit.workshop.say_piece(kept.id, read_piece(visit.typed("piece")))
    return GoTo(
        f"/jobs/{job.id}/measured/{kept.id}", measurement_summary(visit.workshop.measurement(kept.id))
    )


def drop(visit: Visit) -> GoTo:
    """Take a measurement away."""
    job, kept = _kept(visit)
    visit.workshop.drop_measurement(kept.id)
    return GoTo(f"/jobs/{job.id}", {"dropped": kept.id})


def measured_rows(visit: Visit, job: KeptJob) -> list[tuple[KeptMeasurement, str, int | None]]:
    """Return what a job's page lists: each measurement, what was measured, and the number of its run."""
    kept = visit.workshop.measurements(job.id)
    return [(one, what_was_measured(one), _run_number(job, one)) for one in kept]


def measured_objects(visit: Visit, job: KeptJob) -> list[object]:
    """Return the same for a program."""
    return [measurement_summary(one) for one in visit.workshop.measurements(job.id)]


def what_was_measured(kept: KeptMeasurement) -> str:
    """Return what was measured, in words."""
    return kept.typed.of or measured_text(kept.typed.column)


def _run_number(job: KeptJob, kept: KeptMeasurement) -> int | None:
    return kept.run_id if kept.run_id in job.run_ids else None


def _kept(visit: Visit) -> tuple[KeptJob, KeptMeasurement]:
    job = visit.workshop.job(visit.id("job_id"))
    kept = visit.workshop.measurement(visit.id("measurement_id"))
    if kept.job_id != job.id:
        raise UnknownThing(f"measurement {kept.id}: it is none of this job")
    return job, kept
