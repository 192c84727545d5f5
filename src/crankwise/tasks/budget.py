"""Ask for an error budget: read what was typed, plan the part, predict it, and cut it in the computer."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from crankwise.accuracy.bounds import Bounds
from crankwise.accuracy.budget import Budget, Share, budget
from crankwise.accuracy.cause_kinds import HOLDINGS, KINDS, size_of
from crankwise.accuracy.pitch_law import PitchLaw
from crankwise.accuracy.simulate import GENERATOR, Batch, Simulated, batches, one_part, summed_up
from crankwise.accuracy.sources import one_place
from crankwise.accuracy.tolerance import STANDARDS, GearSize
from crankwise.errors import (
    BadDivisions,
    BadFile,
    BadLength,
    BadNumber,
    FaultsFound,
    MissingExtra,
    UnknownThing,
)
from crankwise.exact.number import as_text, read_number
from crankwise.head.error_sizes import MOST, Size
from crankwise.part.part import Part, Work
from crankwise.plan.plan import Plan
from crankwise.tasks.answers import FORMAT
from crankwise.tasks.divide import asked_part, divide, whole_number
from crankwise.tasks.heads import load_head
from crankwise.tasks.tolerance import asked_gear_size
from crankwise.wording.accuracy import CAUSES

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
    work: str = "",
    way: str | None = None,
    holding: str | None = None,
    sizes: Sequence[str] = (),
    both_sides: bool = False,
) -> Budget | None:
    """Return the budget that was typed, or None where the head has no way within the tolerance.

    divisions  as the task `divide` takes them; or `teeth` with `module` or `dp` for a gear
    sizes      each as cause=size or cause=low..high

    Raises Mendable.
    """
    from crankwise.tasks.sheet import chosen_way, read_work

    head = load_head(head_path)
    gear = asked_gear_size(teeth, module, dp) if teeth or module or dp else None
    part = _part(gear, divisions, rim, read_work(work) if work else None)
    assert part.rim_mm is not None
    asked = _asked_sizes(holding, sizes)
    chosen = chosen_way(divide(head, part, within), way)
    if chosen is None:
        return None
    return budget(Plan(part, chosen), float(part.rim_mm), gear, asked, both_sides)


def _part(
    gear: GearSize | None, divisions: Mapping[str, str | None], rim: str | None, work: Work | None
) -> Part:
    if gear is None:
        if not rim:
            raise BadLength(
                "rim: nothing given; errors are told as lengths there: --rim 150mm, or --teeth and --module of a gear"
            )
        typed = dict(divisions)
        return asked_part(typed.pop("divisions", None), **typed, rim=rim, work=work or "position")
    if any(divisions.values()):
        raise BadDivisions("divisions: given beside the teeth; a gear is divided into its teeth")
    diameter = as_text(gear.diameter_mm)
    return asked_part(str(gear.teeth), rim=rim or diameter, work=work or "space")


def _asked_sizes(holding: str | None, typed: Sequence[str]) -> dict[str, Size]:
    asked = {}
    if holding:
        if holding not in HOLDINGS:
            raise UnknownThing(f"holding: {holding!r}; work is held in or on {', '.join(HOLDINGS)}")
        asked["work-off-centre"] = size_of(*HOLDINGS[holding])
    for one in typed:
        name, size = _asked_size(one)
        asked[name] = size
    return asked


def _asked_size(typed: str) -> tuple[str, Size]:
    name, equals, value = typed.partition("=")
    name = name.strip()
    if name not in KINDS:
        raise UnknownThing(f"size: {name!r} is no cause that is known; the causes are {', '.join(KINDS)}")
    if not equals:
        raise BadNumber(f"size: {typed!r} has no size; write it as {name}=20 or {name}=10..60")
    ends = value.split("..")
    if len(ends) > 2:
        raise BadNumber(f"size: {typed!r}; a range has two ends, as {name}=10..60")
    numbers = [read_number(end, f"size of {name}") for end in ends]
    most = MOST[KINDS[name].size]
    if max(numbers) > most:
        raise BadNumber(f"size of {name}: {as_text(max(numbers))}; at most {most:,} is believed")
    try:
        return name, Size(numbers[0], numbers[-1])
    except FaultsFound as told:
        raise BadNumber(f"size of {name}: {told.faults[0].message}") from None


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


_STYLE = (
    ".pitch{fill:#356}.wrong{fill:#c30}.tolerance{fill:#dec}.nought{stroke:#888;stroke-width:.5}"
    ".cumulative{fill:none;stroke:#356;stroke-width:1}"
)


def cut_picture(found: Budget, seed: str, wrong: str | None = None) -> str:
    """Return a picture of one part cut in the computer: its pitches and their cumulative curve.

    wrong  number of a position that was set one hole, mark or notch too far, as typed; None for none
    The tolerance of the predicted class is drawn, where there is one.

    Raises BadDivisions when there is no such position or only one, MissingExtra without numpy.
    """
    from crankwise.draw.pitch_errors import pitch_errors

    numbers = list(found.plan.part.divisions.numbers)
    if len(numbers) < 2:
        raise BadDivisions("picture: one position has no pitch; there must be two or more")
    errors = list(one_part(found.law, whole_number(seed, "seed")))
    place = None
    if wrong:
        number = whole_number(wrong, "wrong position")
        if number not in numbers:
            raise BadDivisions(f"wrong position: {number}; positions run from {numbers[0]} to {numbers[-1]}")
        place = numbers.index(number)
        errors[place] += one_place(found.plan, found.rim_mm)
    allowed = (
        STANDARDS["iso-2013"].allowed(found.gear, found.reached.gear)
        if found.gear and found.reached and found.reached.gear
        else None
    )
    limits = (allowed.single_pitch, allowed.cumulative_pitch) if allowed else (0.0, 0.0)
    return pitch_errors(errors, found.law.goes_round, *limits, wrong=place)


def write_picture(found: Budget, seed: str, path: str, wrong: str | None = None) -> None:
    """Write that picture as an SVG file. Raises BadFile, and what `cut_picture` does."""
    from crankwise.files.whole_file import write_whole

    if not path.lower().endswith(".svg"):
        raise BadFile(f"{path}: a picture is written as SVG; let the name end with .svg")
    opening, body = cut_picture(found, seed, wrong).split(">", 1)
    opening = opening.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)
    write_whole(path, f"{opening}><style>{_STYLE}</style>{body}\n".encode())


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
            }
            for one in found.advice
        ],
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
    told["low"] = as_text(cause.size.low) if cause else None
    told["high"] = as_text(cause.size.high) if cause else None
    told["unit"] = cause.kind.unit if cause else None
    return told
