"""Classes: what is allowed rises with the class, and the class reached is the finest that is kept."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.accuracy.tolerance import STANDARDS, Allowed, GearSize, Judged, class_reached
from crankwise.errors import BadNumber

GEARS = st.builds(
    GearSize, st.integers(5, 1000), st.fractions(Fraction(1, 2), Fraction(25), max_denominator=20)
)


def test_module_2_50_teeth_class_8_by_hand() -> None:
    # (0.001 x 100 + 0.4 x 2 + 5) x 2 root 2 = 16.69; (0.002 x 100 + 0.55 x 10 + 0.7 x 2 + 12) x 2 root 2 = 54.02
    allowed = STANDARDS["iso-2013"].allowed(GearSize(50, Fraction(2)), 8)
    assert allowed.single_pitch == pytest.approx(16.688, abs=0.0005)
    assert allowed.cumulative_pitch == pytest.approx(54.023, abs=0.0005)
    assert STANDARDS["iso-2013"].printed(allowed) == Allowed(17.0, 54.0)


@given(gear=GEARS, name=st.sampled_from(sorted(STANDARDS)))
def test_a_gear_just_within_a_class_reaches_it_and_just_outside_the_next(gear: GearSize, name: str) -> None:
    standard = STANDARDS[name]
    for grade, rougher in zip(standard.classes, [*standard.classes[1:], None], strict=True):
        allowed = standard.allowed(gear, grade)
        single, cumulative = allowed.single_pitch, allowed.cumulative_pitch
        assert class_reached(standard, gear, single, cumulative).gear == grade
        assert class_reached(standard, gear, single * 1.0001, cumulative).gear == rougher
        assert class_reached(standard, gear, single, cumulative * 1.0001).gear == rougher


def test_the_rougher_of_the_two_is_the_gears_class() -> None:
    found = class_reached(STANDARDS["iso-2013"], GearSize(50, Fraction(2)), 18, 50)
    assert (found.single_pitch, found.cumulative_pitch, found.gear) == (9, 8, 9)


def test_a_gear_outside_the_standard_is_told_by_name() -> None:
    outside = STANDARDS["iso-2013"].outside(GearSize(12, Fraction("0.3")))
    assert outside == (
        "reference diameter 3.6 mm is outside ISO 1328-1:2013, which holds from 5 to 15000 mm",
        "module 0.3 mm is outside ISO 1328-1:2013, which holds from 0.5 to 70 mm",
    )
    assert STANDARDS["iso-2013"].outside(GearSize(127, Fraction(1))) == ()


def test_a_helical_gears_class_goes_by_its_normal_module_and_its_larger_diameter() -> None:
    # At 30 degrees d = 50 x 2 / 0.866025 = 115.470; (0.115470 + 0.8 + 5) x 2 root 2 = 16.7315;
    # (0.230940 + 0.55 x 10.74570 + 1.4 + 12) x 2 root 2 = 55.271
    gear = GearSize(50, Fraction(2), helix=Fraction(30, 360))
    allowed = STANDARDS["iso-2013"].allowed(gear, 8)
    assert allowed.single_pitch == pytest.approx(16.7315, abs=0.0005)
    assert allowed.cumulative_pitch == pytest.approx(55.271, abs=0.0005)


def test_the_standard_holds_to_a_helix_of_45_degrees() -> None:
    standard = STANDARDS["iso-2013"]
    assert standard.outside(GearSize(50, Fraction(2), helix=Fraction(45, 360))) == ()
    assert standard.outside(GearSize(50, Fraction(2), helix=Fraction(91, 720))) == (
        "helix angle 45.5° is outside ISO 1328-1:2013, which holds from 0 to 45°",
    )


def test_a_class_that_is_not_there_is_refused() -> None:
    with pytest.raises(BadNumber, match=r"class: 12; ISO 1328-1:2013 has the classes 1, 2, 3"):
        STANDARDS["iso-2013"].allowed(GearSize(50, Fraction(2)), 12)


def test_a_gear_keeps_a_class_only_with_both_of_its_deviations() -> None:
    standard, gear = STANDARDS["iso-2013"], GearSize(50, Fraction(2))
    allowed = standard.allowed(gear, 8)
    assert Judged(gear, standard, 8, allowed, Allowed(16, 54)).keeps_it
    assert not Judged(gear, standard, 8, allowed, Allowed(17, 54)).keeps_it
    assert not Judged(gear, standard, 8, allowed, Allowed(16, 55)).keeps_it
    assert Judged(gear, standard, 8, allowed, None).keeps_it
