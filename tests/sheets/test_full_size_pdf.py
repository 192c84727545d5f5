"""Prints at full size, read back by another library: points of the paths themselves, in millimetres."""

import io
import sys
from math import dist, pi
from typing import Any

import pypdf
import pytest
from pypdf.generic import ContentStream

from crankwise.draw.part_drawing import Circle, PartDrawing, Path
from crankwise.errors import MissingExtra
from crankwise.sheets.full_size import FULL_SIZE_PAPERS, PrinterScale
from crankwise.sheets.full_size_pdf import full_size_pdf
from crankwise.wording.picture import JOIN
from tests.draw.drawings import EVERY_KIND, drawing

Point = tuple[float, float]
MM = 72 / 25.4
TRUE = 0.02
"""Millimetres over a hundred of them: the promise."""


def strokes(content: bytes) -> list[list[list[Point]]]:
    """Return for each page every stroke of straight pieces, in mm from the lower left corner."""
    pages = []
    for page in pypdf.PdfReader(io.BytesIO(content)).pages:
        found: list[list[Point]] = []
        matrices: list[tuple[float, ...]] = []
        matrix: tuple[float, ...] = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
        for operands, operator in ContentStream(page.get_contents(), page.pdf).operations:
            match operator:
                case b"q":
                    matrices.append(matrix)
                case b"Q":
                    matrix = matrices.pop()
                case b"cm":
                    matrix = times(tuple(map(float, operands)), matrix)
                case b"m":
                    found.append([placed(operands, matrix)])
                case b"l":
                    found[-1].append(placed(operands, matrix))
        pages.append(found)
    return pages


def times(one: tuple[float, ...], other: tuple[float, ...]) -> tuple[float, ...]:
    a, b, c, d, e, f = one
    p, q, r, s, t, u = other
    return (a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s, e * p + f * r + t, e * q + f * s + u)


def placed(operands: Any, matrix: tuple[float, ...]) -> Point:
    x, y = map(float, operands[:2])
    a, b, c, d, e, f = matrix
    return (a * x + c * y + e) / MM, (b * x + d * y + f) / MM


def bars(page: list[list[Point]]) -> tuple[float, float, float]:
    """Return how long the bars are: 100 mm across, 4 in across, 100 mm down."""
    level = [stroke for stroke in page if len(stroke) == 2 and stroke[0][1] == pytest.approx(stroke[1][1])]
    upright = [stroke for stroke in page if len(stroke) == 2 and stroke[0][0] == pytest.approx(stroke[1][0])]
    low = sorted((stroke for stroke in level if dist(*stroke) > 80), key=lambda stroke: stroke[0][1])[:2]
    left = min((stroke for stroke in upright if dist(*stroke) > 80), key=lambda stroke: stroke[0][0])
    inches, metric = low
    return dist(*metric), dist(*inches), dist(*left)


SQUARE = PartDrawing(
    "square",
    "A square of 100 mm with its corners",
    (Path(((0, 0), (100, 0), (100, 100), (0, 100)), "cut", is_closed=True),),
    (Circle((50, 50), 50, "cut"),),
)


@pytest.mark.parametrize("paper", FULL_SIZE_PAPERS)
def test_a_hundred_millimetres_are_a_hundred_millimetres_on_every_paper(paper: Any) -> None:
    content, sheets = full_size_pdf(SQUARE, paper)
    assert sheets == 1
    (page,) = strokes(content)
    (square,) = (stroke for stroke in page if len(stroke) == 4)
    sides = [dist(square[corner - 1], square[corner]) for corner in range(4)]
    assert sides == pytest.approx([100] * 4, abs=TRUE)
    assert bars(page) == pytest.approx((100, 101.6, 100), abs=TRUE)
    size = pypdf.PdfReader(io.BytesIO(content)).pages[0].mediabox
    assert sorted((float(size.width) / MM, float(size.height) / MM)) == pytest.approx(
        FULL_SIZE_PAPERS[paper], abs=0.01
    )


