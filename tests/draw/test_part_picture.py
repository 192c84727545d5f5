"""The picture on a page: one element, well formed, small, its holes open, the tool where it stands."""

import re
from math import hypot
from xml.etree import ElementTree

import pytest
from shapely import LineString, Point

from crankwise.draw.part_drawing import Circle, PartDrawing, Path
from crankwise.draw.part_picture import SIZE, part_picture, picture_chord_mm
from crankwise.tasks.part_kinds import made_of
from crankwise.tasks.picture import drawing_of, picture_of
from tests.draw.drawings import EVERY_KIND, made
from tests.draw.reading import shapes

STEP = re.compile(r"([Ml])(-?[\d.]+)(?: |(?=-))(-?[\d.]+)")


def spots(path: str) -> list[tuple[float, float]]:
    """Every point of a path of steps, as a browser adds them up."""
    found: list[tuple[float, float]] = []
    for command, x, y in STEP.findall(path):
        a, b = found[-1] if command == "l" else (0.0, 0.0)
        found.append((a + float(x), b + float(y)))
    return found


@pytest.mark.parametrize("name", EVERY_KIND)
def test_it_is_well_formed_and_says_what_it_shows(name: str) -> None:
    svg = ElementTree.fromstring(picture_of(made(name), made(name).part.divisions.numbers[1]))
    assert svg.get("role") == "img"
    assert "is under the tool" in svg.get("aria-label", "")
    drawn = list(svg.iter())[1:]
    assert len([shape for shape in drawn if shape.get("class") == "tool"]) == 1
    words = {word for shape in drawn for word in shape.get("class", "").split()}
    assert words <= {"body", "cut", "numeral", "reference", "tool", "in-hand"}


@pytest.mark.parametrize(
    ("kind", "typed"),
    [
        ("spur", {"teeth": "400", "module": "1"}),
        ("helical", {"teeth": "400", "module": "1", "helix": "30"}),
        ("bevel", {"teeth": "400", "module": "1", "mate": "400", "face": "20mm"}),
        ("worm-wheel", {"teeth": "400", "module": "1", "worm": "20mm"}),
    ],
)
def test_a_gear_of_400_teeth_weighs_far_less_than_300_kilobytes(kind: str, typed: dict[str, str]) -> None:
    assert len(picture_of(made_of(kind, typed), 7)) < 100_000


@pytest.mark.parametrize("surface", ["ring", "drum", "cone"])
def test_3600_lines_with_360_numerals_weigh_less_than_300_kilobytes(surface: str) -> None:
    made = made_of("graduated", {"lines": "3600", "on": surface, "across": "300mm", "numeral_every": "10"})
    svg = picture_of(made, 7)
    assert len(svg) < 280_000
    lines = "".join(shape.get("d", "") for shape in shapes(svg, "path") if shape.get("class") == "cut")
    assert lines.count("M") == 3600


def test_a_numerals_strokes_lose_only_what_no_eye_could_tell() -> None:
    """Every point of a numeral as it is cut lies within 0.04 of a picture's 400 units of what is drawn of it."""
    made = made_of("graduated", {"lines": "100", "on": "ring", "across": "300mm", "height": "3mm"})
    drawing = drawing_of(made, 0.01)
    left, _, _, top = drawing.box()
    scale = SIZE / drawing.size_mm
    (drawn,) = (shape for shape in shapes(picture_of(made), "path") if shape.get("class") == "numeral")
    strokes = [spots(f"M{piece}") for piece in drawn.get("d", "").split("M")[1:]]
    cut = [path for path in drawing.paths if path.layer == "numeral"]
    assert len(strokes) == len(cut)
    assert sum(map(len, strokes)) < sum(len(path.points) for path in cut)
    for stroke, path in zip(strokes, cut, strict=True):
        shown = LineString(stroke)
        for x, y in path.points:
            assert shown.distance(Point((x - left) * scale, (top - y) * scale)) < 0.04


def test_the_picture_is_to_scale() -> None:
    """A bore of 30 mm in a disc of 100 mm: 0.3 of it, in the middle."""
    disc = PartDrawing("disc", "A disc", (), (Circle((5, 7), 50, "body"), Circle((5, 7), 15, "body")))
    (body,) = shapes(part_picture(disc), "path")
    assert body.get("fill-rule") == "evenodd"
    arcs = re.findall(r"a([\d.]+) ", body.get("d", ""))
    assert {float(radius) for radius in arcs} == {SIZE / 2, SIZE / 2 * 0.3}


