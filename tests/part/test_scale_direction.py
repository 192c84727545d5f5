"""Which way numbers run, held against a dial that is really turned under its index line."""

import pytest

from crankwise.errors import BadDivisions
from crankwise.part.scale_direction import Mover, ScaleDirection, Sense, Side

CLOCKWISE = {"clockwise": 1, "anticlockwise": -1}


@pytest.mark.parametrize("moves", ["scale", "pointer"])
@pytest.mark.parametrize("turns", ["clockwise", "anticlockwise"])
@pytest.mark.parametrize("side", ["front", "rear"])
def test_the_reading_grows_when_the_handle_is_turned(moves: Mover, turns: Sense, side: Side) -> None:
    direction = ScaleDirection(moves, turns, side)
    # Angles clockwise as seen from the handle. Number k stands at k steps the way the numbers run.
    runs = CLOCKWISE[direction.numbers_run_from_the_handle]
    after = CLOCKWISE[turns] * 7
    scale, pointer = (after, 0) if moves == "scale" else (0, after)
    reading = next(k for k in range(-20, 21) if runs * k + scale == pointer)
    assert reading == 7
    # Seen from the back, what went clockwise goes anticlockwise.
    assert (direction.numbers_run == direction.numbers_run_from_the_handle) == (side == "front")
    # Under a tool at 0, work turned so by 1 brings number 1 there.
    assert CLOCKWISE[direction.numbers_run] * 1 + CLOCKWISE[direction.work_turns] * 1 == 0


def test_the_usual_dial_runs_anticlockwise_and_to_the_left_on_the_strip() -> None:
    direction = ScaleDirection()
    assert direction.numbers_run == "anticlockwise"
    assert direction.on_the_strip == "left"


def test_a_word_that_is_none_is_refused() -> None:
    with pytest.raises(BadDivisions, match=r"^turns: 'left'; it is clockwise or anticlockwise"):
        ScaleDirection(turns="left")  # type: ignore[arg-type]
