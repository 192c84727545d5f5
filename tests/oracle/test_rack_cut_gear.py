"""Span, pins, balls and thickness of our gears are what jaws, pins and balls read on a gear cut by a rolling rack."""

from fractions import Fraction
from math import atan, cos, pi, radians, tan

import pytest

from crankwise.part.gear import Gear
from crankwise.part.over_pins import over_pins
from crankwise.part.span import span
from tests.oracle.rack_cut_gear import across_balls, across_pins, jaws_apart, thickness

NEAR = 2e-6  # mm at module 1: two millionths
GEARS = [
    (18, "20", "0"),
    (19, "20", "0.3"),
    (25, "20", "-0.2"),
    (40, "14.5", "0"),
    (41, "25", "0.5"),
    (127, "20", "0"),
]


def ours(teeth: int, angle: str, shift: str) -> Gear:
    return Gear(teeth, Fraction(1), Fraction(angle) / 360, Fraction(shift))


@pytest.mark.parametrize(("teeth", "angle", "shift"), GEARS)
def test_a_span_is_what_jaws_read(teeth: int, angle: str, shift: str) -> None:
    gear = ours(teeth, angle, shift)
    usable = [one for one in (span(gear, over) for over in range(2, teeth // 2)) if one.is_usable]
    assert usable
    for one in usable[:4]:
        read = jaws_apart(
            teeth, radians(float(angle)), float(shift), float(gear.outside_diameter_mm) / 2, one.teeth
        )
        assert one.length_mm == pytest.approx(read, abs=NEAR)


@pytest.mark.parametrize("pin", ["1.68", "1.728", "2"])
@pytest.mark.parametrize(("teeth", "angle", "shift"), GEARS)
def test_over_pins_is_what_a_micrometer_reads(teeth: int, angle: str, shift: str, pin: str) -> None:
    gear = ours(teeth, angle, shift)
    pins = over_pins(gear, Fraction(pin))
    assert pins is not None
    read = across_pins(
        teeth, radians(float(angle)), float(shift), float(gear.outside_diameter_mm) / 2, float(pin)
    )
    assert pins.is_usable
    assert pins.over_mm == pytest.approx(read, abs=NEAR)


@pytest.mark.parametrize(("teeth", "helix", "shift"), [(20, "15", "0"), (30, "30", "0.2"), (44, "45", "0")])
def test_over_balls_of_a_helical_gear(teeth: int, helix: str, shift: str) -> None:
    gear = Gear(
        teeth, Fraction(1), Fraction(20, 360), Fraction(shift), Fraction(helix) / 360, is_transverse=True
    )
    ball = Fraction(7, 4) * Fraction(round(cos(radians(float(helix))) * 100), 100)
    pins = over_pins(gear, ball)
    assert pins is not None
    read = across_balls(
        teeth,
        radians(20),
        float(shift),
        float(gear.outside_diameter_mm) / 2,
        float(ball),
        radians(float(helix)),
    )
    assert pins.over_mm == pytest.approx(read, abs=2 * NEAR)


def test_a_helical_gear_told_in_its_normal_section_is_the_same_gear() -> None:
    helix = radians(30)
    normal = Gear(30, Fraction(2), shift=Fraction("0.1"), helix=Fraction(30, 360))
    told = atan(tan(radians(20)) / cos(helix)) / (2 * pi)
    transverse = Gear(
        30,
        Fraction(2 / cos(helix)),
        Fraction(told),
        Fraction(0.1 * cos(helix)),
        Fraction(30, 360),
        is_transverse=True,
    )
    pin = Fraction("3.5")
    both = over_pins(normal, pin), over_pins(transverse, pin)
    assert both[0] is not None
    assert both[1] is not None
    assert both[0].over_mm == pytest.approx(both[1].over_mm, abs=1e-9)
    assert span(normal, 5).length_mm == pytest.approx(span(transverse, 5).length_mm, abs=1e-9)


@pytest.mark.parametrize(("teeth", "angle", "shift"), GEARS)
def test_a_tooth_is_as_thick_as_the_rack_leaves_it(teeth: int, angle: str, shift: str) -> None:
    gear = ours(teeth, angle, shift)
    outside = float(gear.outside_diameter_mm) / 2
    least = gear.form_diameter_mm / 2
    for part in (0.1, 0.3, 0.5, 0.7, 0.9):
        radius = least + part * (outside - least)
        cut = thickness(teeth, radians(float(angle)), float(shift), outside, radius)
        assert gear.thickness_at(2 * radius) == pytest.approx(cut, abs=NEAR)
