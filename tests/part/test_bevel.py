"""A form-cut bevel gear: its cones, and its two finishing cuts carried out with plain rotations."""

from fractions import Fraction
from math import atan, degrees, pi, sin

import pytest

from crankwise.errors import FaultsFound
from crankwise.part.bevel import BevelGear, finishing_cut, part_of_bevel

ONE = Fraction(1)


def bevel(teeth: int = 24, mate: int = 36, face: int | str = 14, shafts: int = 90) -> BevelGear:
    return BevelGear(teeth, mate, Fraction(2), Fraction(face), shaft_angle=Fraction(shafts, 360))


def test_the_two_pitch_cones_fill_the_shaft_angle() -> None:
    for shafts in (60, 90, 120):
        one, other = bevel(24, 36, shafts=shafts), bevel(36, 24, shafts=shafts)
        assert degrees(one.pitch_angle + other.pitch_angle) == pytest.approx(shafts)
        assert one.cone_distance_mm == pytest.approx(other.cone_distance_mm)


def test_a_mitre_gear() -> None:
    gear = bevel(20, 20, 8)
    assert degrees(gear.pitch_angle) == pytest.approx(45)
    assert gear.cone_distance_mm == pytest.approx(20 * 2**0.5)
    assert gear.outside_diameter_mm == pytest.approx(40 + 4 / 2**0.5)
    assert gear.virtual_teeth == pytest.approx(20 * 2**0.5)
    assert degrees(gear.root_angle) == pytest.approx(45 - degrees(atan(2.5 / (20 * 2**0.5))))
    assert len(part_of_bevel(gear).divisions) == 20
    assert part_of_bevel(gear).rim_mm == 40


@pytest.mark.parametrize(("teeth", "mate", "form"), [(24, 36, 26), (20, 20, 26), (40, 20, 55), (60, 30, 135)])
@pytest.mark.parametrize("width", [None, "2.1", "1.9"])
def test_the_finishing_cuts_pass_the_pitch_points_at_both_ends(
    teeth: int, mate: int, form: int, width: str | None
) -> None:
    """Turn the blank by the roll, stand the cutter at the offset, and look where its side meets the pitch circles.

    In the plane of each pitch circle, seen along the axis, a point at an angle off the top stands sideways by
    radius x sin(angle). The true half of a space there is a quarter of the pitch.
    """
    gear = bevel(teeth, mate, 10)
    cut = finishing_cut(gear, form, Fraction(width) if width else None)
    ends = ((1.0, cut.cutter_mm), (gear.small_to_large, cut.cutter_small_mm))
    for part, wide in ends:
        radius = float(gear.pitch_diameter_mm) / 2 * part
        side = cut.offset_mm - wide / 2  # the trimmed side, sideways from the axis
        trimmed = cut.roll * 2 * pi - _angle_of(side, radius)  # from the middle of the space
        assert trimmed == pytest.approx(pi / (2 * teeth), rel=0.01)


def _angle_of(sideways: float, radius: float) -> float:
    low, high = -pi / 2, pi / 2
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if radius * sin(middle) < sideways else (low, middle)
    return low


def test_a_rack_shaped_cutter_gives_the_handbooks_rule() -> None:
    """Half the cutter less a factor: for a straight flank, dedendum x tan(pressure angle)."""
    gear = BevelGear(120, 120, Fraction(2), Fraction(40))
    cut = finishing_cut(gear, 100_000)
    factor = cut.cutter_mm / 2 - cut.offset_mm
    assert factor == pytest.approx(2.5 * 0.36397, rel=1e-3)


def test_the_default_cutter_just_passes_the_small_end() -> None:
    gear = bevel()
    cut = finishing_cut(gear, 26)
    assert cut.cutter_small_mm == pytest.approx(gear.widest_cutter_mm)
    assert cut.cutter_small_mm < cut.cutter_mm < pi
    assert 0 < cut.roll < Fraction(1, 48)


@pytest.mark.parametrize(
    ("made", "said"),
    [
        ({"face": 30}, "over half of the cone distance"),
        ({"shafts": 5}, "bevel shafts meet at 10 to 170 degrees"),
        ({"mate": 2}, "5 teeth or more"),
        ({"face": -1}, "length of the teeth is above 0"),
        ({"teeth": 80, "mate": 20, "shafts": 160}, "internal or a flat crown gear"),
    ],
)
def test_what_cannot_be_a_bevel_gear_is_refused(made: dict[str, int], said: str) -> None:
    with pytest.raises(FaultsFound, match=said):
        bevel(**made)
