from hypothesis import given
from hypothesis import strategies as st

from crankwise.run.journal import Entry, RunState, after
from crankwise.run.pace import pace


def run_with(times: list[float], rows: int = 100) -> RunState:
    """A run whose rows were done at these times."""
    state = after(RunState(rows), Entry("began", "began", times[0]))
    for row, at in enumerate(times[1:]):
        state = after(state, Entry("done", f"d{row}", at, row))
    return state


def test_the_time_left_is_the_usual_time_for_every_row_left() -> None:
    found = pace(run_with([0, 30, 60, 91, 120]))
    assert found is not None
    assert (found.row, found.left) == (30, 96 * 30)


def test_two_rows_say_nothing_yet() -> None:
    assert pace(run_with([0, 30, 60])) is None


def test_dinner_is_not_the_operators_pace() -> None:
    found = pace(run_with([0, 30, 60, 90, 5000, 5030, 5060]))
    assert found is not None
    assert found.row == 30


def test_a_pause_is_not_timed_at_all() -> None:
    state = run_with([0, 30, 60, 90])
    for kind, at in (("paused", 95.0), ("resumed", 160.0)):
        state = after(state, Entry(kind, kind, at))  # type: ignore[arg-type]
    state = after(state, Entry("done", "x", 165.0, 3))
    assert state.intervals == (30, 30, 30)


def test_a_clock_that_jumps_back_does_no_harm() -> None:
    state = run_with([0, 30, 60, 90, -1e6, -1e6 + 30, -1e6 + 60])
    found = pace(state)
    assert found is not None
    assert (found.row, state.at_row) == (30, 6)


def test_only_the_last_rows_count_so_that_practice_shows() -> None:
    found = pace(
        run_with([40.0 * row for row in range(20)] + [760 + 20.0 * row for row in range(1, 20)], 200)
    )
    assert found is not None
    assert found.row == 20


def test_rows_given_up_are_not_left() -> None:
    state = run_with([0, 30, 60, 90], rows=6)
    state = after(state, Entry("skipped", "s", 100, 3))
    before, state = state, after(state, Entry("bad", "b", 100, 3))
    found, was = pace(state), pace(before)
    assert found is not None
    assert was is not None
    assert (was.left, found.left) == (90, 60)


@given(st.lists(st.floats(-1e11, 1e11), min_size=1, max_size=40))
def test_whatever_the_clock_does_the_time_left_is_none_or_above_nothing(times: list[float]) -> None:
    found = pace(run_with(times))
    assert found is None or (found.row > 0 and found.left >= 0)
