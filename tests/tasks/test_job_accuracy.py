"""A job's prediction: its error budget at the rim that errors are told at."""

from fractions import Fraction

import pytest

from crankwise.accuracy.budget import budget
from crankwise.errors import BadLength
from crankwise.part.divisions import EqualDivisions
from crankwise.part.gear import Gear
from crankwise.tasks.job_accuracy import job_budget
from tests.tasks.plans import GEAR, plan_of


def test_a_gear_has_its_class_and_any_other_part_has_none() -> None:
    plan = plan_of(EqualDivisions(50))
    found = job_budget(plan, GEAR)
    assert found.reached is not None
    assert found.part == budget(plan, 100.0).part
    assert job_budget(plan).reached is None


@pytest.mark.parametrize("is_transverse", [False, True])
def test_a_helical_gear_is_judged_by_its_normal_module_and_its_own_diameter(is_transverse: bool) -> None:
    gear = Gear(50, Fraction(2), helix=Fraction(1, 12), is_transverse=is_transverse)
    found = job_budget(plan_of(EqualDivisions(50)), gear)
    assert found.gear is not None
    assert found.reached is not None
    module, diameter = (1.7320508, 100) if is_transverse else (2, 115.4700538)
    assert float(found.gear.module_mm) == pytest.approx(module, abs=1e-6)
    assert found.rim_mm == pytest.approx(diameter, abs=1e-6)


def test_a_gear_by_its_diametral_pitch_keeps_its_diameter_exactly() -> None:
    found = job_budget(plan_of(EqualDivisions(30), None), Gear(30, Fraction("25.4") / 24))
    assert found.gear is not None
    assert found.gear.diameter_mm == Fraction("31.75")
    assert found.rim_mm == 31.75


def test_a_part_without_a_rim_is_asked_for_it() -> None:
    plan = plan_of(EqualDivisions(50), None)
    with pytest.raises(BadLength, match="rim: this job names none"):
        job_budget(plan)
    assert job_budget(plan, rim="100mm").rim_mm == 100
