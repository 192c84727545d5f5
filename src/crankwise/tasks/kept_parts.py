"""A part that was measured, from what was typed and kept of it: what it says, and how it stands to its job."""

from fractions import Fraction
from typing import Any

from crankwise.accuracy.inspected_part import Inspection
from crankwise.plan.plan import Plan
from crankwise.store.kept import KeptMeasurement, TypedMeasurement
from crankwise.tasks.job_accuracy import gear_of
from crankwise.tasks.judge_part import (
    Judgement,
    inspected_part,
    judged,
    judged_size,
    judgement_answer,
)
from crankwise.tasks.measuring_card import size_named
from crankwise.tasks.part_kinds import MadePart
from crankwise.tasks.part_readings import typed_readings

__all__ = [
    "KeptMeasurement",
    "TypedMeasurement",
    "inspected_measurement",
    "judged_measurement",
    "measurement_answer",
    "measurement_summary",
]


def judged_measurement(plan: Plan, made: MadePart, typed: TypedMeasurement) -> Judgement:
    """Return what a measurement says of a part.

    plan  how the part was divided;  made  the part of its job, with its cards

    Raises Mendable.
    """
    sheet = typed_readings(typed.readings, typed.column)
    if typed.of:
        return judged_size(plan, sheet, size_named(made.cards, typed.of), gear_of(made))
    return judged(plan, sheet, gear_of(made), typed.rim, typed.wanted, pins=typed.pins)


def inspected_measurement(
    plan: Plan, made: MadePart, typed: TypedMeasurement
) -> tuple[Inspection, Fraction | None]:
    """Return what a measurement says without the prediction, and the diameter in mm at which errors are told.

    The diameter is None where sizes were measured. Raises Mendable.
    """
    sheet = typed_readings(typed.readings, typed.column)
    return inspected_part(plan, sheet, gear_of(made), typed.rim, typed.wanted, pins=typed.pins)


def measurement_answer(kept: KeptMeasurement, found: Judgement) -> dict[str, Any]:
    """Return a kept measurement as a plain object, ready for JSON: what was typed, and what it says."""
    return measurement_summary(kept) | {"readings": kept.typed.readings, **judgement_answer(found)}


def measurement_summary(kept: KeptMeasurement) -> dict[str, Any]:
    """Return what a list tells of a kept measurement."""
    return {
        "id": kept.id,
        "job_id": kept.job_id,
        "run_id": kept.run_id,
        "date": kept.date,
        "note": kept.note,
        "piece": kept.typed.piece or None,
        "column": kept.typed.column,
        "of": kept.typed.of or None,
        "way": kept.plan.way.key,
    }
