"""The plan of a job, from what was typed; and the name that the job goes by."""

from crankwise.errors import BadDivisions, Fault, FaultsFound, UnknownThing
from crankwise.head.head import Head
from crankwise.part.divisions import AngleList
from crankwise.part.part import WORKS, Part
from crankwise.plan.plan import Plan, planned
from crankwise.store.kept import Asked
from crankwise.tasks.divide import asked_part, divide
from crankwise.wording.division import refusal_text

LONGEST_NAME = 200


def job_part(asked: Asked) -> Part:
    """Return the part that was typed. Raises Mendable."""
    work = asked.work or "position"
    if work not in WORKS:
        raise BadDivisions(f"work: {work!r}; what is made at a position is one of {', '.join(WORKS)}")
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


def job_plan(head: Head, asked: Asked, way_key: str | None = None) -> Plan:
    """Return the plan to make what was typed on this head.

    way_key  the way chosen; None for the best there is, be it within the tolerance or not

    Raises Mendable when what was typed cannot be read, or this head has no way, or not this one.
    """
    part = job_part(asked)
    division = divide(head, part, asked.within)
    if not division.ways:
        raise BadDivisions(f"{head.name}: {refusal_text(division.ways, part, division.tolerance)}")
    if way_key is None:
        return Plan(part, division.ways[0])
    return _with_way(head, part, way_key)


def other_way(plan: Plan, way_key: str) -> Plan:
    """Return the plan of the same part, divided by another way. Raises UnknownThing."""
    return _with_way(plan.head, plan.part, way_key)


def _with_way(head: Head, part: Part, way_key: str) -> Plan:
    plan = planned(head, part, way_key)
    if plan is None:
        raise UnknownThing(f"way {way_key!r}: {head.name} has no such way to divide this part")
    return plan


def job_name(typed: str) -> str:
    """Return the name that was typed, on one line. Raises FaultsFound when it is too long."""
    name = " ".join(typed.split())
    if len(name) > LONGEST_NAME:
        raise FaultsFound([Fault("name", f"{len(name)} characters; {LONGEST_NAME} at most")])
    return name


def usual_job_name(plan: Plan) -> str:
    """Return the name of a job that was given none: "127 divisions on Bench head"."""
    divisions = plan.part.divisions
    count, what = (
        (len(divisions), "angle") if isinstance(divisions, AngleList) else (divisions.count, "division")
    )
    return f"{count} {what}{'' if count == 1 else 's'} on {plan.head.name}"[:LONGEST_NAME]
