"""Take a job in from a file, and hand one out."""

from collections.abc import Sequence
from dataclasses import replace

from crankwise.errors import BadDivisions, Mendable
from crankwise.files.head_toml import write_head
from crankwise.files.job_toml import write_job
from crankwise.tasks.job_file import LoadedJob, take_job
from crankwise.tasks.job_plan import asked_of, job_of, job_plan
from crankwise.tasks.jobs import ways_for
from crankwise.tasks.runs_of_a_part import every_run, keep_every_run
from crankwise.tasks.sheet import chosen_way
from crankwise.tasks.workshop import KeptJob
from crankwise.web.answers import Answer, Download, Page, file_name
from crankwise.web.errors import sentences_of
from crankwise.web.pages.new_job import head_chosen
from crankwise.web.pages.new_part import kept_jobs
from crankwise.web.part_forms import PART_FORMS
from crankwise.web.visit import Visit


def show(visit: Visit) -> Page:
    """Show where to choose a file or paste one."""
    return _page(visit, "", visit.query.get("head", ""))


def take_in(visit: Visit) -> Answer:
    """Keep the job that a file or a pasted text describes, on its own head or on the one chosen."""
    pasted, head = visit.form.get("toml", ""), visit.typed("head")
    try:
        loaded = take_job(visit.upload or pasted, visit.upload_name if visit.upload else "")
        kept = _keep(visit, loaded, head)
    except Mendable as error:
        return _page(visit, pasted, head, error)
    return kept_jobs(kept)


def _keep(visit: Visit, loaded: LoadedJob, chosen: str) -> Sequence[KeptJob]:
    """Keep the job; a job for each run that the part takes, where the file names neither one of them nor a way."""
    job, head = loaded.job, loaded.head
    if chosen:
        head_id = head_chosen(chosen)
        head = visit.workshop.head(head_id).head
    elif head is None:
        raise BadDivisions("head", "the file brings none; choose the head to divide on")
    else:
        head_id = next((kept.id for kept in visit.workshop.heads() if kept.head == head), 0)
    division = ways_for(job, head, loaded.made)
    way = chosen_way(replace(division, tolerance=None), job.way) if job.way else None
    # The head is kept only when nothing else is wrong with the job.
    if not head_id:
        for one in () if way else every_run(job):
            job_plan(head, asked_of(one))
        head_id = visit.workshop.keep_head(write_head(head)).id
    if way is None:
        return keep_every_run(visit.workshop, head_id, job)
    return (visit.workshop.new_job(head_id, asked_of(job), job.name, way.key),)


def hand_out(visit: Visit) -> Download:
    """Hand out a job as a file, with its head and its way."""
    kept = visit.workshop.job(visit.id("job_id"))
    job = replace(job_of(kept.asked), name=kept.name, head=kept.plan.head, way=kept.plan.way.key)
    plain = file_name(kept.name, "job")
    return Download(write_job(job).encode(), "application/toml", f"{plain}.toml")


def _page(visit: Visit, pasted: str, head: str, error: Mendable | None = None) -> Page:
    values = {
        "toml": pasted,
        "head": head,
        "heads": visit.workshop.heads(),
        "forms": PART_FORMS.values(),
        "sentences": sentences_of(error),
    }
    return Page("job_file.html", values, {"toml": pasted}, error=error)
