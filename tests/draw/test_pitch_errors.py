"""The picture read back: a bar for each pitch, a curve that closes, and a wrong tooth that stands out."""

import re
from xml.etree.ElementTree import Element

import pytest

from crankwise.draw.pitch_errors import HEIGHT, WIDTH, pitch_errors
from tests.draw.reading import shapes, texts

ERRORS = (0.0, 4.0, 1.0, -2.0)


def bars(svg: str) -> list[Element]:
    return [bar for bar in shapes(svg, "rect") if (bar.get("class") or "").startswith("pitch")]


def curve(svg: str) -> list[tuple[float, float]]:
    (path,) = (path for path in shapes(svg, "path") if path.get("class") == "cumulative")
    return [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", path.get("d") or "")]


def test_each_pitch_is_a_bar_as_high_as_it_is_out() -> None:
    # Pitches 4, -3, -3, 2: the worst reaches to the edge.
    found = bars(pitch_errors(ERRORS, goes_round=True))
    assert [float(bar.get("height") or 0) for bar in found] == [45, 33.75, 33.75, 22.5]
    assert [float(bar.get("y") or 0) for bar in found] == [0, 45, 45, 22.5]


def test_a_list_that_does_not_go_round_has_one_pitch_less() -> None:
    assert len(bars(pitch_errors(ERRORS, goes_round=False))) == 3
    assert len(curve(pitch_errors(ERRORS, goes_round=False))) == 4


def test_the_curve_fills_its_chart_and_comes_back_to_where_it_began() -> None:
    points = curve(pitch_errors(ERRORS, goes_round=True))
    assert points[0][1] == points[-1][1]
    assert (points[0][0], points[-1][0]) == (0, WIDTH)
    heights = [y for _, y in points]
    assert max(heights) - min(heights) == pytest.approx(HEIGHT)
    assert heights[1] == min(heights)


def test_a_tolerance_is_a_band_to_the_same_scale() -> None:
    svg = pitch_errors(ERRORS, True, single_limit=2.0, cumulative_limit=3.0)
    single, cumulative = (band for band in shapes(svg, "rect") if band.get("class") == "tolerance")
    assert float(single.get("height") or 0) == pytest.approx(HEIGHT / 2)
    assert float(cumulative.get("height") or 0) == pytest.approx(HEIGHT / 2)


@pytest.mark.parametrize(("wrong", "pitches"), [(2, [1, 2]), (0, [0, 3])])
def test_a_wrong_position_spoils_the_pitch_before_it_and_the_one_after(
    wrong: int, pitches: list[int]
) -> None:
    svg = pitch_errors(ERRORS, True, wrong=wrong)
    found = [index for index, bar in enumerate(bars(svg)) if bar.get("class") == "pitch wrong"]
    assert found == pitches
    assert len(shapes(svg, "circle")) == 1


def test_it_says_in_words_what_it_shows() -> None:
    assert "4 pitches, the worst 4.0 micrometres out" in pitch_errors(ERRORS, True)
    assert "6.0 micrometres high" in pitch_errors(ERRORS, True)


def test_a_perfect_part_is_drawn_flat() -> None:
    svg = pitch_errors((0.0, 0.0, 0.0), True)
    assert all(float(bar.get("height") or 0) == 0 for bar in bars(svg))


def test_titles_stand_above_their_charts_and_the_picture_makes_room() -> None:
    svg = pitch_errors(ERRORS, True, titles=("each < pitch", "the curve"))
    found = texts(svg)
    assert found["each < pitch"][1] < 0
    assert HEIGHT < found["the curve"][1] < HEIGHT + 30
    top = float(svg.split('viewBox="')[1].split()[1])
    assert top <= found["each < pitch"][1] - 10


def test_very_many_pitches_are_one_path_so_that_the_picture_stays_small() -> None:
    errors = [float(index % 3) for index in range(5000)]
    svg = pitch_errors(errors, True, wrong=7)
    assert len(bars(svg)) == 2
    (path,) = (path for path in shapes(svg, "path") if path.get("class") == "pitches")
    assert (path.get("d") or "").count("M") == 5000
    assert len(svg) < 250_000
