"""The plan of a job, from what was typed; and the name that the job goes by."""

from dataclasses import asdict
from functools import lru_cache

from crankwise.errors import BadDivisions, Fault, FaultsFound, UnknownThing
from crankwise.files.job_toml import Job, read_job, write_job
from crankwise.files.job_toml import asked_part as part_as_asked
from crankwise.head.head import Head
from crankwise.part.divisions import AngleList
from crankwise.part.part import WORKS, Part
from crankwise.plan.corrected import KEY as CORRECTED
from crankwise.plan.plan import Plan, planned
from crankwise.store.kept import Asked
from crankwise.tasks.divide import asked_part
from crankwise.tasks.jobs import check_names_no_file, divided, made_part
from crankwise.tasks.part_kinds import MadePart
from crankwise.wording.division import refusal_text

LONGEST_NAME = 200


def job_part(asked: Asked) -> Part:
    """Return the part that was typed. Raises Mendable."""
    work = asked.work or "position"
    if work not in WORKS:
        raise BadDivisions("work", f"{work!r}; what is made at a position is one of {', '.join(WORKS)}")
    return asked_part(
        asked.count,
        angles=asked.angles,
        start=asked.start,
        first=asked.first,
        last=asked.last,
        every=asked.every,
        rim=asked.rim,
        work=work,
    )


@lru_cache(32)
def job_made(asked: Asked) -> MadePart:
    """Return the part that was typed, with its cards where it is of some kind; no file is opened for it.

    Raises Mendable.
    """
    if not asked.part:
        return MadePart("", job_part(asked))
    job = read_job(asked.part)
    check_names_no_file(job)
    return made_part(job)


def job_of(asked: Asked) -> Job:
    """Return what was typed as a job, without its name, its head and its way."""
    if asked.part:
        return read_job(asked.part)
    part = part_as_asked("divisions", asdict(asked))
    return Job(part, rim=asked.rim, within=asked.within, work=asked.work)


def asked_of(job: Job) -> Asked:
    """Return a job as it is kept: bare divisions as typed, any other kind of part as the text of a job file."""
    if job.part.kind == "divisions":
        return Asked(**job.part.values, rim=job.rim, within=job.within, work=job.work)
    kept = Job(job.part, rim=job.rim, within=job.within, work=job.work)
    return Asked(rim=job.rim, within=job.within, work=job.work, part=write_job(kept))


def job_plan(head: Head, asked: Asked, way_key: str | None = None) -> Plan:
    """Return the plan to make what was typed on this head.

    way_key  the way chosen; None for the best there is, be it within the tolerance or not

    Raises Mendable when what was typed cannot be read, or this head has no way, or not this one.
    """
    made = job_made(asked)
    part = made.part
    division = divided(head, made, asked.within)
    if not division.ways:
        told = refusal_text(head, division.ways, part, division.tolerance, division.why_none)
        raise BadDivisions(head.name, f"{told}")
    if way_key is None:
        return Plan(part, division.ways[0])
    return _with_way(head, made, way_key)


def other_way(plan: Plan, way_key: str, asked: Asked | None = None) -> Plan:
    """Return the plan of the same part, divided by another way. Raises UnknownThing.

    asked  what was typed, where the kind of part may leave out some ways
    """
    methods = job_made(asked).methods if asked else None
    return _with_way(plan.head, MadePart("", plan.part, methods=methods), way_key)


def plan_again(plan: Plan, asked: Asked, head: Head) -> Plan:
    """Return the plan of the same job on its head as that is now: by the same way where it still has it, else the best.

    A way that corrected for errors does so for those that are in force now. Raises Mendable.
    """
    key = plan.way.key
    if plan.way.corrects and head.known_errors:
        key = f"{key.partition(CORRECTED)[0]}{CORRECTED}{head.known_errors.date}"
    try:
        return job_plan(head, asked, key)
    except UnknownThing:
        return job_plan(head, asked)


def _with_way(head: Head, made: MadePart, way_key: str) -> Plan:
    plan = planned(head, made.part, way_key)
    if plan is None or (made.methods is not None and plan.way.method not in made.methods):
        raise UnknownThing(f"way {way_key!r}: {head.name} has no such way to divide this part")
    return plan


def job_name(typed: str) -> str:
    """Return the name that was typed, on one line. Raises FaultsFound when it is too long."""
    name = " ".join(typed.split())
    if len(name) > LONGEST_NAME:
        raise FaultsFound([Fault("name", f"{len(name)} characters; {LONGEST_NAME} at most")])
    return name


def usual_job_name(plan: Plan, asked: Asked | None = None) -> str:
    """Return the name of a job that was given none: "127 divisions on Bench head", or what kind of part it is."""
    name = job_made(asked).name if asked and asked.part else ""
    if name:
        return f"{name[0].upper()}{name[1:]}"[:LONGEST_NAME]
    divisions = plan.part.divisions
    count, what = (
        (len(divisions), "angle") if isinstance(divisions, AngleList) else (divisions.count, "division")
    )
    return f"{count} {what}{'' if count == 1 else 's'} on {plan.head.name}"[:LONGEST_NAME]
