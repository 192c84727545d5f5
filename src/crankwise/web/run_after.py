"""What a finished run leads on to: its part measured, the reports of that, and what the head has learnt."""

from typing import Any

from crankwise.tasks.workshop import KeptJob, KeptRun, Workshop


def after_values(workshop: Workshop, run: KeptRun, job: KeptJob) -> dict[str, Any]:
    """Return what the page of a finished run of a job leads on to."""
    return {
        "head_id": job.head_id,
        "measured": [one for one in workshop.measurements(job.id) if one.run_id == run.id],
    }
