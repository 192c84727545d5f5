"""Every row as it has to be set when something has slipped."""

from fractions import Fraction

import pytest

from crankwise.run.in_hand import in_hand, next_in_hand
from crankwise.run.state import NO_SLIP
from crankwise.run.watch import Watch
from tests.gear import BENCH_HEAD, PLATE_HEAD, head
from tests.run.machine import AtTheMachine, plan_on


def test_nothing_slipped_is_the_schedule_itself() -> None:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 149))
    assert Watch(run.plan, run.rows).rows_at(NO_SLIP) is run.rows


@pytest.mark.parametrize(("toml", "count"), [(BENCH_HEAD, 149), (PLATE_HEAD, 60)])
def test_after_a_slip_the_rows_are_those_that_come_one_by_one(toml: str, count: int) -> None:
    run = AtTheMachine(plan_on(head(toml), count)).done_to(9)
    run.tap("slipped", 9, angle=Fraction(31, 36000), joint="spindle")
    ahead = Watch(run.plan, run.rows).rows_at(run.state.anchor)
    run.tap("done", 9)
    for row in range(10, count + 1):
        hand = in_hand(run.plan, run.rows, run.state)
        assert hand is not None
        assert hand.row == ahead[row]
        then = next_in_hand(run.plan, run.rows, run.state)
        if row < count:
            assert then is not None
            assert then.row == ahead[row + 1]
        else:
            assert then is None
        run.tap("done", row)
