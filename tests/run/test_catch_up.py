"""Bringing the journal to where the machine stands."""

import pytest

from crankwise.run.catch_up import steps_to
from crankwise.run.journal import replayed
from crankwise.run.pace import pace
from tests.gear import BENCH_HEAD, head
from tests.run.machine import AtTheMachine, plan_on


@pytest.fixture
def run() -> AtTheMachine:
    return AtTheMachine(plan_on(head(BENCH_HEAD), 12)).done_to(5)


@pytest.mark.parametrize("row", range(13))
def test_the_run_then_stands_at_the_row(run: AtTheMachine, row: int) -> None:
    steps = steps_to(run.state, row, "catch", 5000.0)
    assert steps is not None
    assert len(steps) == abs(row - 5)
    assert {step.kind for step in steps} <= {"done" if row > 5 else "back"}
    after = replayed(run.state, steps)
    assert after.at_row == row
    own_pace = pace(after)
    assert own_pace is not None
    assert own_pace.row == 30, "rows that were not timed leave the pace as it was"


def test_no_steps_lead_to_a_row_that_was_passed_over(run: AtTheMachine) -> None:
    run.tap("skipped", 5)
    assert steps_to(run.state, 5, "catch", 5000.0) is None


def test_no_steps_lead_past_a_break(run: AtTheMachine) -> None:
    run.tap("paused")
    assert steps_to(run.state, 7, "catch", 5000.0) is None
