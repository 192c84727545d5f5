"""The full size SVG, read back as XML: its size in millimetres, its units, its bars, its words."""

import re
from math import dist
from xml.etree import ElementTree

import pytest

from crankwise.draw.part_drawing import Circle, PartDrawing, Path
from crankwise.sheets.full_size import PrinterScale
from crankwise.sheets.full_size_svg import full_size_svg
from tests.draw.drawings import EVERY_KIND, drawing

SVG = "{http://www.w3.org/2000/svg}"
SQUARE = PartDrawing(
    "square <100>",
    "A square & a circle",
    (Path(((0, 0), (100, 0), (100, 100), (0, 100)), "cut", is_closed=True, width_mm=0.2),),
    (Circle((50, 50), 50, "cut"),),
    notes=("A note that is told.",),
)


def points(path: str) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", path)]


@pytest.mark.parametrize("name", EVERY_KIND)
def test_every_kind_is_well_formed_and_one_unit_is_one_millimetre(name: str) -> None:
    root = ElementTree.fromstring(full_size_svg(drawing(name, 1)))
    assert root.tag == f"{SVG}svg"
    _, _, width, height = map(float, root.get("viewBox", "").split())
    assert (root.get("width"), root.get("height")) == (f"{width:g}mm", f"{height:g}mm") or (
        float(root.get("width", "").removesuffix("mm")),
        float(root.get("height", "").removesuffix("mm")),
    ) == (width, height)
    inside = [spot for path in root.iter(f"{SVG}path") for spot in points(path.get("d", ""))]
    assert all(0 <= x <= width and 0 <= y <= height for x, y in inside)
    assert root.find(f"{SVG}desc") is not None


@pytest.mark.parametrize(("across", "down"), [(100.0, 100.0), (99.6, 100.3)])
def test_a_square_of_100_mm_and_the_bars_come_out_true(across: float, down: float) -> None:
    root = ElementTree.fromstring(full_size_svg(SQUARE, PrinterScale(across, down)))
    paths = {path.get("class"): points(path.get("d", "")) for path in root.iter(f"{SVG}path")}
    a, b, c, _ = paths["cut"]
    assert dist(a, b) * across / 100 == pytest.approx(100, abs=0.001)
    assert dist(b, c) * down / 100 == pytest.approx(100, abs=0.001)
    bars = [points(path.get("d", "")) for path in root.iter(f"{SVG}path") if path.get("class") == "bar"]
    level, upright = bars
    assert dist(level[0], level[1]) * across / 100 == pytest.approx(100, abs=0.001)
    assert dist(level[24], level[25]) * across / 100 == pytest.approx(101.6, abs=0.001)
    assert dist(upright[0], upright[1]) * down / 100 == pytest.approx(100, abs=0.001)
    (ellipse,) = root.iter(f"{SVG}ellipse")
    assert float(ellipse.get("rx", "0")) * across / 100 == pytest.approx(50, abs=0.001)
    said = " ".join(text.text or "" for text in root.iter(f"{SVG}text"))
    assert "square <100>, full size" in said
    assert "A note that is told." in said
    assert ("Corrected for a printer" in said) == (across != 100)
