"""A job on a head whose errors are known: settings plain or corrected, before and after, and what remains."""

from collections.abc import Sequence
from typing import Any

from crankwise.draw.head_errors import before_and_after, before_and_after_round
from crankwise.plan.corrected import compared, correction_of
from crankwise.tasks.corrected import correction_answer
from crankwise.tasks.workshop import KeptJob
from crankwise.ways.way import Way
from crankwise.web.visit import Visit
from crankwise.wording.measure import NO_FINE_SCALE, corrected_lines


def settings_are_corrected(visit: Visit, job: KeptJob) -> bool:
    """Return whether corrected ways are shown: as `?settings=` says, else as the job's way is set."""
    asked = visit.query.get("settings", "")
    return asked == "corrected" if asked in ("plain", "corrected") else job.plan.way.corrects


def corrected_values(visit: Visit, job: KeptJob, ways: Sequence[Way]) -> dict[str, Any]:
    """Return what the job's page tells of corrections.

    ways  as they are shown, the best first
    """
    chosen, way = job.plan.way, next((way for way in ways if way.corrects), None)
    shown = chosen if chosen.corrects else way
    corrected = settings_are_corrected(visit, job)
    rows = compared(shown) if shown and corrected else ()
    # A page without any way says why; the reason of the plain ways would mislead here.
    refused = {"refusal": NO_FINE_SCALE} if corrected and not ways else {}
    return refused | {
        "corrected": corrected,
        "can_correct": job.plan.head.known_errors is not None,
        "head_is_other": _head_is_other(visit, job),
        "correction": {
            "way": shown,
            "is_chosen": shown is chosen,
            "lines": corrected_lines(correction_of(shown), rows),
            "curves": [before_and_after(rows), before_and_after_round(rows)],
        }
        if shown and rows
        else None,
    }


def corrected_object(visit: Visit, job: KeptJob) -> dict[str, Any]:
    """Return the same for programs: how the chosen way corrects, null where it does not."""
    way = job.plan.way
    return {
        "settings": "corrected" if settings_are_corrected(visit, job) else "plain",
        "corrected": correction_answer(way, curve=True) if way.corrects else None,
        "head_is_other": _head_is_other(visit, job),
    }


def _head_is_other(visit: Visit, job: KeptJob) -> bool:
    """Whether the head has been changed or measured since the job was planned on it."""
    return job.head_id is not None and visit.workshop.head(job.head_id).head != job.plan.head
