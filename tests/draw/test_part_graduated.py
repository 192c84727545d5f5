"""Graduated work as drawn: where each line stands, how long it is, which way the numerals run and stand."""

from fractions import Fraction
from itertools import pairwise
from math import atan2, cos, dist, hypot, pi, sin

import pytest

from crankwise.draw.part_drawing import PartDrawing, Path
from crankwise.draw.part_figures import STROKE_SHARE, figure_strokes
from crankwise.part.numerals import Lettering
from crankwise.tasks.part_kinds import made_of
from crankwise.tasks.picture import drawing_of
from tests.draw.drawings import SCREW_DIAL, TIDE_RING, drawing


def graduated(**typed: str) -> PartDrawing:
    return drawing_of(made_of("graduated", typed), 0.001)


def lines(drawn: PartDrawing) -> list[Path]:
    return [path for path in drawn.paths if path.layer == "cut"]


def clockwise(point: tuple[float, float]) -> float:
    return atan2(point[0], point[1]) / (2 * pi) % 1


def ink(drawn: PartDrawing, position: int) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of a position's numeral, its strokes' width with it."""
    strokes = [path for path in drawn.paths if path.layer == "numeral" and path.position == position]
    half = strokes[0].width_mm / 2
    across = [x for path in strokes for x, _ in path.points]
    up = [y for path in strokes for _, y in path.points]
    return min(across) - half, min(up) - half, max(across) + half, max(up) + half


def test_the_149_lines_of_the_tide_ring_stand_where_149_parts_are() -> None:
    drawn = lines(drawing("tide ring"))
    turns = [clockwise(line.points[0]) for line in drawn]
    assert turns == pytest.approx([position / 149 for position in range(149)], abs=1e-12) or turns == (
        pytest.approx([-position / 149 % 1 for position in range(149)], abs=1e-12)
    )
    for line in drawn:
        assert hypot(*line.points[0]) == pytest.approx(75, abs=1e-9)
        long = 6.5 if line.position % 12 == 0 else 4.5 if line.position % 6 == 0 else 3.0  # type: ignore[operator]
        assert dist(*line.points) == pytest.approx(long, abs=1e-9)


@pytest.mark.parametrize(
    ("turns", "faces", "work_turns", "way"),
    [
        ("clockwise", "front", "", "anticlockwise"),
        ("anticlockwise", "front", "", "clockwise"),
        ("clockwise", "rear", "", "clockwise"),
        # The work turns the way that meets the numbers falling: the positions are numbered the other way.
        ("clockwise", "front", "anticlockwise", "clockwise"),
    ],
)
def test_the_numbers_run_the_way_that_the_test_of_the_handle_gives(
    turns: str, faces: str, work_turns: str, way: str
) -> None:
    """A scale that turns clockwise under a fixed line, its reading growing, is numbered anticlockwise."""
    typed = {"lines": "100", "on": "ring", "across": "60mm", "turns": turns, "faces": faces}
    made = made_of("graduated", {**typed, "work_turns": work_turns})
    drawn = drawing_of(made, 0.001)
    assert made.advances == way
    second = clockwise(lines(drawn)[1].points[0])
    assert second == pytest.approx(0.01 if way == "clockwise" else 0.99)
    # Whichever way the positions are counted, the numeral 10 stands where the numbers themselves run to.
    numbers_run = "anticlockwise" if (turns == "clockwise") == (faces == "front") else "clockwise"
    numbered = next(place for place, mark in enumerate(made.part.marks) if mark.numeral == "10")
    place = clockwise(lines(drawn)[numbered].points[0])
    assert place == pytest.approx(0.1 if numbers_run == "clockwise" else 0.9)


def test_a_drum_is_as_long_as_it_is_round_and_its_lines_are_evenly_spaced() -> None:
    drawn = drawing("screw dial")
    body = next(path for path in drawn.paths if path.layer == "body")
    across = [x for x, _ in body.points]
    assert max(across) - min(across) == pytest.approx(60 * pi, abs=1e-9)
    places = sorted(line.points[0][0] for line in lines(drawn))
    gaps = [after - before for before, after in pairwise(places)]
    assert gaps == pytest.approx([60 * pi / 150] * 149, abs=1e-9)
    assert {line.points[0][1] for line in lines(drawn)} == {0.0}
    # The cut lies amid two lines, and no numeral crosses it.
    assert places[0] - min(across) == pytest.approx(60 * pi / 300)
    for position in (0, 10, 140):
        left, _, right, _ = ink(drawn, position)
        assert min(across) < left < right < max(across)


def test_numbers_that_run_anticlockwise_run_to_the_left_on_the_strip() -> None:
    to_the_left = [line.points[0][0] for line in lines(drawing("screw dial"))]
    assert made_of("graduated", SCREW_DIAL).advances == "anticlockwise"
    assert to_the_left[20] < to_the_left[10]
    to_the_right = [line.points[0][0] for line in lines(graduated(**SCREW_DIAL, turns="anticlockwise"))]
    assert to_the_right[20] > to_the_right[10]


def test_a_cone_of_45_degrees_unrolls_into_its_sector() -> None:
    drawn = lines(drawing("cone"))
    slant = 30 * 2**0.5  # from the apex to the reading edge
    assert [hypot(*line.points[0]) for line in drawn] == pytest.approx([slant] * 60)
    chord = 2 * slant * sin(pi / 60 * 0.5**0.5)  # 6 degrees of the work, less by the sine of 45 in the flat
    gaps = [dist(before.points[0], after.points[0]) for before, after in pairwise(drawn)]
    apart = [gap for gap in gaps if gap != pytest.approx(chord)]
    assert len(apart) == 1  # where the sector is cut


def test_a_numeral_has_its_real_size_and_stands_on_its_line() -> None:
    """The numeral 0, at the top: 2.4 mm high, its middle on its line, clear of the line's end."""
    drawn = graduated(**TIDE_RING, feet="edge")
    left, low, right, high = ink(drawn, 0)
    assert high - low == pytest.approx(2.4, abs=0.01)
    assert right - left == pytest.approx(2.4 * 0.65, abs=0.01)
    assert (left + right) / 2 == pytest.approx(0, abs=0.01)
    line_end = 75 - 6.5
    assert high < line_end - 0.4  # the burr of 0.15 mm and 0.3 mm clear of it


