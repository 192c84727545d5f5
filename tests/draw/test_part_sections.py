"""Bevel gears, worm wheels and clock pinions as drawn, against plane geometry done by shapely."""

from fractions import Fraction
from math import atan2, cos, hypot, pi, radians, sin, tan

import pytest
from shapely import LineString, Point, Polygon
from shapely.affinity import rotate, translate

from crankwise.draw.part_bevel import bevel_drawing
from crankwise.draw.part_drawing import PartDrawing
from crankwise.draw.part_pinion import clock_pinion_drawing
from crankwise.draw.part_wheels import clock_wheel_drawing
from crankwise.draw.part_worm_wheel import worm_wheel_drawing
from crankwise.part.bevel import BevelGear
from crankwise.part.clock_pinion import ClockPinion
from crankwise.part.clock_wheel import ClockWheel
from crankwise.part.gear import Gear
from crankwise.part.worm_wheel import WormWheel

CHORD = 0.0002
# 24 to 32 teeth at right angles: the pitch cone's tangent is 3 / 4, its cosine 4 / 5; there are 30 virtual teeth.
BEVEL = BevelGear(24, 32, Fraction(2), Fraction(10))
WORM_WHEEL = WormWheel(40, Fraction(3, 2), Fraction(20))


def bodies(drawn: PartDrawing) -> list[Polygon]:
    """Every outline of the work: the face first, then the section."""
    shapes = [Polygon(path.points) for path in drawn.paths if path.layer == "body"]
    assert all(shape.is_valid for shape in shapes)
    return shapes


def chord_at(shape: Polygon, radius: float) -> float:
    """Thickness of one tooth along a circle, all teeth being alike: the length of the circle in the work."""
    return Point(0, 0).buffer(radius, quad_segs=20_000).exterior.intersection(shape).length


def test_a_bevel_gears_teeth_are_the_virtual_gears_on_the_back_cone() -> None:
    face, _ = bodies(bevel_drawing(BEVEL, CHORD))
    virtual = Gear(30, Fraction(2))
    for diameter in (58.0, 60.0, 62.0, 63.5):
        # On the back cone the same thickness lies round a smaller circle: 24 teeth of it instead of 30.
        there = virtual.thickness_at(diameter)
        assert chord_at(face, diameter / 2 * 0.8) / 24 == pytest.approx(there, abs=5e-4)
    assert max(hypot(x, y) for x, y in face.exterior.coords) == pytest.approx(24 + 2 * 0.8, abs=1e-9)
    assert min(hypot(x, y) for x, y in face.exterior.coords) == pytest.approx(24 - 2.5 * 0.8, abs=CHORD)


def test_a_bevel_gears_section_has_its_cones_its_face_and_its_depths() -> None:
    drawn = bevel_drawing(BEVEL, CHORD)
    _, section = bodies(drawn)
    corners = [point for point in section.exterior.coords if point[1] > 0]
    apex_x = next(
        path.points[0][0] for path in drawn.paths if path.points[0][1] == 0 < path.points[1][1] - 20
    )
    cone = 24 / 0.6  # pitch radius over the sine of the pitch cone

    def of_cone(angle: float, along: float) -> Point:
        return Point(apex_x + along * cos(angle), along * sin(angle))

    pitch = atan2(3, 4)
    tip, root = (atan2(height, cone) for height in (2.0, 2.5))
    boundary = section.exterior
    for along in (cone, cone - 10):
        share = along / cone
        assert boundary.distance(of_cone(pitch + tip, hypot(along, 2.0 * share))) < 1e-9
        assert boundary.distance(of_cone(pitch, along)) < 1e-9
        assert boundary.distance(of_cone(pitch - root, hypot(along, 2.5 * share))) < 1e-9
    assert not section.contains(of_cone(pitch + tip + 1e-6, cone - 5))
    assert section.contains(of_cone(pitch + tip - 1e-4, cone - 5))
    assert max(y for _, y in corners) == pytest.approx(25.6)
    assert "4.500 mm (0.1772 in) deep at the large end and 3.375 mm" in " ".join(drawn.notes)


@pytest.mark.parametrize(("teeth", "mate"), [(12, 60), (5, 5), (60, 15), (200, 40)])
def test_every_bevel_gear_is_drawn(teeth: int, mate: int) -> None:
    gear = BevelGear(teeth, mate, Fraction(1), Fraction(1))
    face, section = bodies(bevel_drawing(gear, 0.001, teeth - 1))
    assert face.bounds[2] < section.bounds[0]
    assert section.bounds[3] == pytest.approx(gear.outside_diameter_mm / 2)


