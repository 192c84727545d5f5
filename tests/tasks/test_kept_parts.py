"""A kept measurement: what it says of its part, and what a list tells of it."""

from fractions import Fraction

import pytest

from crankwise.errors import BadLength, UnknownThing
from crankwise.part.divisions import EqualDivisions
from crankwise.store.kept import KeptMeasurement, TypedMeasurement
from crankwise.tasks.kept_parts import (
    inspected_measurement,
    judged_measurement,
    measurement_answer,
    measurement_summary,
)
from crankwise.tasks.part_kinds import MadePart, made_of
from tests.tasks.plans import plan_of

GEAR = made_of("spur", {"teeth": "50", "module": "2"})
PLAN = plan_of(EqualDivisions(50))
PITCHES = "\n".join("3" if place % 2 else "-3" for place in range(50))


def test_a_size_is_held_against_the_line_that_was_kept_with_it() -> None:
    span = TypedMeasurement("size_mm", "34.2\n34.2", of="span over 6 teeth")
    found = judged_measurement(PLAN, GEAR, span)
    assert found.found.sizes is not None
    assert found.found.sizes.beyond == (1, 2)
    assert found.deeper_mm is not None
    assert found.deeper_mm > 0
    with pytest.raises(UnknownThing, match="'span over 9' is not on the measuring card"):
        judged_measurement(PLAN, GEAR, TypedMeasurement("size_mm", "34.2", of="span over 9"))


def test_without_the_prediction_the_part_says_the_same() -> None:
    typed = TypedMeasurement("pitch_um", PITCHES)
    found, rim_mm = inspected_measurement(PLAN, GEAR, typed)
    assert rim_mm == 100
    assert found == judged_measurement(PLAN, GEAR, typed).found


def test_sizes_are_told_at_no_diameter() -> None:
    found, rim_mm = inspected_measurement(PLAN, GEAR, TypedMeasurement("size_in", "1.34", wanted="1.34in"))
    assert rim_mm is None
    assert found.sizes is not None
    assert found.sizes.mean == Fraction("1.34") * Fraction(127, 5)


def test_the_rim_and_the_pins_that_were_typed_count() -> None:
    plan = plan_of(EqualDivisions(6), rim_mm=None)
    bare = MadePart("", plan.part)
    _, rim_mm = inspected_measurement(plan, bare, TypedMeasurement("pitch_um", "1\n2\n3\n1\n2\n3", rim="4in"))
    assert rim_mm == Fraction("101.6")
    over_pins = TypedMeasurement("chord_mm", "\n".join(["56"] * 6), pins="6mm")
    _, circle_mm = inspected_measurement(plan, bare, over_pins)
    # Six holes stand as far apart as from their centre: 56 over pins of 6 is 50 to the centre.
    assert circle_mm == 100
    with pytest.raises(BadLength, match="rim: this job names none"):
        inspected_measurement(plan, bare, TypedMeasurement("pitch_um", "1\n2\n3\n1\n2\n3"))
    with pytest.raises(BadLength, match="pins: distances of holes are measured over pins"):
        inspected_measurement(plan, bare, TypedMeasurement("pitch_um", "1\n2\n3", rim="4in", pins="6mm"))


def test_a_list_tells_less_than_the_measurement_itself() -> None:
    typed = TypedMeasurement("pitch_um", PITCHES)
    kept = KeptMeasurement(3, 2, None, PLAN, typed, "2026-03-14", "after the new gib")
    summary = measurement_summary(kept)
    assert (summary["id"], summary["run_id"], summary["of"], summary["way"]) == (3, None, None, PLAN.way.key)
    answer = measurement_answer(kept, judged_measurement(PLAN, GEAR, typed))
    assert answer["readings"] == PITCHES
    assert answer.items() >= summary.items()
    assert {"single_pitch_um", "predicted"} <= answer.keys() - summary.keys()
