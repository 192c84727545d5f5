import pytest

from crankwise.draw.move import MOST_DRAWN, hole_move, turning_arrow
from tests.draw.reading import shapes, starts, turns_clockwise


def test_the_pin_goes_from_the_hole_it_is_in_to_the_hole_it_comes_up_to() -> None:
    svg = hole_move(15, 5, 15, "clockwise", "holes")
    assert turns_clockwise(starts(svg, "hole leaves")[0]) == pytest.approx(5 / 15, abs=1e-3)
    assert turns_clockwise(starts(svg, "hole comes")[0]) == pytest.approx(0, abs=1e-3)
    assert len(starts(svg, "hole")) == 15


def test_anticlockwise_is_the_mirror_image() -> None:
    svg = hole_move(20, 0, 5, "anticlockwise", "holes")
    assert turns_clockwise(starts(svg, "hole comes")[0]) == pytest.approx(0.75, abs=1e-3)


def test_whole_turns_sweep_nothing() -> None:
    assert all(
        path.get("class") != "swept" for path in shapes(hole_move(15, 3, 18, "clockwise", "holes"), "path")
    )


def test_too_many_holes_to_tell_apart_are_not_drawn() -> None:
    assert hole_move(MOST_DRAWN + 1, 0, 1, "clockwise", "holes") == ""


def test_the_arrow_says_its_way_in_words_too() -> None:
    for turn in ("clockwise", "anticlockwise"):
        assert f'aria-label="{turn}"' in turning_arrow(turn)
    assert turning_arrow("clockwise") != turning_arrow("anticlockwise")