def test_what_the_printer_shrinks_is_drawn_larger_by_as_much() -> None:
    """On a printer that makes 99.6 mm across and 100.3 mm down of 100 mm, the print comes out at 100 mm."""
    content, _ = full_size_pdf(SQUARE, "A4", PrinterScale(99.6, 100.3))
    (page,) = strokes(content)
    (square,) = (stroke for stroke in page if len(stroke) == 4)
    across, down = dist(square[0], square[1]), dist(square[1], square[2])
    assert across * 0.996 == pytest.approx(100, abs=TRUE)
    assert down * 1.003 == pytest.approx(100, abs=TRUE)
    metric, inches, upright = bars(page)
    assert (metric * 0.996, inches * 0.996, upright * 1.003) == pytest.approx((100, 101.6, 100), abs=TRUE)
    text = pypdf.PdfReader(io.BytesIO(content)).pages[0].extract_text()
    assert "Corrected for a printer that makes 99.6 mm across and 100.3 mm down of 100 mm." in " ".join(
        text.split()
    )


def test_the_tide_ring_has_its_149_lines_where_they_belong() -> None:
    content, _ = full_size_pdf(drawing("tide ring"))
    (page,) = strokes(content)
    pairs = [stroke for stroke in page if len(stroke) == 2]
    lengths = [round(dist(*stroke), 3) for stroke in pairs]
    assert lengths.count(6.5) == 13
    assert lengths.count(4.5) == 12
    assert lengths.count(3.0) >= 124
    edge = [stroke[0] for stroke in pairs if round(dist(*stroke), 3) in (3.0, 4.5, 6.5)]
    long = [stroke[0] for stroke in pairs if round(dist(*stroke), 3) == 6.5]
    centre = (105.0, long[0][1] - 75)
    on_it = [point for point in edge if dist(point, centre) == pytest.approx(75, abs=TRUE)]
    assert len(on_it) == 149


def test_a_drum_is_unrolled_to_its_whole_length() -> None:
    content, _ = full_size_pdf(drawing("screw dial"))
    (page,) = strokes(content)
    body = max((stroke for stroke in page if len(stroke) == 4), key=lambda stroke: dist(stroke[0], stroke[1]))
    assert dist(body[0], body[1]) == pytest.approx(60 * pi, abs=TRUE * 60 * pi / 100)


def test_a_large_part_comes_on_sheets_that_each_have_their_bars() -> None:
    large = PartDrawing(
        "plate", "A plate", (Path(((0, 0), (380, 0), (380, 300), (0, 300)), "body", is_closed=True),)
    )
    content, sheets = full_size_pdf(large)
    pages = strokes(content)
    assert sheets == len(pages) > 1
    for page in pages:
        assert bars(page) == pytest.approx((100, 101.6, 100), abs=TRUE)
    texts = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(content)).pages]
    for number, text in enumerate(texts, 1):
        assert f"sheet {number} of {sheets}" in " ".join(text.split())


@pytest.mark.parametrize("name", EVERY_KIND)
def test_the_notes_are_printed_whole_in_a_size_that_can_be_read(name: str) -> None:
    made = drawing(name, 1)
    content, sheets = full_size_pdf(made)
    sizes: dict[str, float] = {}
    page = pypdf.PdfReader(io.BytesIO(content)).pages[0]
    page.extract_text(
        visitor_text=lambda text, _cm, _tm, _font, size: sizes.update({" ".join(text.split()): size})
    )
    told = " ".join(page.extract_text().split())
    for note in (*made.notes, *([JOIN] if sheets > 1 else [])):
        assert note in told
    assert min(size for text, size in sizes.items() if text) >= 6


@pytest.mark.parametrize("name", EVERY_KIND)
def test_every_kind_prints_and_the_same_part_prints_the_same(name: str) -> None:
    content, _ = full_size_pdf(drawing(name, 1))
    assert content == full_size_pdf(drawing(name, 1))[0]
    assert strokes(content)[0]


def test_without_its_package_the_sentence_says_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "reportlab.pdfgen.canvas", None)
    with pytest.raises(MissingExtra, match=r"crankwise\[paper\]"):
        full_size_pdf(SQUARE)
