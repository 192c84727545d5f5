"""Parts of every kind, as drawn, against their sizes and against plane geometry done by shapely."""

from math import atan2, cos, pi, radians, sin, sqrt

import pytest
from shapely import LineString, Point, Polygon
from shapely.affinity import rotate

from crankwise.draw.part_drawing import PartDrawing, Tool
from crankwise.draw.part_kinds import part_drawing
from crankwise.part.part import Part
from crankwise.part.rack import Rack
from crankwise.tasks.part_kinds import made_of
from crankwise.tasks.picture import drawing_of
from tests.draw.drawings import EVERY_KIND, body, drawing, farthest, made

CHORD = 0.0005  # a curve is drawn by straight pieces that leave it by half a micrometre at most


def turns_clockwise(point: tuple[float, float]) -> float:
    return atan2(point[0], point[1]) / (2 * pi) % 1


def tool(drawn: PartDrawing) -> Tool:
    assert drawn.tool is not None
    return drawn.tool


@pytest.mark.parametrize("name", EVERY_KIND)
def test_every_position_has_its_tool_and_the_label_says_so(name: str) -> None:
    numbers = made(name).part.divisions.numbers
    assert drawing(name).tool is None
    tips = []
    for position in (numbers[0], numbers[1], numbers[-1]):
        drawn = drawing(name, position)
        assert f" {position} is under the tool" in drawn.label
        x, y = tool(drawn).comes_from
        assert x * x + y * y == pytest.approx(1)
        tips.append(tool(drawn).tip)
    assert len(set(tips)) == 3


@pytest.mark.parametrize(
    ("name", "count"),
    [
        ("spur", 127),
        ("helical", 30),
        ("ratchet", 24),
        ("splines", 6),
        ("sprocket", 13),
        ("clock wheel", 60),
        ("clock pinion", 8),
    ],
)
def test_a_wheel_is_the_same_after_each_division(name: str, count: int) -> None:
    wheel = body(drawing(name))
    turned = rotate(wheel, -360 / count, origin=(0, 0))
    assert wheel.symmetric_difference(turned).area < 1e-6 * wheel.area
    assert wheel.symmetric_difference(rotate(wheel, -180 / count, origin=(0, 0))).area > 1e-3 * wheel.area


@pytest.mark.parametrize(
    "name", ["spur", "ratchet", "splines", "sprocket", "clock wheel", "clock pinion", "hexagon", "holes"]
)
def test_the_tool_stands_where_it_cuts_and_comes_from_outside_the_work(name: str) -> None:
    drawn = drawing(name, 1)
    tip, comes_from = Point(tool(drawn).tip), tool(drawn).comes_from
    if name == "holes":
        hole = next(circle for circle in drawn.circles if circle.layer == "cut" and circle.position == 1)
        assert tip.distance(Point(hole.middle)) < 1e-9
        return
    wheel = body(drawn)
    assert wheel.exterior.distance(tip) < 0.06  # a sprocket's seat is drawn in the middle of its limits
    outside = Point(tip.x + 0.4 * comes_from[0], tip.y + 0.4 * comes_from[1])
    assert not wheel.contains(outside)


def test_a_gear_is_as_large_as_its_card_says() -> None:
    gear = body(drawing("spur"))
    assert farthest(gear) == pytest.approx(129 / 2, abs=1e-6)
    assert gear.exterior.distance(Point(0, 0)) == pytest.approx((127 - 2.5) / 2, abs=CHORD)


def test_a_hexagon_is_17_across_flats_and_its_corners_are_where_a_handbook_has_them() -> None:
    hexagon = body(drawing("hexagon"))
    left, low, right, high = hexagon.bounds
    assert high - low == pytest.approx(17, abs=1e-6)
    assert right - left == pytest.approx(17 * 1.154700538, abs=1e-6)
    assert hexagon.area == pytest.approx(17 * 17 * sqrt(3) / 2, rel=1e-6)


def test_unequal_flats_leave_the_heights_that_were_typed() -> None:
    bar = body(drawing("unequal flats"))
    for angle, height in ((0, 8), (90, 7), (200, 8.5)):
        faces = sin(radians(angle)), cos(radians(angle))
        assert max(x * faces[0] + y * faces[1] for x, y in bar.exterior.coords) == pytest.approx(
            height, abs=1e-9
        )
    whole = Point(0, 0).buffer(10, quad_segs=2000)
    assert whole.contains(bar.buffer(-1e-3))


