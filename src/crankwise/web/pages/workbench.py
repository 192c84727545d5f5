"""The first page: the runs to carry on with, and the jobs."""

from crankwise.tasks.runs_of_a_part import of_one_part
from crankwise.tasks.workshop import KeptJob, KeptRun
from crankwise.web.answers import Page
from crankwise.web.objects import job_object
from crankwise.web.visit import Visit
from crankwise.wording.part_text import runs_told
from crankwise.wording.run import asked_text


def show(visit: Visit) -> Page:
    """Show the workbench."""
    jobs = visit.workshop.jobs()
    runs = {job.id: _runs(visit, job) for job in reversed(jobs)}
    shown = [_shown(group, runs) for group in reversed(of_one_part(jobs))]
    return Page(
        "workbench.html",
        {
            "open_runs": [run for begun in runs.values() for run in begun if not _is_finished(run)],
            "jobs": [(job, asked_text(job.plan), beside) for job, beside in shown],
            "has_heads": bool(visit.workshop.heads()),
        },
        {"jobs": [job_object(job) for job in jobs]},
    )


def _runs(visit: Visit, job: KeptJob) -> list[KeptRun]:
    """The runs of a job, the newest first."""
    return [visit.workshop.run(run_id) for run_id in reversed(job.run_ids)]


def _is_finished(run: KeptRun) -> bool:
    return run.state.began and run.state.finished


def _shown(group: tuple[KeptJob, ...], runs: dict[int, list[KeptRun]]) -> tuple[KeptJob, str]:
    """The job that a card leads to, and how far its part is where it takes several: the next that is not done."""
    undone = [job for job in group if not any(map(_is_finished, runs[job.id]))]
    beside = runs_told(len(group), len(group) - len(undone)) if len(group) > 1 else ""
    return (undone or group)[0], beside
