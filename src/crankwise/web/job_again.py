"""The form of a new job, filled in from what was typed for a job that is kept: how a part is changed.

A job itself never changes its part: its runs and its measurements are of the part that it has.
"""

from dataclasses import asdict

from crankwise.tasks.job_plan import job_of
from crankwise.tasks.runs_of_a_part import WHICH, together
from crankwise.tasks.workshop import KeptJob, Workshop
from crankwise.web.visit import Visit, number_of

_FOUND_ANEW = ("head_ratio", "train")
"""What a helical gear's job keeps of its head: on the form it is left to the head that is chosen there."""


def again_address(job: KeptJob) -> str:
    """Return where the form of a new job is, filled in from this one."""
    kind = job_of(job.asked).part.kind
    return f"/jobs/new{'' if kind == 'divisions' else f'/{kind}'}?from={job.id}"


def job_before(visit: Visit) -> KeptJob | None:
    """Return the job that `?from=` names; None where it names none. Raises UnknownThing."""
    if "from" not in visit.query:
        return None
    return visit.workshop.job(number_of("job", visit.query["from"]))


def typed_before(visit: Visit) -> dict[str, str]:
    """Return what was typed for the job that `?from=` names, field by field, with its head; nothing where none is.

    Of a part that takes several runs it is all of them again. Raises UnknownThing.
    """
    job = job_before(visit)
    if job is None:
        return {}
    return _typed(visit.workshop, job) | {"head": str(job.head_id or "")}


def _typed(workshop: Workshop, job: KeptJob) -> dict[str, str]:
    kept = job_of(job.asked)
    if not job.asked.part:
        return {name: text for name, text in asdict(job.asked).items() if name != "part"}
    left_out = {*_FOUND_ANEW, *((WHICH,) if together(workshop, job) else ())}
    values = {name: text for name, text in kept.part.typed if name not in left_out}
    return values | {"rim": kept.rim, "within": kept.within}
