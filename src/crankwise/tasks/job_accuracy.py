"""How good a job's part will be, and how good it is: its error budget, and its readings held against that."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from crankwise.accuracy.bounds import Bounds
from crankwise.accuracy.budget import Budget, budget
from crankwise.accuracy.tolerance import GearSize
from crankwise.errors import BadLength
from crankwise.exact.length import read_diameter, read_length
from crankwise.files.readings_csv import MOST_BYTES, Line, Sheet, read_sheet
from crankwise.part.gear import Gear
from crankwise.plan.plan import Plan
from crankwise.tasks.inspect import COLUMNS, Inspection, inspected, inspection_answer


@dataclass(frozen=True, slots=True)
class Judgement:
    """A part as it was measured, beside what was predicted for it.

    predicted  what 19 parts in 20 keep; None where sizes were measured, which are not predicted
    """

    found: Inspection
    predicted: Bounds | None

    @property
    def is_as_predicted(self) -> bool | None:
        """Whether both deviations are within the prediction; None where there is none."""
        if self.predicted is None or self.found.part is None:
            return None
        part = self.found.part
        return (
            part.single_pitch <= self.predicted.single and part.cumulative_pitch <= self.predicted.cumulative
        )


def gear_size(value: object) -> GearSize | None:
    """Return the gear that a kind's own value is, as far as its class depends on it; None for any other part.

    A helical gear is left out: the class is asked for by its normal module and its true diameter.
    """
    if not isinstance(value, Gear) or value.is_helical:
        return None
    return GearSize(value.teeth, value.module_mm)


def job_rim(plan: Plan, gear: GearSize | None, typed: str = "") -> Fraction:
    """Return the diameter at which errors are told, in mm: of the gear, of the part, or as typed.

    Raises BadLength when there is none, or it cannot be read.
    """
    if gear:
        return gear.diameter_mm
    if typed:
        return read_diameter(typed, "rim")
    if plan.part.rim_mm is None:
        raise BadLength(
            "rim: this job names none, and errors are told as lengths there; write the diameter, as 150mm"
        )
    return plan.part.rim_mm


def job_budget(plan: Plan, value: object = None, rim: str = "") -> Budget:
    """Return the error budget of a job.

    value  the kind's own value, from which the gear's class follows
    rim    as typed, for a part that has none

    Raises BadLength, BadDivisions.
    """
    gear = gear_size(value)
    return budget(plan, float(job_rim(plan, gear, rim)), gear)


def typed_readings(content: bytes | str, kind: str, source: str = "readings") -> Sheet:
    """Return readings from a file, or as they were typed below one another. Raises FaultsFound.

    kind  the column that they are where the first line names none, one of COLUMNS
    """
    if isinstance(content, str) and kind in COLUMNS and len(content) <= MOST_BYTES:
        lines = [(number, line.strip()) for number, line in enumerate(content.splitlines(), 1)]
        said = [(number, line) for number, line in lines if line and not line.startswith("#")]
        # One column has nothing to separate, so that a comma in it can only mark the decimals.
        if said and not any(letter.isalpha() for letter in said[0][1]):
            return Sheet((kind,), tuple(Line(number, {kind: line}) for number, line in said), source)
    return read_sheet(content, source)


def judged(plan: Plan, sheet: Sheet, value: object = None, rim: str = "", wanted: str = "") -> Judgement:
    """Return what the readings of a part say, beside what was predicted for it.

    wanted  what sizes should be, as typed; empty where that was not said

    Raises Mendable.
    """
    gear = gear_size(value)
    wanted_mm = read_length(wanted, "wanted") if wanted else None
    if "size_mm" in sheet.columns:
        return Judgement(inspected(sheet, None, None, wanted_mm, plan.part.divisions), None)
    at = job_rim(plan, gear, rim)
    found = inspected(sheet, gear, at, wanted_mm, plan.part.divisions)
    return Judgement(found, budget(plan, float(at), gear).part)


def judgement_answer(judged: Judgement) -> dict[str, Any]:
    """Return it as a plain object, ready for JSON: the inspection, and the prediction beside it."""
    predicted = judged.predicted
    return inspection_answer(judged.found) | {
        "predicted": None
        if predicted is None
        else {
            "single_pitch_um": predicted.single,
            "cumulative_pitch_um": predicted.cumulative,
            "confidence": 0.95,
            "kept": judged.is_as_predicted,
        }
    }
