"""Spans, balls and backlash, of helical gears too, are what is read between planes that roll round the gear."""

from dataclasses import dataclass
from fractions import Fraction
from math import cos, pi, radians

import numpy as np
import pytest

from crankwise.part.gear import Gear
from crankwise.part.gear_system import STUB
from crankwise.part.over_pins import best_pin_mm, over_pins, usable_pins_mm
from crankwise.part.pair import Pair
from crankwise.part.span import best_span, spans_about
from tests.oracle.rolled_planes import RolledGear, clearances, jaws_apart, play

DP_96 = Fraction(127, 480)


@dataclass(frozen=True)
class Asked:
    """A gear by its normal section, angles in degrees as typed."""

    teeth: int
    module: Fraction
    angle: str = "20"
    shift: str = "0"
    helix: int = 0
    thinning: str = "0"

    @property
    def ours(self) -> Gear:
        """The product's."""
        return Gear(
            self.teeth,
            self.module,
            Fraction(self.angle) / 360,
            Fraction(self.shift),
            Fraction(self.helix, 360),
            thinning_mm=Fraction(self.thinning),
        )

    @property
    def rolled(self) -> RolledGear:
        """The same, as planes."""
        return RolledGear(
            self.teeth,
            float(self.module),
            radians(float(self.angle)),
            float(self.shift),
            radians(self.helix),
            float(self.thinning),
        )


ONE = Fraction(1)
GEARS = [
    Asked(5, ONE, shift="0.3"),
    Asked(12, DP_96, shift="0.3"),
    Asked(400, ONE),
    Asked(400, Fraction(1, 5), "14.5", thinning="0.02"),
    Asked(31, DP_96, "14.5", helix=10),
    Asked(99, Fraction(1, 5), shift="-0.5"),
    Asked(13, Fraction(3), shift="0.5", helix=30, thinning="0.1"),
    Asked(20, ONE, helix=45),
    Asked(21, ONE, shift="-0.3", helix=45),
    Asked(47, Fraction(5, 4), "25", shift="0.2", helix=23),
]


@pytest.mark.parametrize("asked", GEARS, ids=str)
def test_a_span_is_what_parallel_jaws_read(asked: Asked) -> None:
    gear = asked.ours
    best = best_span(gear)
    assert best is not None
    for one in spans_about(gear, best.teeth):
        assert one.length_mm == pytest.approx(jaws_apart(asked.rolled, one.teeth), abs=1e-9)


@pytest.mark.parametrize("asked", GEARS, ids=str)
def test_over_balls_is_where_they_rest_between_two_flanks(asked: Asked) -> None:
    gear = asked.ours
    least, most = usable_pins_mm(gear)
    for wish in (best_pin_mm(gear), least * 1.01, (least + most) / 2):
        pin = Fraction(wish).limit_denominator(10_000)
        measured = over_pins(gear, pin)
        assert measured is not None
        level = 1.0 if gear.teeth % 2 == 0 else cos(pi / 2 / gear.teeth)
        centre = (measured.over_mm - float(pin)) / 2 / level
        rests = np.abs(clearances(asked.rolled, centre) - float(pin) / 2)
        assert rests.min() == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("asked", GEARS, ids=str)
def test_the_thinnest_and_the_thickest_pin_can_be_used_and_none_beyond(asked: Asked) -> None:
    gear = asked.ours
    least, most = usable_pins_mm(gear)
    step = float(gear.normal_module_mm) / 500
    for pin_mm, usable in ((least, True), (most - step, True), (least - step, False), (most + step, False)):
        pin = over_pins(gear, Fraction(pin_mm))
        assert (pin is not None and pin.is_usable) == usable


def test_stub_teeth_have_pins_that_fit_too() -> None:
    least, most = usable_pins_mm(Gear(24, Fraction(2), system=STUB))
    assert 0 < least < most


@pytest.mark.parametrize("helix", [0, 20])
@pytest.mark.parametrize(
    ("first", "second", "centres"),
    [
        (Asked(12, Fraction(3), shift="0.6"), Asked(24, Fraction(3), shift="0.36"), None),
        (Asked(18, ONE), Asked(40, ONE), None),
        (Asked(18, ONE), Asked(40, ONE), "0.2"),
        (
            Asked(20, Fraction(2), shift="0.2", thinning="0.05"),
            Asked(30, Fraction(2), shift="-0.1", thinning="0.05"),
            "0.1",
        ),
        (Asked(25, DP_96, "14.5", thinning="0.03"), Asked(120, DP_96, "14.5", thinning="0.03"), None),
    ],
)
def test_backlash_is_how_far_a_gear_can_be_rocked(
    first: Asked, second: Asked, centres: str | None, helix: int
) -> None:
    """The centres are those without backlash, or so many mm farther apart."""
    one, other = (
        Asked(gear.teeth, gear.module, gear.angle, gear.shift, helix, gear.thinning)
        for gear in (first, second)
    )
    mate = Gear(
        other.teeth,
        other.module,
        Fraction(other.angle) / 360,
        Fraction(other.shift),
        Fraction(helix, 360),
        "left",
        thinning_mm=Fraction(other.thinning),
    )
    pair = Pair(one.ours, mate)
    if centres:
        pair = Pair(one.ours, mate, Fraction(pair.tight_centres_mm) + Fraction(centres))
    outsides = float(pair.first.outside_diameter_mm) / 2, float(pair.second.outside_diameter_mm) / 2
    rocked = play(one.rolled, other.rolled, outsides, pair.working_centres_mm)
    along = rocked * pair.working_diameter_mm(mate) / 2
    assert pair.backlash_mm == pytest.approx(along, abs=2e-6 * float(first.module))