@pytest.mark.parametrize("feet", ["edge", "away"])
def test_the_feet_point_where_it_was_said(feet: str) -> None:
    """The head of a 7 is wide and its foot is a point, so where it is wide is up."""
    drawn = graduated(
        lines="8", on="ring", across="60mm", numeral_every="8", texts="7", height="5mm", feet=feet
    )
    (seven,) = (path for path in drawn.paths if path.layer == "numeral")
    bar = [seven.points[0], seven.points[1]]
    bar_height, foot_height = bar[0][1], seven.points[2][1]
    assert (bar_height < foot_height) == (feet == "edge")  # the reading edge is above, at the top of the ring


def test_level_numerals_are_level_all_round() -> None:
    hours = "12,1,2,3,4,5,6,7,8,9,10,11"
    drawn = graduated(
        lines="12", on="ring", across="90mm", numeral_every="1", texts=hours, height="4mm", stand="level"
    )
    for position in range(12):
        _, low, _, high = ink(drawn, position)
        assert high - low == pytest.approx(4, abs=0.01)


def test_radial_numerals_read_along_their_lines() -> None:
    drawn = graduated(
        lines="4",
        on="ring",
        across="90mm",
        numeral_every="1",
        texts="88,88,88,88",
        height="4mm",
        stand="radial",
    )
    for position, along in ((0, "up"), (1, "across")):
        left, low, right, high = ink(drawn, position)
        wide, tall = right - left, high - low
        assert (tall > wide) == (along == "up")


@pytest.mark.parametrize("figure", "0123456789")
def test_the_ink_of_every_figure_fills_its_real_width_and_height(figure: str) -> None:
    lettering = Lettering(Fraction(10))
    half = 10 * STROKE_SHARE / 2
    points = [point for stroke in figure_strokes(figure, lettering) for point in stroke]
    across, up = [x for x, _ in points], [y for _, y in points]
    assert max(up) + half == pytest.approx(5, abs=0.2)
    assert min(up) - half == pytest.approx(-5, abs=0.2)
    assert max(across) - min(across) + 2 * half == pytest.approx(float(lettering.width_of(figure)), abs=0.3)


def test_what_has_no_strokes_is_an_empty_box() -> None:
    assert len(next(iter(figure_strokes("☾", Lettering(Fraction(10)))))) == 5


def test_the_tool_stands_at_the_reading_edge_of_its_line() -> None:
    drawn = drawing("tide ring", 37)
    assert drawn.tool is not None
    line = next(line for line in lines(drawn) if line.position == 37)
    assert drawn.tool.tip == line.points[0]
    angle = clockwise(drawn.tool.tip) * 2 * pi
    assert drawn.tool.comes_from == pytest.approx((sin(angle), cos(angle)))


@pytest.mark.parametrize(
    ("typed", "edge_is"),
    [
        ({}, "below"),
        ({"feet": "away"}, "above"),
        ({"numerals": "behind"}, "above"),
        ({"stand": "radial"}, "below"),
    ],
)
def test_the_numerals_of_a_drum_stand_on_their_feet_on_its_strip(typed: dict[str, str], edge_is: str) -> None:
    """The head of a 7 is wide and its foot is a point; the strip is turned so that the point is below."""
    drawn = graduated(
        lines="8", on="drum", across="40mm", numeral_every="8", texts="7", height="5mm", **typed
    )
    (seven,) = (path for path in drawn.paths if path.layer == "numeral")
    (bar_x, bar), (_, also_bar), (foot_x, foot) = seven.points
    if typed.get("stand") != "radial":
        assert bar == pytest.approx(also_bar)
        assert bar > foot
        assert bar_x < foot_x  # as a 7 is written, not seen in a mirror
    start, end = lines(drawn)[0].points
    assert (start[1] < end[1]) == (edge_is == "below")
    assert f"looked at is {edge_is}" in " ".join(drawn.notes)
    body = next(path for path in drawn.paths if path.layer == "body")
    assert min(y for _, y in body.points) < bar < max(y for _, y in body.points)


def test_a_strip_that_is_turned_round_is_the_same_strip() -> None:
    """Turned by half a turn, so what ran to the right runs to the left."""
    usual, away = (lines(graduated(**SCREW_DIAL, feet=feet)) for feet in ("usual", "away"))
    first, there = usual[0].points[0][0], away[0].points[0][0]
    for before, after in zip(usual, away, strict=True):
        assert after.points[0][0] - there == pytest.approx(-(before.points[0][0] - first), abs=1e-9) or (
            abs(after.points[0][0] - there + before.points[0][0] - first) == pytest.approx(60 * pi, abs=1e-9)
        )
