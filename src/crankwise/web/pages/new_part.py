"""A new job of some kind of part: what that kind asks, and the head it is divided on."""

from collections.abc import Sequence

from crankwise.errors import FaultsFound, Mendable
from crankwise.files.job_toml import Job, asked_part
from crankwise.tasks.geared_part import geared_part
from crankwise.tasks.runs_of_a_part import keep_every_run
from crankwise.tasks.workshop import KeptJob
from crankwise.web.answers import Answer, GoTo, Page
from crankwise.web.errors import sentences_of
from crankwise.web.form_fields import Field, PartForm
from crankwise.web.job_again import job_before, typed_before
from crankwise.web.objects import job_object
from crankwise.web.pages.new_job import head_chosen
from crankwise.web.part_forms import PART_FORMS
from crankwise.web.visit import Visit

_OF_THE_JOB = ("head", "within", "rim", "name")


def show(visit: Visit) -> Page:
    """Show the form of one kind; `?head=` chooses the head, `?from=` fills it in from a job."""
    return _page(visit, typed_before(visit) | dict(visit.query))


def keep(visit: Visit) -> Answer:
    """Keep the job, divided the best way there is; a job for each run where the part takes several."""
    form = _form(visit)
    typed = {name: visit.typed(name) for name in (*(field.name for field in _fields(form)), *_OF_THE_JOB)}
    try:
        head_id = head_chosen(typed["head"])
        values = {
            field.name: bool(typed[field.name]) if field.is_tick else typed[field.name]
            for field in _fields(form)
        }
        part = asked_part(form.kind, values)
        job = Job(
            geared_part(part, visit.workshop.head(head_id).head),
            name=typed["name"],
            rim=typed["rim"],
            within=typed["within"],
        )
        kept = keep_every_run(visit.workshop, head_id, job)
    except Mendable as error:
        return _page(visit, typed, error)
    return kept_jobs(kept)


def kept_jobs(kept: Sequence[KeptJob]) -> GoTo:
    """Go to the first of the jobs that were just kept; a program is told the numbers of all."""
    return GoTo(f"/jobs/{kept[0].id}", job_object(kept[0]) | {"job_ids": [job.id for job in kept]})


def _form(visit: Visit) -> PartForm:
    return PART_FORMS[visit.address.rpartition("/")[2]]


def _fields(form: PartForm) -> list[Field]:
    return [*form.front, *(field for _, fields in form.folded for field in fields)]


def _page(visit: Visit, typed: dict[str, str], error: Mendable | None = None) -> Page:
    form = _form(visit)
    heads = [kept for kept in visit.workshop.heads() if kept.head.is_straight == form.along]
    filled = {name: typed.get(name, "") for name in (*(field.name for field in _fields(form)), *_OF_THE_JOB)}
    wrong = _by_field(error, filled)
    values = {
        "form": form,
        "forms": PART_FORMS.values(),
        "heads": heads,
        "filled": filled,
        "wrong": wrong,
        "unfolded": [any(filled[field.name] for field in fields) for _, fields in form.folded],
        "job_unfolded": any(filled[name] for name in ("within", "rim", "name")),
        "sentences": _sentences(error),
        "before": job_before(visit),
    }
    as_json = {"kind": form.kind, "heads": [kept.head.name for kept in heads]}
    return Page("new_part.html", values, as_json, error=error)


def _by_field(error: Mendable | None, filled: dict[str, str]) -> dict[str, str]:
    """Return what is wrong with each field, by its name."""
    if not isinstance(error, FaultsFound):
        return {}
    found = ((fault.place.removeprefix("part."), fault.message) for fault in error.faults)
    return {name: message for name, message in found if name in filled}


def _sentences(error: Mendable | None) -> list[str]:
    """Return every sentence, a field called by its name as on the page and not as in a file."""
    if not isinstance(error, FaultsFound):
        return sentences_of(error)
    told = []
    for fault in error.faults:
        place = fault.place.removeprefix("part").removeprefix(".").replace("_", " ")
        told.append(f"{place}: {fault.message}" if place else fault.message)
    return told
