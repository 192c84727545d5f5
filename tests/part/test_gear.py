"""A gear's sizes, what it refuses, and the laws that hold for any gear."""

from fractions import Fraction
from itertools import pairwise
from math import cos, degrees, pi, radians, sin, tan

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from crankwise.errors import FaultsFound
from crankwise.part.chordal import chord, thickness_from_chord
from crankwise.part.depth import cuts, cutting_depth_mm, infeed_left_mm
from crankwise.part.gear import Gear, part_of
from crankwise.part.gear_system import GEAR_SYSTEMS, STUB
from crankwise.part.helical import helix_error_mm, lead_mm
from crankwise.part.involute import inverse_involute, involute
from crankwise.part.over_pins import best_pin_mm, over_pins, pin_limits_mm, thickness_from_pins
from crankwise.part.span import best_span, span, thickness_from_span

ONE = Fraction(1)


def degree(angle: int | str) -> Fraction:
    return Fraction(angle) / 360


@st.composite
def gears(draw: st.DrawFn) -> Gear:
    system = GEAR_SYSTEMS[draw(st.sampled_from(sorted(GEAR_SYSTEMS)))]
    try:
        return Gear(
            draw(st.integers(12, 400)),
            draw(st.fractions(Fraction(1, 4), 12, max_denominator=64)),
            degree(draw(st.sampled_from(["14.5", "20", "25"]))),
            draw(st.fractions(Fraction(-1, 4), Fraction(1, 2), max_denominator=20)),
            degree(draw(st.integers(0, 45))),
            is_transverse=draw(st.booleans()),
            system=system,
        )
    except FaultsFound:
        assume(False)
        raise


def test_a_spur_gear_is_exact_where_it_is_rational() -> None:
    gear = Gear(127, ONE, shift=Fraction(1, 10))
    assert gear.outside_diameter_mm == Fraction("129.2")
    assert gear.root_diameter_mm == Fraction("124.7")
    assert isinstance(gear.outside_diameter_mm, Fraction)
    assert gear.whole_depth_mm == Fraction("2.25")
    assert len(part_of(gear).divisions) == 127
    assert part_of(gear).rim_mm == 127


def test_all_faults_are_told_at_once() -> None:
    with pytest.raises(FaultsFound) as caught:
        Gear(3, -ONE, degree(60), Fraction(3), degree(90))
    assert [fault.place for fault in caught.value.faults] == [
        "teeth",
        "module",
        "pressure angle",
        "shift",
        "helix",
    ]


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"shift": Fraction(6, 5)}, "run to a point"),
        ({"helix": degree(-20)}, "hand as right or left"),
        ({"thinning_mm": Fraction(2)}, "0 to half a module"),
        ({"module_mm": Fraction(200)}, "from 0.05 to 100 mm"),
        ({"teeth": 10**7}, "at most 1,000,000"),
    ],
)
def test_what_cannot_be_a_gear_is_refused(change: dict[str, Fraction], said: str) -> None:
    with pytest.raises(FaultsFound, match=said):
        Gear(**({"teeth": 12, "module_mm": ONE} | change))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("angle", "system", "least"), [("20", "full-depth", 18), ("14.5", "full-depth", 32), ("20", "stub", 14)]
)
def test_the_least_teeth_without_undercut(angle: str, system: str, least: int) -> None:
    for teeth in (least - 1, least):
        gear = Gear(teeth, ONE, degree(angle), system=GEAR_SYSTEMS[system])
        assert gear.least_teeth_without_undercut == least
        assert gear.is_undercut == (teeth < least)


def test_the_shift_that_cures_undercut_does_cure_it() -> None:
    gear = Gear(10, ONE)
    assert gear.is_undercut
    cured = Gear(10, ONE, shift=Fraction(gear.least_shift_without_undercut) + Fraction(1, 10**9))
    assert not cured.is_undercut


@given(st.floats(1e-9, 1.5))
def test_the_inverse_involute_undoes_the_involute(angle: float) -> None:
    value = involute(angle)
    assert inverse_involute(value) == pytest.approx(angle, rel=1e-9, abs=1e-5)
    assert involute(inverse_involute(value)) == pytest.approx(value, rel=1e-12, abs=1e-16)


@given(gears(), st.floats(-0.2, 0.2))
def test_a_reading_gives_back_the_tooth_that_it_came_from(gear: Gear, thicker: float) -> None:
    """Measure a gear whose teeth are thicker by a shift, with the formulas of the plain one."""
    scale = float(gear.normal_module_mm)
    more = Fraction(thicker).limit_denominator(1000)
    try:
        other = Gear(
            gear.teeth,
            gear.module_mm,
            gear.pressure_angle,
            gear.shift + more,
            gear.helix,
            is_transverse=gear.is_transverse,
            system=gear.system,
        )
    except FaultsFound:
        assume(False)
        raise
    best = best_span(gear)
    assume(best is not None)
    assert best is not None
    read = span(other, best.teeth).length_mm
    assert thickness_from_span(gear, best.teeth, read) == pytest.approx(
        other.tooth_thickness_mm, abs=1e-9 * scale
    )
    pin = Fraction(best_pin_mm(gear))
    pins = over_pins(other, pin)
    if pins is not None and pins.centre_mm > gear.base_diameter_mm:
        back = thickness_from_pins(gear, pin, pins.over_mm)
        assert back == pytest.approx(other.tooth_thickness_mm, abs=1e-8 * scale)
    by_chord = thickness_from_chord(gear, chord(other).thickness_mm)
    assert by_chord == pytest.approx(other.tooth_thickness_mm, abs=1e-9 * scale)
    deeper = infeed_left_mm(gear, other.tooth_thickness_mm)
    assert deeper == pytest.approx(float(other.shift_mm - gear.shift_mm), abs=1e-9 * scale)


