from fractions import Fraction

import pytest

from crankwise.draw.scale_face import MOST_LINES, dial_face, ring_face
from crankwise.head.dial import Dial
from crankwise.head.ring import Ring
from tests.draw.reading import shapes, starts, texts, turns_clockwise


def test_every_mark_of_a_dial_stands_at_its_true_angle() -> None:
    svg = dial_face(Dial(100))
    drawn = sorted(turns_clockwise(point) for point in starts(svg, "line") + starts(svg, "line long"))
    assert drawn == pytest.approx([mark / 100 for mark in range(100)], abs=2e-4)


def test_the_numbers_of_a_dial_that_grows_clockwise_run_anticlockwise() -> None:
    placed = texts(dial_face(Dial(100, clockwise="increases")))
    assert turns_clockwise(placed["90"]) == pytest.approx(0.1, abs=1e-3)
    placed = texts(dial_face(Dial(100, clockwise="decreases")))
    assert turns_clockwise(placed["10"]) == pytest.approx(0.1, abs=1e-3)


def test_a_dial_is_numbered_as_it_says() -> None:
    assert set(texts(dial_face(Dial(60, numbered_every=15)))) == {"0", "15", "30", "45"}
    assert texts(dial_face(Dial(60, numbered_every=0))) == {}


def test_a_ring_is_numbered_in_its_own_units_the_way_it_is_numbered() -> None:
    placed = texts(ring_face(Ring(400, full_circle=400, numbered="anticlockwise")))
    assert len(placed) <= 12
    assert turns_clockwise(placed["40"]) == pytest.approx(0.9, abs=1e-3)
    placed = texts(ring_face(Ring(360)))
    assert turns_clockwise(placed["90"]) == pytest.approx(0.25, abs=1e-3)


@pytest.mark.parametrize("lines", [2, 3, 7, 1440, 1441, 1_000_000])
def test_a_scale_of_any_size_is_a_small_picture(lines: int) -> None:
    svg = ring_face(Ring(lines))
    assert len(svg) < 60_000
    assert len(starts(svg, "line") + starts(svg, "line long")) <= MOST_LINES
    assert ("only one line in" in svg) == (lines > MOST_LINES)


def test_the_picture_says_in_words_what_it_shows() -> None:
    svg = dial_face(Dial(100, Fraction(1, 2)))
    assert "Dial of 100 marks, numbered every 10, its numbers running anticlockwise" in svg
    assert shapes(svg, "svg")[0].get("role") == "img"


def test_no_shape_has_a_colour_or_a_style_of_its_own() -> None:
    for svg in (dial_face(Dial(100)), ring_face(Ring(360))):
        for forbidden in ("style=", "fill=", "stroke="):
            assert forbidden not in svg