def test_a_bevel_gear_of_very_many_teeth_is_drawn_as_its_circles() -> None:
    gear = BevelGear(2001, 2001, Fraction(1), Fraction(100))
    drawn = bevel_drawing(gear, 0.1)
    (section,) = bodies(drawn)
    (outside,) = (circle.radius_mm for circle in drawn.circles if circle.layer == "body")
    assert outside == pytest.approx(gear.outside_diameter_mm / 2) == pytest.approx(section.bounds[3])


def test_the_gashes_are_as_wide_and_deep_as_told_and_leave_the_hob_its_flanks() -> None:
    drawn = worm_wheel_drawing(WORM_WHEEL, CHORD)
    wheel, _ = bodies(drawn)
    throat, bottom = 31.5, 31.5 - 0.9 * 2.2 * 1.5
    assert max(hypot(x, y) for x, y in wheel.exterior.coords) == pytest.approx(throat, abs=1e-9)
    across = LineString([(-2, bottom + 0.5), (2, bottom + 0.5)]).difference(wheel).length
    lead = atan2(1.5, 20)
    below = 0.9 * 3.3 - 1.5
    assert across * cos(lead) == pytest.approx((1.5 * pi / 2 - 2 * below * tan(radians(20))) * cos(lead))
    assert not wheel.contains(Point(0, bottom + 1e-6))
    assert wheel.contains(Point(0, bottom - 1e-6))
    hobbed = next(
        Polygon(path.points) for path in drawn.paths if len(path.points) > 500 and path.layer == "reference"
    )
    assert hobbed.difference(wheel.buffer(2 * CHORD)).area == 0
    assert hobbed.area < 0.99 * wheel.area


def test_a_worm_wheels_rim_is_hollow_round_the_worm() -> None:
    _, rim = bodies(worm_wheel_drawing(WORM_WHEEL, CHORD))
    middle = (rim.bounds[0] + rim.bounds[2]) / 2
    worm = Point(middle, 40).buffer(10 - 1.5, quad_segs=5000)
    assert rim.intersection(worm).area < 1e-3
    assert rim.distance(Point(middle, 40)) == pytest.approx(8.5, abs=CHORD)
    assert rim.bounds[3] == pytest.approx(63 / 2 + 0.75)
    assert rim.bounds[2] - rim.bounds[0] == pytest.approx(WORM_WHEEL.face_mm)


def test_a_worm_wheel_of_very_many_teeth_is_drawn_as_its_circles() -> None:
    drawn = worm_wheel_drawing(WormWheel(1001, Fraction(1), Fraction(20)), 0.1)
    assert [circle.radius_mm for circle in drawn.circles if circle.layer == "body"] == [501.5, 501.5 - 1.98]
    assert "More than 1,000 gashes" in " ".join(drawn.notes)


@pytest.mark.parametrize(("leaves", "thick"), [(6, 1.05), (8, 1.05), (10, 1.05), (12, 1.25), (20, 1.25)])
def test_leaves_are_as_thick_and_high_as_told(leaves: int, thick: float) -> None:
    pinion = ClockPinion(ClockWheel(60, leaves, Fraction(1)))
    (shape,) = bodies(clock_pinion_drawing(pinion, CHORD))
    assert chord_at(shape, leaves / 2 - 1e-4) / leaves == pytest.approx(thick, abs=1e-3)
    assert max(hypot(x, y) for x, y in shape.exterior.coords) * 2 == pytest.approx(
        float(pinion.outside_diameter_mm)
    )
    # The flank is radial: a leaf takes up the same angle half way down.
    inside = (leaves / 2 + pinion.root_diameter_mm / 2) / 2
    assert chord_at(shape, inside) / inside == pytest.approx(
        chord_at(shape, leaves / 2 - 1e-4) / (leaves / 2), rel=1e-3
    )


@pytest.mark.parametrize(("teeth", "leaves"), [(60, 6), (60, 8), (75, 10), (96, 12)])
def test_wheel_and_pinion_turn_through_one_another_without_touching_where_they_should_not(
    teeth: int, leaves: int
) -> None:
    """Both are turned by their ratio, a leaf amid a space: there is play on either side, and never an overlap."""
    pair = ClockWheel(teeth, leaves, Fraction(1))
    (wheel,) = bodies(clock_wheel_drawing(pair, CHORD))
    (pinion,) = bodies(clock_pinion_drawing(ClockPinion(pair), CHORD))
    centres = (teeth + leaves) / 2
    for step in range(-20, 21):
        share = step / 20  # of a pitch, either way from the line of centres
        turned_wheel = rotate(wheel, -360 / teeth * share, origin=(0, 0))
        # The wheel has a space at the top; the pinion above it shows it a leaf.
        turned_pinion = rotate(pinion, 180 + 180 / leaves + 360 / leaves * share, origin=(0, 0))
        above = translate(turned_pinion, 0, centres)
        assert turned_wheel.intersection(above).area < 1e-6, share
