"""A part that takes several runs from one zero, as a hole plate: a job for each run, made and led through together.

The jobs of one part stand next to one another in the workshop: the number of a job less that of its run is the
same for all of them. So nothing is kept beside the jobs themselves.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from crankwise.errors import UnknownThing
from crankwise.files.job_toml import Job, asked_part
from crankwise.tasks.job_plan import asked_of, job_made, job_of
from crankwise.tasks.workshop import KeptJob, KeptRun, Workshop
from crankwise.wording.card import setup_facts

WHICH = "which"


@dataclass(frozen=True, slots=True)
class RunOfPart:
    """One of the runs that a part takes.

    number  of the run, from 1
    name    what it is called: circle 2 (19 holes)
    job     its job
    sets    what is set on the machine for it, in words
    begun   the runs of its job, the newest first
    """

    number: int
    name: str
    job: KeptJob
    sets: tuple[str, ...]
    begun: tuple[KeptRun, ...]

    @property
    def is_finished(self) -> bool:
        """Whether it was run to its end."""
        return any(run.state.began and run.state.finished for run in self.begun)

    @property
    def open_run(self) -> KeptRun | None:
        """The newest run that is not at its end; None where there is none."""
        return next((run for run in self.begun if not (run.state.began and run.state.finished)), None)


def every_run(job: Job) -> tuple[Job, ...]:
    """Return a job for each run that the part takes; the job as it is where it says which, or there is one only.

    Raises FaultsFound.
    """
    runs = () if job.part.values.get(WHICH) else job_made(asked_of(job)).runs
    if not runs:
        return (job,)
    return tuple(
        replace(
            job,
            part=asked_part(job.part.kind, job.part.values | {WHICH: str(number)}),
            name=job.name and f"{job.name}, {run}",
        )
        for number, run in enumerate(runs, 1)
    )


def keep_every_run(workshop: Workshop, head_id: int, job: Job) -> tuple[KeptJob, ...]:
    """Keep a job for each run that the part takes, each divided the best way there is; or none of them.

    Raises Mendable, as when this head cannot make one of them.
    """
    return workshop.new_jobs(head_id, [(asked_of(one), one.name) for one in every_run(job)])


def together(workshop: Workshop, job: KeptJob, inch_first: bool = False) -> tuple[RunOfPart, ...]:
    """Return the runs of the part that this job is one of, in their order; none where there is no other.

    inch_first  whether lengths are told in inches before millimetres

    A run whose job was dropped is left out.
    """
    made = job_made(job.asked)
    found = []
    for number, name in enumerate(made.runs, 1):
        one = job if number == made.run else _beside(workshop, job, number - made.run)
        if one is not None:
            sets = tuple(text for _, text in setup_facts(made.cards, number, inch_first))
            begun = tuple(workshop.run(run_id) for run_id in reversed(one.run_ids))
            found.append(RunOfPart(number, name, one, sets, begun))
    return tuple(found) if len(found) > 1 else ()


def next_run(runs: tuple[RunOfPart, ...], job_id: int) -> RunOfPart | None:
    """Return the run to go on with after that of a job: the next that is not finished, else an earlier one."""
    place = next((index for index, one in enumerate(runs) if one.job.id == job_id), 0)
    in_order = (*runs[place + 1 :], *runs[:place])
    return next((one for one in in_order if not one.is_finished), None)


def of_one_part(jobs: Iterable[KeptJob]) -> list[tuple[KeptJob, ...]]:
    """Return jobs as they belong together: those that are the runs of one part in one group, any other alone."""
    groups: dict[object, list[KeptJob]] = {}
    for job in jobs:
        says_which = f"\n{WHICH} =" in job.asked.part
        groups.setdefault(_part_of(job) if says_which else job.id, []).append(job)
    return [tuple(group) for group in groups.values()]


def _beside(workshop: Workshop, job: KeptJob, on: int) -> KeptJob | None:
    """Return the job so many numbers on, where it is a run of the same part."""
    try:
        other = workshop.job(job.id + on)
    except UnknownThing:
        return None
    return other if _part_of(other) == _part_of(job) else None


def _part_of(job: KeptJob) -> tuple[object, ...]:
    """Return what is the same for all runs of one part, and different for any other part."""
    part = job_of(job.asked).part
    number = int(part.values.get(WHICH, "1"))
    return job.id - number, part.kind, tuple(typed for typed in part.typed if typed[0] != WHICH)
