"""Ask for an error budget: read what was typed, plan the part, predict it, and cut it in the computer."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from crankwise.accuracy.bounds import Bounds
from crankwise.accuracy.budget import Budget, Share, budget
from crankwise.accuracy.pitch_law import PitchLaw
from crankwise.accuracy.simulate import GENERATOR, Batch, Simulated, batches, summed_up
from crankwise.accuracy.tolerance import STANDARDS, GearSize
from crankwise.errors import BadDivisions, BadLength, MissingExtra
from crankwise.exact.number import as_text
from crankwise.part.part import Part, Work
from crankwise.plan.plan import Plan
from crankwise.tasks.answers import FORMAT
from crankwise.tasks.divide import Division, asked_part, whole_number
from crankwise.tasks.heads import load_head
from crankwise.tasks.helix import WAYS_LEFT
from crankwise.tasks.job_accuracy import beside_other_ways, gear_of, job_budget
from crankwise.tasks.job_file import LoadedJob
from crankwise.tasks.jobs import divided, ways_for
from crankwise.tasks.part_kinds import MadePart
from crankwise.tasks.tolerance import asked_gear_size
from crankwise.tasks.what_if import WhatIf, asked_sizes
from crankwise.wording.accuracy import CAUSES
from crankwise.wording.cures import how_text

GEARS = 20_000
"""Cut where nobody asked for a number: a fifth of a second."""


def asked_budget(
    head_path: str,
    divisions: Mapping[str, str | None],
    *,
    rim: str | None = None,
    within: str | None = None,
    teeth: str | None = None,
    module: str | None = None,
    dp: str | None = None,
    helix: str | None = None,
    work: str = "",
    way: str | None = None,
    holding: str | None = None,
    sizes: Sequence[str] = (),
    both_sides: bool = False,
) -> Budget | Division:
    """Return the budget that was typed, or the division where the head has no way within the tolerance.

    divisions  as the task `divide` takes them; or `teeth` with `module` or `dp` for a gear
    helix      of a gear, in degrees; nothing for a spur gear
    sizes      each as cause=size or cause=low..high

    Raises Mendable.
    """
    from crankwise.tasks.sheet import chosen_way, read_work

    head = load_head(head_path)
    gear = asked_gear_size(teeth, module, dp, helix) if teeth or module or dp or helix else None
    part = _part(gear, divisions, rim, read_work(work) if work else None)
    part = replace(part, is_geared=bool(gear and gear.helix))
    assert part.rim_mm is not None
    asked = asked_sizes(holding, sizes)
    made = MadePart("", part, methods=WAYS_LEFT if part.is_geared else None)
    division = divided(head, made, within or "")
    chosen = chosen_way(division, way)
    if chosen is None:
        return division
    found = budget(Plan(part, chosen), float(part.rim_mm), gear, asked, both_sides)
    return beside_other_ways(found, division, WhatIf(asked, both_sides))


def job_file_budget(
    job: LoadedJob, holding: str | None = None, sizes: Sequence[str] = (), both_sides: bool = False
) -> Budget | Division:
    """Return the budget of a job that was read from a file, or its division where no way is within the tolerance.

    holding, sizes, both_sides  as for `asked_budget`

    Raises Mendable.
    """
    from crankwise.tasks.sheet import chosen_way

    assert job.head is not None
    what_if = WhatIf(asked_sizes(holding, sizes), both_sides)
    division = ways_for(job.job, job.head, job.made)
    chosen = chosen_way(division, job.job.way or None)
    if chosen is None:
        return division
    found = job_budget(Plan(job.made.part, chosen), gear_of(job.made), what_if=what_if)
    return beside_other_ways(found, division, what_if)


def _part(
    gear: GearSize | None, divisions: Mapping[str, str | None], rim: str | None, work: Work | None
) -> Part:
    if gear is None:
        if not rim:
            raise BadLength(
                "rim",
                "nothing given; errors are told as lengths there: --rim 150mm, or --teeth and --module of a gear",
            )
        typed = dict(divisions)
        return asked_part(typed.pop("divisions", None), **typed, rim=rim, work=work or "position")
    if any(divisions.values()):
        raise BadDivisions("divisions", "given beside the teeth; a gear is divided into its teeth")
    diameter = as_text(gear.diameter_mm)
    return asked_part(str(gear.teeth), rim=rim or diameter, work=work or "space")


def simulated(
    law: PitchLaw,
    gears: str | None,
    seed: str = "1",
    progress: Callable[[int, int], None] | None = None,
) -> Simulated | None:
    """Return what a simulation of so many gears says, as typed; None for 0 gears.

    gears     as typed; where nothing was, GEARS, or none when the package is not installed
    progress  told after each batch how many gears are cut, of how many

    An interrupt ends it early: what has been cut is summed up. Raises BadNumber, and MissingExtra when a
    number was asked for and the package is not installed.
    """
    count = whole_number(gears, "simulate") if gears else GEARS
    seeded = whole_number(seed, "seed")
    if count == 0:
        return None
    found: list[Batch] = []
    done = 0
    try:
        for batch in batches(law, count, seeded):
            found.append(batch)
            done += len(batch.single)
            if progress:
                progress(done, count)
    except MissingExtra:
        if gears:
            raise
        return None
    except KeyboardInterrupt:
        if progress:
            progress(count, count)
        if not found:
            raise
    return summed_up(found, seeded)


def budget_answer(found: Budget, cut: Simulated | None) -> dict[str, Any]:
    """Return the answer as a plain object, ready for JSON; lengths are floats in micrometres."""
    return {
        "format": FORMAT,
        "divisions": len(found.plan.part.divisions),
        "way": found.plan.way.key,
        "method": found.plan.way.method,
        "rim_mm": found.rim_mm,
        "confidence": 0.95,
        "rounding_turns": as_text(found.rounding),
        "rounding_arcsec": float(found.rounding * 1_296_000),
        "head": _bounds(found.head),
        **_bounds(found.part),
        "position_um": found.part.position,
        "class": found.reached.gear if found.reached else None,
        "single_pitch_class": found.reached.single_pitch if found.reached else None,
        "cumulative_pitch_class": found.reached.cumulative_pitch if found.reached else None,
        "standard": STANDARDS["iso-2013"].source if found.reached else None,
        "warnings": list(found.outside),
        "sources": [_source(share.name, share) for share in found.shares],
        "advice": [
            {
                "name": one.cause.kind.name,
                "size": as_text(one.size),
                "unit": one.cause.kind.unit,
                **_bounds(one.bounds),
                "class": one.gear_class,
                "how": how_text(one, CAUSES[one.cause.kind.name].measure),
            }
            for one in found.advice
        ],
        "other_way": None
        if found.other is None
        else {
            "way": found.other.way.key,
            "method": found.other.way.method,
            **_bounds(found.other.bounds),
            "class": found.other.gear_class,
        },
        "closed_form": _bounds(found.part)
        | {
            "single_pitch_standard_deviation_um": found.deviations.single,
            "half_circle_standard_deviation_um": found.deviations.half_circle,
        },
        "simulated": None
        if cut is None
        else _bounds(cut.bounds)
        | {
            "gears": cut.gears,
            "seed": cut.seed,
            "generator": GENERATOR,
            "single_pitch_standard_error_um": cut.error.single,
            "cumulative_pitch_standard_error_um": cut.error.cumulative,
        },
    }


def _bounds(bounds: Bounds) -> dict[str, float]:
    return {"single_pitch_um": bounds.single, "cumulative_pitch_um": bounds.cumulative}


def _source(name: str, share: Share) -> dict[str, Any]:
    cause = share.cause
    told: dict[str, Any] = {"name": name, "title": CAUSES[name].title, **_bounds(share.bounds)}
    told["from"] = cause.known_from if cause else "exact"
    told["told_by"] = cause.told_by if cause else ""
    told["low"] = as_text(cause.size.low) if cause else None
    told["high"] = as_text(cause.size.high) if cause else None
    told["unit"] = cause.kind.unit if cause else None
    return told
