"""A job's part as it was measured, beside what was predicted for it."""

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from crankwise.accuracy.bounds import Bounds
from crankwise.accuracy.budget import Budget
from crankwise.accuracy.inspected_part import Inspection
from crankwise.accuracy.pitch_law import pitch_deviations
from crankwise.accuracy.sources import pitch_law
from crankwise.errors import BadLength
from crankwise.exact.length import read_diameter, read_length
from crankwise.exact.number import as_text
from crankwise.files.readings_csv import Sheet
from crankwise.part.card import CardLine, ToothSize
from crankwise.part.depth import believed_infeed_mm
from crankwise.part.gear import Gear
from crankwise.part.measured_tooth import measured_thickness_mm
from crankwise.part.span import base_pitch_mm
from crankwise.plan.plan import Plan
from crankwise.tasks.inspect import NO_LIMITS, Limits, inspected, inspection_answer
from crankwise.tasks.job_accuracy import gear_size, job_budget, job_rim
from crankwise.tasks.measuring_card import limits_of
from crankwise.tasks.part_readings import UNITS, column_of
from crankwise.wording.card import length_text

_NEAR_A_PITCH = 0.1
"""Of a base pitch: so near a span over other teeth is taken for one. Judgement."""


@dataclass(frozen=True, slots=True)
class Judgement:
    """A part as it was measured, beside what was predicted for it.

    budget     its prediction; None where sizes were measured, which are not predicted
    deeper_mm  how much deeper the spaces of a gear must go for a tooth that measures outside its limits, in mm;
               below 0, too deep already; None where no infeed follows from what was measured
    """

    found: Inspection
    budget: Budget | None
    deeper_mm: float | None = None

    @property
    def predicted(self) -> Bounds | None:
        """What 19 parts in 20 keep; None where nothing is predicted."""
        return self.budget.part if self.budget else None

    @property
    def is_as_predicted(self) -> bool | None:
        """Whether both deviations are within the prediction; None where there is none."""
        if self.predicted is None or self.found.part is None:
            return None
        part = self.found.part
        return (
            part.single_pitch <= self.predicted.single and part.cumulative_pitch <= self.predicted.cumulative
        )


def judged(
    plan: Plan,
    sheet: Sheet,
    gear: Gear | None = None,
    rim: str = "",
    wanted: str = "",
    limits: Limits = NO_LIMITS,
    pins: str = "",
) -> Judgement:
    """Return what the readings of a part say, beside what was predicted for it.

    gear    that the part is, from which its class follows; None for any other part
    rim     diameter at which errors are told, as typed; of a part that names none
    wanted  what sizes should be, as typed; empty where that was not said
    limits  of the sizes, low and high, in mm
    pins    diameter of the pins over which distances of holes were measured, as typed

    Raises Mendable.
    """
    found, rim_mm = inspected_part(plan, sheet, gear, rim, wanted, limits, pins)
    return Judgement(found, None if rim_mm is None else job_budget(plan, gear, f"{as_text(rim_mm)}mm"))


def inspected_part(
    plan: Plan,
    sheet: Sheet,
    gear: Gear | None = None,
    rim: str = "",
    wanted: str = "",
    limits: Limits = NO_LIMITS,
    pins: str = "",
) -> tuple[Inspection, Fraction | None]:
    """Return the same without the prediction, and the diameter in mm at which errors are told; None for sizes.

    Holes whose job names no rim are told on the circle that their distances close on. Raises Mendable.
    """
    size = gear_size(gear)
    kind, _ = UNITS[column_of(sheet)]
    divisions = plan.part.divisions
    pins_mm = read_diameter(pins, "pins") if pins else None
    if pins_mm and kind != "chord_mm":
        raise BadLength("pins", "distances of holes are measured over pins; leave it empty for all else")
    if kind == "size_mm":
        wanted_mm = read_length(wanted, "wanted") if wanted else None
        return inspected(sheet, None, None, wanted_mm, divisions, limits), None
    if kind == "chord_mm" and not rim and size is None and plan.part.rim_mm is None:
        found = inspected(sheet, divisions=divisions, pins_mm=pins_mm)
        circle_mm = Fraction(f"{found.diameter_mm:.6f}")
        return _of_plan(found, plan, circle_mm), circle_mm
    rim_mm = job_rim(plan, size, rim)
    found = inspected(sheet, size, rim_mm, None, divisions, pins_mm=pins_mm)
    return _of_plan(found, plan, rim_mm), rim_mm


def _of_plan(found: Inspection, plan: Plan, rim_mm: Fraction) -> Inspection:
    """Return it with what the way's own rounding makes of each pitch, which is no fault of anybody's."""
    law = pitch_law(plan, (), float(rim_mm))
    return replace(found, rounding=tuple(pitch_deviations(law.known, law.goes_round)))


def judged_size(plan: Plan, sheet: Sheet, line: CardLine, gear: Gear | None = None) -> Judgement:
    """Return what a size at several places says, held against the measuring card.

    gear  that the part is: the infeed follows that its teeth ask for

    Raises Mendable.
    """
    if UNITS[column_of(sheet)][0] != "size_mm":
        raise BadLength("of", f"{line.what} is a size, and these readings are none; use size_mm or size_in")
    assert line.value is not None
    wanted = Fraction(line.value)
    found = inspected(sheet, None, None, wanted, plan.part.divisions, limits_of(line))
    return Judgement(found, None, _infeed(found, line, gear))


def _infeed(found: Inspection, line: CardLine, gear: Gear | None) -> float | None:
    """Return the infeed that a mean outside its limits asks for; None where it asks for none, or tells of no tooth."""
    sizes = found.sizes
    if gear is None or line.measures is None or sizes is None or sizes.low is None or sizes.high is None:
        return None
    if sizes.low <= sizes.mean <= sizes.high:
        return None
    return _believed(gear, line, line.measures, float(sizes.mean))


def _believed(gear: Gear, line: CardLine, measured: ToothSize, mean_mm: float) -> float:
    """Return the infeed for a tooth that measures so; a size that no tooth so far out could give is refused.

    One tooth more or less between the jaws changes a span by a base pitch (ISO 21771).
    """
    deeper_mm = believed_infeed_mm(gear, measured_thickness_mm(gear, measured, mean_mm))
    if deeper_mm is not None:
        return deeper_mm
    told = "give what the instrument shows, in the unit of the column"
    assert line.value is not None
    if measured.kind == "span":
        more, left = divmod((mean_mm - float(line.value)) / base_pitch_mm(gear) + 0.5, 1)
        if more and measured.teeth + more > 0 and abs(left - 0.5) < _NEAR_A_PITCH:
            told = f"it is as over {measured.teeth + int(more)} teeth: count those between the jaws"
    raise BadLength(
        line.what,
        f"{length_text(mean_mm)} is nowhere near {length_text(line.value)}, what it should be; {told}",
    )


def judgement_answer(judged: Judgement) -> dict[str, Any]:
    """Return it as a plain object, ready for JSON: the inspection, and the prediction beside it."""
    predicted = judged.predicted
    deeper = {} if judged.deeper_mm is None else {"deeper_mm": judged.deeper_mm}
    return (
        inspection_answer(judged.found)
        | deeper
        | {
            "predicted": None
            if predicted is None
            else {
                "single_pitch_um": predicted.single,
                "cumulative_pitch_um": predicted.cumulative,
                "confidence": 0.95,
                "kept": judged.is_as_predicted,
            }
        }
    )
