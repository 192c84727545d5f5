"""A plan as text, kept with a job and frozen in a run; and the fingerprint of its schedule.

The text holds the head as a head file, the part, and the key of the way; reading it finds that way
again. It carries a format number, and old formats are read for ever: format 2 is for positions along a
slide, which format 1 does not know. A part that turns while it is cut says so, and no other part has that key.
"""

import json
from collections.abc import Iterable
from fractions import Fraction
from functools import lru_cache
from hashlib import sha256
from typing import Any

from crankwise.errors import Mendable, StoreTrouble
from crankwise.files.head_toml import read_head, write_head
from crankwise.part.divisions import AngleList, Divisions, EqualDivisions, EqualSteps
from crankwise.part.part import Mark, Part
from crankwise.plan.plan import Plan, planned
from crankwise.plan.schedule import Row, schedule
from crankwise.store.passes_text import read_passes

ROUND, STRAIGHT = 1, 2
NEWEST = STRAIGHT
PLANS_AT_HAND = 128
SCHEDULES_AT_HAND = 32


def plan_text(plan: Plan) -> str:
    """Return the plan as text; reading it gives the same plan."""
    part = plan.part
    return json.dumps(
        {
            "format": STRAIGHT if part.is_straight else ROUND,
            "head": write_head(plan.head),
            "divisions": _divisions_object(part.divisions),
            "rim_mm": None if part.rim_mm is None else str(part.rim_mm),
            "work": part.work,
            "marks": [[mark.line_class, mark.numeral, mark.note] for mark in part.marks],
            "way": plan.way.key,
        }
        | ({"geared": True} if part.is_geared else {}),
        ensure_ascii=False,
    )


@lru_cache(PLANS_AT_HAND)
def read_plan(text: str) -> Plan:
    """Return the plan that a text holds. Raises StoreTrouble when this version cannot follow it."""
    kept = json.loads(text)
    if kept["format"] not in (ROUND, STRAIGHT):
        raise StoreTrouble(
            f"this plan is of format {kept['format']}, and this version of Crankwise reads formats up to {NEWEST}; "
            "use the version that kept it"
        )
    try:
        head = read_head(kept["head"])
        rim_mm = None if kept["rim_mm"] is None else Fraction(kept["rim_mm"])
        marks = tuple(Mark(*told) for told in kept["marks"])
        is_geared = kept.get("geared", False)
        part = Part(_divisions(kept["divisions"]), rim_mm, kept["work"], marks, is_geared)
        plan = planned(head, part, kept["way"])
    except Mendable as error:
        raise StoreTrouble(f"a kept plan cannot be followed: {error}") from error
    if plan is None:
        raise StoreTrouble(
            f"a kept plan divides by {kept['way']!r}, and this version of Crankwise does not find that way on "
            f"{head.name!r}; use the version that kept it"
        )
    return plan


@lru_cache(SCHEDULES_AT_HAND)
def rows_of(text: str, passes: str = "") -> tuple[Row, ...]:
    """Return the schedule of the plan that a text holds, over the passes that another text holds."""
    return schedule(read_plan(text), read_passes(passes))


@lru_cache(PLANS_AT_HAND)
def fingerprint_of(text: str, passes: str = "") -> str:
    """Return the fingerprint of that schedule."""
    return fingerprint(rows_of(text, passes))


def fingerprint(rows: Iterable[Row]) -> str:
    """Return a short text that differs as soon as one row is set, or puts the work, elsewhere."""
    digest = sha256()
    for row in rows:
        reached, setting = row.reached, row.reached.setting
        said = [f"{row.index} {reached.position} {reached.target} {reached.achieved} {row.closing}"]
        said += [f"{name}={value}" for name, value in setting._asdict().items() if value is not None]
        digest.update(" ".join(said).encode() + b"\n")
    return digest.hexdigest()


def _divisions_object(divisions: Divisions) -> dict[str, Any]:
    if isinstance(divisions, AngleList):
        return {"angles": [str(angle) for angle in divisions.angles]}
    if isinstance(divisions, EqualSteps):
        return {"steps": divisions.count, "step_mm": str(divisions.step_mm)}
    return {
        "count": divisions.count,
        "start": str(divisions.start),
        "first": divisions.first,
        "last": divisions.last,
        "every": divisions.every,
    }


def _divisions(kept: dict[str, Any]) -> Divisions:
    if "angles" in kept:
        return AngleList(tuple(Fraction(angle) for angle in kept["angles"]))
    if "steps" in kept:
        return EqualSteps(kept["steps"], Fraction(kept["step_mm"]))
    return EqualDivisions(kept["count"], Fraction(kept["start"]), kept["first"], kept["last"], kept["every"])
