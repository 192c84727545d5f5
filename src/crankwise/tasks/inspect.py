"""Look at the finished part: its deviations, the class it reaches, and what they point to."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from crankwise.accuracy.inspection import (
    Cause,
    Inspected,
    Sizes,
    causes,
    from_angles,
    from_chords,
    from_neighbours,
    sizes,
)
from crankwise.accuracy.mistakes import odd_gauge
from crankwise.accuracy.tolerance import STANDARDS, GearSize, Reached, class_reached
from crankwise.errors import BadDivisions, Fault, FaultsFound
from crankwise.exact.length import read_diameter, read_length
from crankwise.exact.number import as_text
from crankwise.files.readings_csv import Sheet, number_in
from crankwise.part.divisions import Divisions, EqualDivisions
from crankwise.tasks.answers import FORMAT
from crankwise.tasks.readings import open_readings
from crankwise.tasks.tolerance import asked_gear_size

COLUMNS = ("pitch_um", "chord_mm", "position_deg", "size_mm")


@dataclass(frozen=True, slots=True)
class Inspection:
    """What was measured of a part, and what it comes to.

    kind         the column that was measured, one of COLUMNS
    part         its deviations; None where only sizes were measured
    sizes        None where deviations were measured
    diameter_mm  of the circle of the holes, where chords found it
    gear, reached, outside  the gear, its classes, and what of it lies outside the standard; where it is one
    """

    kind: str
    part: Inspected | None
    sizes: Sizes | None = None
    diameter_mm: float | None = None
    gear: GearSize | None = None
    reached: Reached | None = None
    outside: tuple[str, ...] = ()

    @property
    def causes(self) -> tuple[Cause, ...]:
        """What the deviations point to."""
        return causes(self.part) if self.part else ()


def inspect(
    path: str,
    teeth: str | None = None,
    module: str | None = None,
    dp: str | None = None,
    rim: str | None = None,
    wanted: str | None = None,
) -> Inspection:
    """Return what a file of readings says of a part; all as typed, None where nothing was. Raises Mendable."""
    gear = asked_gear_size(teeth, module, dp) if teeth or module or dp else None
    rim_mm = read_diameter(rim, "rim") if rim else gear.diameter_mm if gear else None
    wanted_mm = read_length(wanted, "wanted") if wanted else None
    return inspected(open_readings(path), gear, rim_mm, wanted_mm)


def inspected(
    sheet: Sheet,
    gear: GearSize | None = None,
    rim_mm: Fraction | None = None,
    wanted_mm: Fraction | None = None,
    divisions: Divisions | None = None,
) -> Inspection:
    """Return what readings say of a part.

    gear       the gear that it is, for its class; None for any other part
    rim_mm     diameter at which measured angles become lengths; None where no angles were measured
    wanted_mm  what sizes should be; None where that was not said
    divisions  the positions that were to be made; None for equal ones, as many as were measured

    Raises Mendable.
    """
    kind = _kind(sheet)
    values = _values(sheet, kind)
    if kind == "size_mm":
        return Inspection(kind, None, sizes(values, wanted_mm))
    if gear and len(values) != gear.teeth:
        raise BadDivisions(
            f"{sheet.source}: {len(values)} readings, and the gear has {gear.teeth} teeth; closure needs every one"
        )
    if divisions is not None:
        _check_count(kind, len(values), divisions)
    part, diameter = _deviations(kind, values, rim_mm, divisions)
    if gear is None:
        return Inspection(kind, part, None, diameter)
    standard = STANDARDS["iso-2013"]
    reached = class_reached(standard, gear, part.single_pitch, part.cumulative_pitch)
    return Inspection(kind, part, None, diameter, gear, reached, standard.outside(gear))


def _check_count(kind: str, count: int, divisions: Divisions) -> None:
    """Refuse readings that are not one for each position; and closure where it cannot be had."""
    if kind != "position_deg":
        even = isinstance(divisions, EqualDivisions) and len(divisions) == divisions.count
        if not even:
            raise BadDivisions(
                f"{kind}: neighbours tell by closing the circle, and these positions are not evenly all round; "
                "measure the angle of each (position_deg)"
            )
    if count != len(divisions):
        raise BadDivisions(
            f"{kind}: {count} readings, and the part has {len(divisions)} positions; one for each"
        )


def _kind(sheet: Sheet) -> str:
    kinds = [name for name in COLUMNS if name in sheet.columns]
    if len(kinds) == 1:
        return kinds[0]
    raise FaultsFound(
        [Fault("", f"the columns {', '.join(sheet.columns)}; one of them is {', '.join(COLUMNS)}", 1)],
        sheet.source,
    )


def _values(sheet: Sheet, kind: str) -> list[Fraction]:
    faults: list[Fault] = []
    read = [
        (line.number, number_in(line, kind, faults, angle=kind == "position_deg")) for line in sheet.lines
    ]
    values = [(number, value) for number, value in read if value is not None]
    if kind == "chord_mm" and not faults:
        faults += [
            Fault(fault.place, fault.message.replace("seconds of arc", "millimetres"), fault.line)
            for fault in odd_gauge(values, kind)
            if "looks like" not in fault.message
        ]
    if faults:
        raise FaultsFound(faults, sheet.source)
    return [value for _, value in values]


def _deviations(
    kind: str, values: list[Fraction], rim_mm: Fraction | None, divisions: Divisions | None
) -> tuple[Inspected, float | None]:
    if kind == "pitch_um":
        return from_neighbours(values), None
    if kind == "chord_mm":
        return from_chords(values)
    if rim_mm is None:
        raise BadDivisions(
            "rim: nothing given; angles become lengths there: --rim 150mm, or the teeth of a gear"
        )
    targets = (
        [target for _, target in divisions.targets()]
        if divisions is not None
        else [Fraction(index, len(values)) for index in range(len(values))]
    )
    return from_angles([value / 360 for value in values], targets, rim_mm), None


def inspection_answer(found: Inspection) -> dict[str, Any]:
    """Return it as a plain object, ready for JSON; lengths are floats in micrometres."""
    answer: dict[str, Any] = {"format": FORMAT, "measured": found.kind}
    if found.sizes:
        answer |= {
            "mean_mm": as_text(found.sizes.mean),
            "spread_mm": as_text(found.sizes.spread),
            "off_mm": None if found.sizes.off is None else as_text(found.sizes.off),
        }
    if part := found.part:
        answer |= {
            "positions": len(part.single),
            "single_pitch_um": part.single_pitch,
            "cumulative_pitch_um": part.cumulative_pitch,
            "adjacent_pitch_um": part.adjacent_pitch,
            "single_um": list(part.single),
            "cumulative_um": list(part.cumulative),
            "circle_mm": found.diameter_mm,
            "class": found.reached.gear if found.reached else None,
            "standard": STANDARDS["iso-2013"].source if found.reached else None,
            "warnings": list(found.outside),
            "causes": [
                {"name": cause.name, "size_um": cause.size, "position": cause.at} for cause in found.causes
            ],
        }
    return answer
