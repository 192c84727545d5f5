"""The first page: the runs to carry on with, and the jobs."""

from crankwise.tasks.workshop import KeptJob, KeptRun
from crankwise.web.answers import Page
from crankwise.web.objects import job_object
from crankwise.web.visit import Visit
from crankwise.wording.run import asked_text


def show(visit: Visit) -> Page:
    """Show the workbench."""
    jobs = visit.workshop.jobs()
    listed = [(job, asked_text(job.plan), _open_runs(visit, job)) for job in reversed(jobs)]
    return Page(
        "workbench.html",
        {
            "open_runs": [run for _, _, runs in listed for run in runs],
            "jobs": [(job, asked) for job, asked, _ in listed],
            "has_heads": bool(visit.workshop.heads()),
        },
        {"jobs": [job_object(job) for job in jobs]},
    )


def _open_runs(visit: Visit, job: KeptJob) -> list[KeptRun]:
    """The runs of a job that are not finished, the newest first."""
    runs = (visit.workshop.run(run_id) for run_id in reversed(job.run_ids))
    return [run for run in runs if not (run.state.began and run.state.finished)]