def test_holes_have_their_size_and_the_chords_that_callipers_read() -> None:
    holes = [circle for circle in drawing("holes").circles if circle.layer == "cut"]
    inner = [hole for hole in holes if Point(hole.middle).distance(Point(0, 0)) < 31]
    assert [hole.radius_mm for hole in inner] == [3.0] * 7
    chords = [Point(inner[k - 1].middle).distance(Point(inner[k].middle)) for k in range(7)]
    assert chords == pytest.approx([60 * 0.433883739] * 7, abs=1e-6)
    assert len(holes) == 19


def test_keys_are_as_wide_as_told_from_the_floor_to_the_top() -> None:
    shaft = body(drawing("splines"))
    for height in (11.6, 12.5, 13.6):
        across = shaft.intersection(LineString([(-5, height), (5, height)]))
        assert across.length == pytest.approx(6, abs=1e-9)
    assert farthest(shaft) == pytest.approx(14, abs=1e-6)
    assert shaft.exterior.distance(Point(0, 0)) == pytest.approx(11.5, abs=1e-3)


def test_a_ratchet_holds_one_way_and_slides_the_other() -> None:
    """Turned the way it is free, the tip of a pawl that lay against a face comes into the open."""
    wheel = body(drawing("ratchet"))
    pawl = Point(tool(drawing("ratchet", 0)).tip)
    free, held = rotate(wheel, 0.5, origin=(0, 0)), rotate(wheel, -0.5, origin=(0, 0))
    above = Point(pawl.x + 0.05, pawl.y + 0.5)
    assert not wheel.contains(above)
    assert not free.contains(above)
    assert held.contains(above)


def test_a_roller_seats_in_every_gap_of_a_sprocket() -> None:
    wheel = body(drawing("sprocket"))
    pitch = 12.7 / sin(pi / 13) / 2
    for gap in range(13):
        angle = 2 * pi * gap / 13
        roller = Point(pitch * sin(angle), pitch * cos(angle)).buffer(8.51 / 2, quad_segs=500)
        assert not wheel.buffer(-2 * CHORD).intersects(roller)
        assert wheel.exterior.distance(roller.exterior) < 0.001


def test_a_clock_wheel_is_half_tooth_half_space_on_its_pitch_circle() -> None:
    wheel = body(drawing("clock wheel"))
    circle = Point(0, 0).buffer(30, quad_segs=20_000).exterior
    assert circle.intersection(wheel).length == pytest.approx(circle.length / 2, rel=1e-4)


def test_a_rack_has_its_pitch_and_its_slope() -> None:
    from fractions import Fraction

    from crankwise.part.divisions import EqualDivisions

    drawn = part_drawing(Rack(5, Fraction(2)), Part(EqualDivisions(5)), 0.001, 3)
    rack = Polygon(drawn.paths[0].points)
    line = rack.intersection(LineString([(-50, -2), (50, -2)]))
    assert line.length == pytest.approx(5 * pi, abs=1e-9)  # half of five pitches of 2 pi
    assert tool(drawn).tip == pytest.approx((3 * 2 * pi, -4.5))
    assert not rack.contains(Point(3 * 2 * pi, -4.4))


def test_the_lines_of_a_list_stand_at_its_angles() -> None:
    lines = [path for path in drawing("list").paths if path.layer == "cut"]
    assert [turns_clockwise(line.points[0]) * 360 for line in lines] == pytest.approx([0, 12.5, 90])


@pytest.mark.parametrize(
    ("kind", "typed", "size"),
    [
        ("spur", {"teeth": "63", "dp": "24"}, "DP 24"),
        ("spur", {"teeth": "63", "module": "1.25"}, "module 1.25"),
        ("bevel", {"teeth": "24", "dp": "10", "mate": "36", "face": "3/4in"}, "DP 10"),
        ("worm-wheel", {"teeth": "40", "pitch": "1/8in", "worm": "5/8in"}, "pitch 3.175 mm (0.1250 in)"),
        ("rack", {"teeth": "4", "pitch": "3mm"}, "pitch 3.000 mm (0.1181 in)"),
        ("rack", {"teeth": "4", "module": "22/7"}, "module 3.1429"),
        ("clock-wheel", {"teeth": "60", "pinion": "8", "dp": "48"}, "DP 48, for"),
        ("clock-wheel", {"teeth": "60", "pinion": "8", "dp": "48", "which": "2"}, "DP 48, for"),
    ],
)
def test_a_tooth_is_called_by_a_size_that_can_be_read(kind: str, typed: dict[str, str], size: str) -> None:
    assert f", {size}" in drawing_of(made_of(kind, typed), 0.01).name
