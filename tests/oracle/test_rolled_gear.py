"""The tooth that is drawn is the tooth that a rolling rack leaves: its area, and its thickness from root to tip."""

from fractions import Fraction
from math import cos, pi, radians, sin

import pytest
from shapely import LineString, Polygon

from crankwise.part.gear import Gear
from crankwise.part.gear_system import GEAR_SYSTEMS
from crankwise.part.tooth_form import tooth_form
from tests.oracle.rolled_gear import arc_inside, half_tooth

NEAR = 0.001  # mm at module 1: a micrometre
FINE = 1e-5

# teeth, pressure angle, shift, thinning, system, the rack's dedendum and the rounding of its corner as printed
GEARS = [
    (18, "20", "0", "0", "full-depth", 1.25, 0.38),  # ISO 53, profile A: 1.25 and 0.38 modules
    (127, "20", "0", "0", "full-depth", 1.25, 0.38),
    (40, "20", "0.3", "0", "full-depth", 1.25, 0.38),
    (12, "20", "0", "0", "full-depth", 1.25, 0.38),  # undercut
    (8, "20", "0", "0", "full-depth", 1.25, 0.38),  # deeply undercut
    (8, "20", "0.5", "0", "full-depth", 1.25, 0.38),
    (30, "20", "0", "0.1", "full-depth", 1.25, 0.38),
    (24, "14.5", "0", "0", "inch", 1.157, 0.2095),  # the largest corner that leaves the straight side whole
    (12, "14.5", "0", "0", "inch", 1.157, 0.2095),  # undercut
]


@pytest.mark.parametrize(("teeth", "angle", "shift", "thinning", "system", "dedendum", "rounding"), GEARS)
def test_the_drawn_tooth_is_what_a_rolling_rack_leaves(
    teeth: int, angle: str, shift: str, thinning: str, system: str, dedendum: float, rounding: float
) -> None:
    gear = Gear(
        teeth,
        Fraction(1),
        Fraction(angle) / 360,
        Fraction(shift),
        thinning_mm=Fraction(thinning),
        system=GEAR_SYSTEMS[system],
    )
    outside = float(gear.outside_diameter_mm) / 2
    infeed = float(gear.thinning_infeed_mm)
    cut = half_tooth(teeth, radians(float(angle)), float(shift) - infeed, dedendum, rounding, outside)
    # Our outline has a space at the top; half a pitch back stands a tooth.
    outline = Polygon(tooth_form(gear, FINE).outline())
    assert outline.is_valid
    half_pitch = pi / teeth
    whole = 2 * teeth * cut.area
    assert outline.area == pytest.approx(whole, abs=NEAR * outside)
    drawn = Polygon([(0, 0), *half_of_ours(gear), (0, outside)])
    assert drawn.symmetric_difference(cut).area < NEAR * 2.25
    root = float(gear.root_diameter_mm) / 2
    for part in (0.06, 0.2, 0.45, 0.7, 0.95):
        radius = root + part * (outside - root)
        ours, theirs = (arc_inside(shape, radius, half_pitch) for shape in (drawn, cut))
        assert 2 * ours == pytest.approx(2 * theirs, abs=NEAR)
        assert 0 < ours < radius * half_pitch


def half_of_ours(gear: Gear, chord_mm: float = FINE) -> list[tuple[float, float]]:
    """The right half of a tooth that stands upright, from the middle of the space on its right."""
    form = tooth_form(gear, chord_mm).points
    half_pitch = pi / gear.teeth
    return [(r * sin(half_pitch - angle), r * cos(half_pitch - angle)) for r, angle in form]


def test_the_fineness_is_what_was_asked() -> None:
    gear = Gear(25, Fraction(1))
    exact = LineString(half_of_ours(gear, 1e-6))
    for chord in (1e-2, 1e-3, 1e-4):
        drawn = LineString(half_of_ours(gear, chord))
        assert drawn.hausdorff_distance(exact) < 1.5 * chord
    assert len(half_of_ours(gear, 1e-2)) < len(half_of_ours(gear, 1e-4)) / 3