@given(gears())
def test_the_best_pin_touches_the_middle_of_the_flank(gear: Gear) -> None:
    middle = float(gear.pitch_diameter_mm + 2 * gear.shift_mm)
    assume(gear.base_diameter_mm < middle < float(gear.outside_diameter_mm))
    pins = over_pins(gear, Fraction(best_pin_mm(gear)))
    assert pins is not None
    assert pins.contact_mm == pytest.approx(middle, rel=1e-9)
    least, most = pin_limits_mm(gear)
    assert least <= best_pin_mm(gear) <= most


def test_pins_that_cannot_be_used_say_why() -> None:
    gear = Gear(20, ONE)
    troubles = {}
    for pin in ("0.3", "0.8", "1.3", "1.728", "3", "3.6"):
        pins = over_pins(gear, Fraction(pin))
        troubles[pin] = pins.trouble if pins else "deep"
    assert troubles == {"0.3": "deep", "0.8": "deep", "1.3": "sunk", "1.728": "", "3": "", "3.6": "high"}


def test_a_small_blank_is_cut_less_deep() -> None:
    gear = Gear(127, ONE)
    assert cutting_depth_mm(gear, Fraction("128.9")) == Fraction("2.2")
    assert cutting_depth_mm(gear, Fraction("129.1")) == Fraction("2.3")


def test_thinning_goes_deeper_by_what_the_flank_leans() -> None:
    gear = Gear(40, ONE, thinning_mm=Fraction(1, 10))
    assert float(cutting_depth_mm(gear)) == pytest.approx(2.25 + 0.1 / (2 * tan(radians(20))))
    assert gear.tooth_thickness_mm == pytest.approx(pi / 2 - 0.1)


def test_a_chord_read_over_asks_for_the_infeed_of_the_trade() -> None:
    """You read 0.12 over: go 0.16 deeper. Over a span of the same gear the same 0.12 asks for 0.175."""
    gear = Gear(60, Fraction(2))
    read = thickness_from_chord(gear, chord(gear).thickness_mm + 0.12)
    assert read is not None
    assert round(infeed_left_mm(gear, read), 2) == 0.16
    best = best_span(gear)
    assert best is not None
    read = thickness_from_span(gear, best.teeth, best.length_mm + 0.12)
    assert infeed_left_mm(gear, read) == pytest.approx(0.12 / (2 * sin(radians(20))))


@given(
    st.fractions(Fraction(1, 20), 30, max_denominator=100),
    st.fractions(Fraction(1, 20), 10, max_denominator=100),
    st.fractions(Fraction(1, 4), 3, max_denominator=100),
)
def test_passes_rise_to_the_depth_and_none_is_deeper_than_allowed(
    depth: Fraction, module: Fraction, deepest: Fraction
) -> None:
    passes = cuts(depth, module, deepest)
    depths = [Fraction(0), *(cut.depth_mm for cut in passes)]
    assert depths[-1] == depth
    assert [cut.name for cut in passes] == ["rough"] * (len(passes) - 1) + ["finish"]
    steps = [after - before for before, after in pairwise(depths)]
    assert all(0 < step <= deepest or step <= Fraction(3, 10) for step in steps)
    assert steps[-1] <= Fraction(3, 10)


def test_a_tilted_section_has_the_lead_and_error_of_the_unrolled_cylinder() -> None:
    gear = Gear(30, Fraction(2), helix=degree(30))
    pitch = 60 / cos(radians(30))
    assert gear.pitch_diameter_mm == pytest.approx(pitch)
    assert lead_mm(gear) == pytest.approx(pi * pitch / tan(radians(30)))
    assert helix_error_mm(gear, lead_mm(gear), 20) == pytest.approx(0, abs=1e-12)
    # A lead 1 % short winds 1 % more in a face: tan 30 x 20 mm is the winding.
    assert helix_error_mm(gear, lead_mm(gear) / 1.01, 20) == pytest.approx(0.01 * 20 * tan(radians(30)))
    assert degrees(gear.transverse_pressure_angle) == pytest.approx(22.7959, abs=1e-4)


def test_stub_teeth_are_shorter() -> None:
    assert Gear(20, ONE, system=STUB).outside_diameter_mm == Fraction("21.6")
    assert Gear(20, ONE, system=STUB).whole_depth_mm == Fraction("1.8")


@pytest.mark.parametrize("angle", ["14.5", "20", "25", "10", "30"])
def test_every_count_can_be_measured_somehow(angle: str) -> None:
    for teeth in [*range(5, 60), 127, 400, 1000]:
        gear = Gear(teeth, ONE, degree(angle))
        pins = over_pins(gear, Fraction(best_pin_mm(gear)))
        assert best_span(gear) or (pins and pins.is_usable), teeth
