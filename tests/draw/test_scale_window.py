from fractions import Fraction

import pytest

from crankwise.draw.scale_window import dial_window, ring_window
from crankwise.head.dial import Dial
from crankwise.head.ring import Ring
from tests.draw.reading import starts, texts

HALF = Fraction(1, 2)


def test_the_index_stands_between_the_two_numerals_and_as_far_from_each_as_it_reads() -> None:
    placed = texts(dial_window(Dial(100, HALF), Fraction(113, 2), grows_clockwise=True))
    fifty, sixty = placed["50"][0], placed["60"][0]
    assert fifty > 0 > sixty, "a dial that grows clockwise brings larger numbers from the left"
    assert fifty / (fifty - sixty) == pytest.approx(0.65, abs=1e-3)


def test_a_dial_that_grows_the_other_way_is_drawn_the_other_way() -> None:
    placed = texts(dial_window(Dial(100, HALF), Fraction(113, 2), grows_clockwise=False))
    assert placed["50"][0] < 0 < placed["60"][0]


def test_past_the_last_numeral_comes_zero() -> None:
    assert {"90", "0"} <= set(texts(dial_window(Dial(100), Fraction(97), True)))


def test_a_dial_whose_last_interval_is_short_is_drawn_so() -> None:
    placed = texts(dial_window(Dial(24, numbered_every=10), Fraction(22), False))
    assert placed["0"][0] == pytest.approx(placed["20"][0] * -1, abs=1e-3)
    assert set(placed) == {"20", "0"}


def test_a_dial_without_numerals_shows_its_marks() -> None:
    svg = dial_window(Dial(60, numbered_every=0), Fraction(7), True)
    assert texts(svg) == {}
    assert len(starts(svg, "line")) > 10


def test_a_reading_on_a_mark_has_that_mark_under_the_index() -> None:
    svg = dial_window(Dial(100), Fraction(40), True)
    assert (0.0, 14.0) in starts(svg, "line long")


def test_a_ring_is_shown_in_its_own_units() -> None:
    placed = texts(ring_window(Ring(360, HALF), Fraction(215)))
    assert placed["210"][0] < 0 < placed["220"][0]
    placed = texts(ring_window(Ring(360, HALF, numbered="anticlockwise"), Fraction(215)))
    assert placed["220"][0] < 0 < placed["210"][0]


@pytest.mark.parametrize("marks", [2, 5, 720, 100_000])
def test_any_dial_gives_a_small_picture(marks: int) -> None:
    assert len(dial_window(Dial(marks, numbered_every=marks), Fraction(1), True)) < 60_000
