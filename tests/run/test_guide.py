"""What the operator needs to see now."""

import pytest

from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.plan import planned
from crankwise.plan.schedule import schedule
from crankwise.run.guide import DirectionTest, direction_test, guide
from crankwise.run.journal import Entry, RunState, after
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, head

BENCH = head(BENCH_HEAD)
PLAN = planned(BENCH, Part(EqualDivisions(3)), "dial")
assert PLAN is not None
ROWS = schedule(PLAN)


def state_after(rows_done: int, numbers_grow: bool | None = True) -> RunState:
    state = after(RunState(len(ROWS)), Entry("began", "t", 0.0, numbers_grow=numbers_grow))
    for row in range(rows_done):
        state = after(state, Entry("done", f"t{row}", 1.0, row=row))
    return state


@pytest.mark.parametrize(
    ("toml", "test"),
    [
        (BENCH_HEAD, DirectionTest("crank", "dial", True)),
        (PLATE_HEAD, DirectionTest("crank", "work", None)),
        (PLATE_HEAD + "[ring]\ngraduations = 360\n", DirectionTest("crank", "ring", True)),
        (BULL_WHEEL, DirectionTest("spindle", "work", None)),
        (BULL_WHEEL + "[ring]\ngraduations = 360\n", DirectionTest("spindle", "ring", False)),
        (
            BULL_WHEEL + '[ring]\ngraduations = 360\nnumbered = "anticlockwise"\n',
            DirectionTest("spindle", "ring", True),
        ),
    ],
)
def test_what_is_turned_and_what_is_watched(toml: str, test: DirectionTest) -> None:

    assert direction_test(head(toml)) == test


def test_nothing_is_shown_before_the_direction_is_tested() -> None:
    shown = guide(BENCH, ROWS, RunState(len(ROWS)))
    assert (shown.row, shown.next_row, shown.turn) == (None, None, None)
    assert (shown.done, shown.of) == (0, 4)
    assert not shown.disagrees


def test_the_row_to_do_and_the_one_after() -> None:
    shown = guide(BENCH, ROWS, state_after(1))
    assert (shown.row, shown.next_row) == (ROWS[1], ROWS[2])
    assert (shown.done, shown.of, shown.turn) == (1, 4, "clockwise")


def test_the_closing_row_is_the_last_to_do() -> None:
    shown = guide(BENCH, ROWS, state_after(3))
    assert shown.row is not None
    assert shown.row.closing
    assert shown.next_row is None
    done = guide(BENCH, ROWS, state_after(4))
    assert (done.row, done.next_row, done.done) == (None, None, 4)


@pytest.mark.parametrize(
    ("grow", "turn", "disagrees"),
    [(True, "clockwise", False), (False, "anticlockwise", True), (None, "clockwise", False)],
)
def test_the_way_to_turn_is_the_way_the_numbers_were_seen_to_grow(
    grow: bool | None, turn: str, disagrees: bool
) -> None:
    shown = guide(BENCH, ROWS, state_after(0, grow))
    assert (shown.turn, shown.disagrees) == (turn, disagrees)


def test_where_nothing_is_said_nothing_disagrees() -> None:
    plates = head(PLATE_HEAD)
    assert not guide(plates, ROWS, state_after(0, numbers_grow=False)).disagrees
