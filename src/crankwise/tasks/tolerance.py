"""Look up what a class of a gear standard allows, and which class a measured gear reaches."""

from fractions import Fraction
from typing import Any

from crankwise.accuracy.tolerance import STANDARDS, Allowed, GearSize, Judged, adjacent_pitch, runout
from crankwise.errors import BadLength, BadNumber, FaultsFound, UnknownThing
from crankwise.exact.length import read_length
from crankwise.exact.number import as_text, read_number
from crankwise.part.gear import helix_faults
from crankwise.tasks.answers import FORMAT
from crankwise.tasks.asked_tooth import asked_angle, asked_module
from crankwise.tasks.divide import whole_number


def asked_gear_size(
    teeth: str | None, module: str | None, dp: str | None, helix: str | None = None
) -> GearSize:
    """Return the gear that was typed: its teeth, its normal module in mm or diametral pitch, and its helix in degrees.

    Raises Mendable.
    """
    count = whole_number(teeth, "teeth")
    if count < 3:
        raise BadNumber("teeth", f"{count}; a gear has 3 or more")
    if module and dp:
        raise BadNumber("module", "given beside the diametral pitch; give one or the other")
    if not (module or dp):
        raise BadNumber(
            "module", "nothing given; write the module in mm, as 1.5, or the diametral pitch, as 24"
        )
    size_mm = asked_module(module or "", dp or "")
    if size_mm <= 0:
        raise BadNumber(
            "module", f"{as_text(size_mm)}; a module is above 0: pitch diameter over teeth, as 1.5"
        )
    return GearSize(count, size_mm, _helix(helix))


def _helix(typed: str | None) -> Fraction:
    """Return the helix angle that was typed, in turns; 0 where none was."""
    if not typed:
        return Fraction(0)
    helix = asked_angle(typed, "helix")
    if faults := list(helix_faults(helix)):
        raise FaultsFound(faults)
    return helix


def tolerance(
    gear: GearSize,
    grade: str | None,
    standard: str,
    measured_single: str | None = None,
    measured_cumulative: str | None = None,
) -> Judged:
    """Return what a class allows this gear, and the class that it reaches as measured.

    All as typed; None or empty where nothing was. Raises Mendable.
    """
    if standard not in STANDARDS:
        raise UnknownThing(f"standard: {standard!r}; the standards are {', '.join(STANDARDS)}")
    found = STANDARDS[standard]
    asked = whole_number(grade, "class") if grade else None
    measured = _measured(measured_single, measured_cumulative)
    if asked is None and measured is None:
        raise BadNumber("class", "nothing given; write a class, as 8, or what was measured")
    allowed = found.allowed(gear, asked) if asked is not None else None
    return Judged(gear, found, asked, allowed, measured)


def _measured(single: str | None, cumulative: str | None) -> Allowed | None:
    if not (single or cumulative):
        return None
    for what, typed in (("measured single", single), ("measured cumulative", cumulative)):
        if not typed:
            raise BadLength(what, "nothing given; a class needs both the single and the cumulative pitch")
    return Allowed(
        _micrometres(single or "", "measured single"), _micrometres(cumulative or "", "measured cumulative")
    )


def _micrometres(typed: str, what: str) -> float:
    """Return a deviation in micrometres; a bare number is micrometres. Either sign is a size."""
    try:
        length = read_number(typed, what) / 1000
    except BadNumber:
        length = read_length(typed, what, marks_inches=False)
    return abs(float(length * 1000))


def tolerance_answer(found: Judged) -> dict[str, Any]:
    """Return the answer as a plain object, ready for JSON."""
    answer: dict[str, Any] = {
        "format": FORMAT,
        "teeth": found.gear.teeth,
        "module_mm": as_text(found.gear.module_mm),
        "helix_deg": as_text(found.gear.helix * 360),
        "diameter_mm": as_text(found.gear.diameter_mm),
        "standard": found.standard.name,
        "source": found.standard.source,
        "class": found.grade,
        "warnings": list(found.outside),
    }
    if found.allowed:
        printed = found.standard.printed(found.allowed)
        answer |= {
            "single_pitch_um": found.allowed.single_pitch,
            "cumulative_pitch_um": found.allowed.cumulative_pitch,
            "single_pitch_printed_um": printed.single_pitch,
            "cumulative_pitch_printed_um": printed.cumulative_pitch,
        }
        if found.standard is STANDARDS["iso-2013"]:
            answer |= {
                "adjacent_pitch_um": adjacent_pitch(found.allowed.single_pitch),
                "runout_um": runout(found.allowed.cumulative_pitch),
            }
    if found.measured and found.reached:
        answer |= {
            "measured": {
                "single_pitch_um": found.measured.single_pitch,
                "cumulative_pitch_um": found.measured.cumulative_pitch,
                "single_pitch_class": found.reached.single_pitch,
                "cumulative_pitch_class": found.reached.cumulative_pitch,
            },
            "class_reached": found.reached.gear,
        }
    return answer
