"""Look at the finished part: its deviations, the class it reaches, and what they point to."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from math import pi, sin
from typing import Any

from crankwise.accuracy.inspected_part import Inspection
from crankwise.accuracy.inspection import (
    Inspected,
    angles_out,
    from_angles,
    from_chords,
    from_neighbours,
    sizes,
)
from crankwise.accuracy.mistakes import Place, in_all_rows, turns_out
from crankwise.accuracy.tolerance import STANDARDS, GearSize, class_reached
from crankwise.errors import BadDivisions, Fault, FaultsFound
from crankwise.exact.length import read_diameter, read_length
from crankwise.exact.number import as_text
from crankwise.files.readings_csv import Sheet
from crankwise.part.divisions import Divisions, EqualDivisions
from crankwise.tasks.answers import FORMAT
from crankwise.tasks.part_readings import Value, check_unit, column_of, part_values
from crankwise.tasks.tolerance import asked_gear_size

Limits = tuple[Fraction | None, Fraction | None]
NO_LIMITS: Limits = (None, None)


def inspect_sheet(
    sheet: Sheet,
    teeth: str | None = None,
    module: str | None = None,
    dp: str | None = None,
    helix: str | None = None,
    rim: str | None = None,
    wanted: str | None = None,
    pins: str | None = None,
) -> Inspection:
    """Return what readings say of a part; the rest as typed, None where nothing was. Raises Mendable."""
    gear = asked_gear_size(teeth, module, dp, helix) if teeth or module or dp or helix else None
    rim_mm = read_diameter(rim, "rim") if rim else gear.diameter_mm if gear else None
    wanted_mm = read_length(wanted, "wanted") if wanted else None
    pins_mm = read_diameter(pins, "pins") if pins else None
    return inspected(sheet, gear, rim_mm, wanted_mm, pins_mm=pins_mm)


def inspected(
    sheet: Sheet,
    gear: GearSize | None = None,
    rim_mm: Fraction | None = None,
    wanted_mm: Fraction | None = None,
    divisions: Divisions | None = None,
    limits: Limits = NO_LIMITS,
    pins_mm: Fraction | None = None,
) -> Inspection:
    """Return what readings say of a part.

    gear       the gear that it is, for its class; None for any other part
    rim_mm     diameter at which measured angles become lengths; None where no angles were measured
    wanted_mm  what sizes should be; None where that was not said
    divisions  the positions that were to be made; None for equal ones, as many as were measured
    limits     of the sizes, low and high, in mm
    pins_mm    diameter of the pins over which distances were measured; taken off each

    Raises Mendable.
    """
    kind, values = part_values(sheet)
    if pins_mm:
        values = [Value(line, value - pins_mm) for line, value in values]
    column = column_of(sheet)
    if kind == "size_mm":
        if wanted_mm:
            check_unit(values, wanted_mm, column, sheet.source)
        found = sizes([value for _, value in values], wanted_mm, *limits)
        return Inspection(kind, None, range(1, len(values) + 1), found)
    if gear and len(values) != gear.teeth:
        raise BadDivisions(
            sheet.source,
            f"{len(values)} readings, and the gear has {gear.teeth} teeth; closure needs every one",
        )
    if divisions is not None:
        _check_count(kind, len(values), divisions)
    if kind == "chord_mm" and rim_mm:
        check_unit(values, Fraction(float(rim_mm) * sin(pi / len(values))), column, sheet.source)
    part, diameter = _deviations(kind, values, rim_mm, divisions, sheet.source)
    numbers = divisions.numbers if divisions is not None else range(len(part.angles))
    found_part = Inspection(kind, part, numbers, None, diameter)
    if gear is None:
        return found_part
    standard = STANDARDS["iso-2013"]
    reached = class_reached(standard, gear, part.single_pitch, part.cumulative_pitch)
    return replace(found_part, gear=gear, reached=reached, outside=standard.outside(gear))


def _check_count(kind: str, count: int, divisions: Divisions) -> None:
    """Refuse readings that are not one for each position; and closure where it cannot be had."""
    if kind != "position_deg":
        even = isinstance(divisions, EqualDivisions) and divisions.goes_round
        if not even:
            raise BadDivisions(
                kind,
                "neighbours tell by closing the circle, and these positions are not evenly all round; "
                "measure the angle of each (position_deg)",
            )
    if count != len(divisions):
        raise BadDivisions(
            kind, f"{count} readings, and the part has {len(divisions)} positions; one for each"
        )


def _deviations(
    kind: str, values: list[Value], rim_mm: Fraction | None, divisions: Divisions | None, source: str
) -> tuple[Inspected, float | None]:
    read = [value for _, value in values]
    if kind == "pitch_um":
        return from_neighbours(read), None
    if kind == "chord_mm":
        return from_chords(read)
    if rim_mm is None:
        raise BadDivisions(
            "rim", "nothing given; angles become lengths there: --rim 150mm, or the teeth of a gear"
        )
    targets = (
        [target for _, target in divisions.targets()]
        if divisions is not None
        else [Fraction(index, len(values)) for index in range(len(values))]
    )
    if len(targets) > 1:
        _check_angles(values, targets, source)
    goes_round = divisions is None or divisions.goes_round
    return from_angles([value / 360 for value in read], targets, rim_mm, goes_round), None


def _check_angles(values: Sequence[Value], targets: Sequence[Fraction], source: str) -> None:
    """Refuse angles that stand nearer to another position than to their own: mistyped, or a row left out."""
    places = [
        Place(line, (target - targets[0]) * 360, value)
        for (line, value), target in zip(values, targets, strict=True)
    ]
    if whole := in_all_rows(places):
        raise FaultsFound([replace(whole, place="position_deg")], source)
    if turned := turns_out(places):
        raise FaultsFound([replace(fault, place="position_deg") for fault in turned], source)
    gap = min(after - before for before, after in pairwise(targets))
    out = angles_out([value / 360 for _, value in values], targets)
    faults = [
        Fault(
            "position_deg",
            f"{as_text(value)}; this position should be {as_text(round(abs(off) * 360, 4))} degrees from there, more "
            "than half-way to the next; mistyped, or a row left out or written twice?",
            line,
        )
        for (line, value), off in zip(values, out, strict=True)
        if abs(off) > gap / 2
    ]
    if faults:
        raise FaultsFound(faults[:MOST_FAULTS], source)


MOST_FAULTS = 5
"""Angles told one by one: after a row left out, all that follow are out."""


def inspection_answer(found: Inspection) -> dict[str, Any]:
    """Return it as a plain object, ready for JSON; lengths are floats in micrometres."""
    answer: dict[str, Any] = {"format": FORMAT, "measured": found.kind}
    if found.sizes:
        answer |= {
            "mean_mm": as_text(found.sizes.mean),
            "spread_mm": as_text(found.sizes.spread),
            "off_mm": None if found.sizes.off is None else as_text(found.sizes.off),
            "beyond": list(found.sizes.beyond),
        }
    if part := found.part:
        answer |= {
            "positions": len(part.angles),
            "goes_round": part.goes_round,
            "single_pitch_um": part.single_pitch,
            "cumulative_pitch_um": part.cumulative_pitch,
            "adjacent_pitch_um": part.adjacent_pitch,
            "single_um": list(part.single),
            "cumulative_um": list(part.cumulative),
            **({"rounding_um": list(found.rounding)} if found.rounding else {}),
            "circle_mm": found.diameter_mm,
            "class": found.reached.gear if found.reached else None,
            "standard": STANDARDS["iso-2013"].source if found.reached else None,
            "warnings": list(found.outside),
            "causes": [
                {
                    "name": cause.name,
                    "size_um": cause.size,
                    "position": cause.at,
                    "towards_position": cause.towards,
                    "odds": cause.odds,
                }
                for cause in found.causes
            ],
        }
    return answer
