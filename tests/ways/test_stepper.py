"""Stepper drives: absolute counts that never add up."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.errors import FaultsFound
from crankwise.head.head import Head
from crankwise.head.stepper import Stepper
from crankwise.head.worm import Worm
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.ways.stepper import OnStepper, ways
from tests.gear import head, worm_head


def drive(ratio: str, steps: int, divisions: EqualDivisions | AngleList) -> OnStepper:
    (way,) = ways(worm_head(ratio, f"[stepper]\nsteps = {steps}\n"), divisions)
    return way


def counts(way: OnStepper) -> list[int]:
    return [reached.setting.steps or 0 for reached in way.reached()]


def test_127_parts_of_192000_steps_take_103_long_moves_and_24_short_ones() -> None:
    way = drive("60", 3200, EqualDivisions(127))
    closing = way.closure()
    assert closing is not None
    stops = [*counts(way), closing.setting.steps or 0]
    moves = [after - before for before, after in pairwise(stops)]
    assert stops[-1] == 192_000
    assert {move: moves.count(move) for move in moves} == {1512: 103, 1511: 24}
    values = {step.unit: step.value for step in way.working() if "longer" in step.what}
    assert values == {"moves": 103}
    assert any(
        step.value == 192_000 and "103 x 1512 + 24 x 1511" in step.arithmetic for step in way.working()
    )


@given(
    ratio=st.fractions(Fraction(1, 2), 100, max_denominator=2),
    steps=st.integers(2, 10_000).filter(lambda steps: steps % 2 == 0),
    count=st.integers(1, 300),
)
def test_moves_differ_by_one_step_at_most_and_the_error_never_adds_up(
    ratio: Fraction, steps: int, count: int
) -> None:
    gear = Head("drive", Worm(ratio), stepper=Stepper(steps))
    (way,) = ways(gear, EqualDivisions(count))
    stops = [*counts(way), int(ratio * steps)]
    moves = [after - before for before, after in pairwise(stops)]
    assert max(moves) - min(moves) <= 1
    assert sum(moves) == ratio * steps
    for position, stop in enumerate(stops[:-1]):
        assert abs(Fraction(stop) / (ratio * steps) - Fraction(position, count)) <= 1 / (2 * ratio * steps)
    told = {step.unit: step.value for step in way.working() if step.unit == "moves"}
    assert told.get("moves", 0) == moves.count(int(ratio * steps) // count + 1)


def test_steps_may_be_counted_over_a_turn_of_the_spindle_with_no_worm_in_between() -> None:
    gear = head('name = "Direct"\n[stepper]\nsteps = 4000\nper_turn_of = "spindle"\n')
    (way,) = ways(gear, EqualDivisions(48))
    assert counts(way)[:3] == [0, 83, 167]
    assert way.setup == {"steps": 4000, "per_turn_of": "spindle"}


def test_a_drive_on_the_crank_needs_the_worm() -> None:
    with pytest.raises(
        FaultsFound, match=r"^stepper \(line 2\): this belongs to the crank, but there is no "
    ):
        head('name = "Lost"\n[stepper]\nsteps = 4000\n')


def test_a_circle_that_is_no_whole_number_of_steps_is_refused_and_an_arc_is_not() -> None:
    gear = worm_head("100/3", "[stepper]\nsteps = 200\n")
    assert list(ways(gear, EqualDivisions(7))) == []
    assert len(list(ways(gear, EqualDivisions(7, last=5)))) == 1


def test_a_list_of_angles_has_its_counts_too() -> None:
    way = drive("90", 400, AngleList((Fraction(0), Fraction(1, 7), Fraction(3, 8))))
    assert counts(way) == [0, 5143, 13_500]