def test_steps_from_point_to_point_never_add_up_their_rounding() -> None:
    teeth = 200
    path = Path(tuple((step / 7, (step % 2) * 19 / 3) for step in range(teeth)), "cut", width_mm=0.2)
    (drawn,) = shapes(part_picture(PartDrawing("comb", "A comb", (path,))), "path")
    scale = SIZE / ((teeth - 1) / 7)
    found = spots(drawn.get("d", ""))
    assert len(found) == teeth
    for (x, y), (there_x, there_y) in zip(found, path.points, strict=True):
        assert hypot(x - there_x * scale, y - (19 / 3 - there_y) * scale) < 0.01
    assert float(drawn.get("stroke-width", "0")) == pytest.approx(0.2 * scale, abs=0.01)


def strip(long: float, high: float) -> PartDrawing:
    corners = ((0.0, 0.0), (long, 0.0), (long, high), (0.0, high))
    return PartDrawing("strip", "A strip", (Path(corners, "body", is_closed=True),))


@pytest.mark.parametrize(("long", "rows"), [(40, 1), (50, 1), (51, 2), (117, 3), (270, 5), (2700, 14)])
def test_a_long_strip_is_folded_until_it_is_about_square(long: float, rows: int) -> None:
    svg = ElementTree.fromstring(part_picture(strip(long, 10)))
    windows = list(svg.iter("use"))
    assert len(windows) == (rows if rows > 1 else 0)
    if rows > 1:
        assert f"folded into {rows} rows, the left end at the top" in svg.get("aria-label", "")
        assert [float(use.get("x", "")) for use in windows] == [-SIZE * row for row in range(rows)]


def test_each_row_of_a_folded_strip_shows_all_of_its_piece_and_a_little_more() -> None:
    """The windows stand below one another without a gap, and together they show the strip from end to end."""
    svg = ElementTree.fromstring(part_picture(strip(270, 10)))
    (body,) = (shape for shape in svg.iter("path"))
    across = [x for x, _ in spots(body.get("d", ""))]
    assert (min(across), max(across)) == (0, 5 * SIZE)
    (window,) = svg.iter("rect")
    left, wide, tall = (float(window.get(name, "")) for name in ("x", "width", "height"))
    assert left < 0
    assert left + wide > SIZE
    downs = [float(group.get("transform", "").split()[1].rstrip(")")) for group in svg.findall("g")]
    assert downs == pytest.approx([row * tall for row in range(5)], abs=0.05)
    _, _, _, box_tall = map(float, svg.get("viewBox", "").split())
    assert box_tall == pytest.approx(5 * tall, abs=0.05)


def test_a_label_is_escaped() -> None:
    svg = part_picture(PartDrawing("x", '<script>"&', (Path(((0, 0), (1, 1)), "cut"),)))
    assert ElementTree.fromstring(svg).get("aria-label") == '<script>"&'


def test_a_picture_is_as_fine_as_its_part_is_small() -> None:
    assert picture_chord_mm(2) == pytest.approx(picture_chord_mm(400) / 200)


def test_a_vernier_is_drawn_once_more_as_large_as_its_ring() -> None:
    typed = {"vernier": "12", "over": "23", "main_part": "1deg", "on": "ring", "across": "120mm"}
    svg = ElementTree.fromstring(picture_of(made_of("graduated", typed), 3))
    assert "below, the scale once more" in svg.get("aria-label", "")
    (detail,) = svg.findall("svg")
    left, top, wide, high = map(float, detail.get("viewBox", "").split())
    assert float(detail.get("width", "")) == SIZE
    assert float(detail.get("height", "")) == pytest.approx(SIZE * high / wide, abs=0.5)
    lines = "".join(shape.get("d", "") for shape in svg.iter("path") if shape.get("class") == "cut")
    assert lines
    for x, y in spots(lines):
        assert left < x < left + wide
        assert top < y < top + high


@pytest.mark.parametrize("name", ["tide ring", "cone", "spur", "list"])
def test_what_is_large_on_its_picture_or_has_no_numerals_is_drawn_once(name: str) -> None:
    assert not list(ElementTree.fromstring(picture_of(made(name))).iter("svg"))[1:]
