"""The chart read back: bars to one scale, each with its words, the causes in their order."""

import pytest

from crankwise.draw.cause_bars import ROOM_FOR_VALUE, WIDTH, Bar, cause_bars
from tests.draw.reading import shapes, texts

BARS = (Bar("worm", 20.0, 80.0, "20.0 µm", "80.0 µm"), Bar("lock & key", 5.0, 40.0, "5.0 µm", "40.0 µm"))


def widths(svg: str, class_: str) -> list[float]:
    return [float(bar.get("width") or 0) for bar in shapes(svg, "rect") if bar.get("class") == class_]


def test_all_bars_are_to_one_scale() -> None:
    full = WIDTH - ROOM_FOR_VALUE
    svg = cause_bars(BARS)
    assert widths(svg, "whole") == [pytest.approx(full), pytest.approx(full / 2)]
    assert widths(svg, "single") == [pytest.approx(full / 4), pytest.approx(full / 16, abs=0.01)]


def test_the_first_cause_stands_at_the_top_and_each_figure_beside_its_bar() -> None:
    found = texts(cause_bars(BARS))
    assert found["worm"][1] < found["lock & key"][1]
    assert found["80.0 µm"][0] == pytest.approx(WIDTH - ROOM_FOR_VALUE + 4)


def test_it_says_in_words_what_it_shows() -> None:
    assert "2 causes ranked; the largest is worm" in cause_bars(BARS)


def test_a_part_without_errors_has_bars_of_no_length() -> None:
    assert widths(cause_bars([Bar("worm", 0.0, 0.0, "0", "0")]), "whole") == [0]
