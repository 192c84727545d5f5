from fractions import Fraction

import pytest

from crankwise.plan.passes import with_trace
from crankwise.run.guide import guide
from crankwise.run.in_hand import in_hand
from crankwise.run.journal import Entry, RunState, after, counts, following, fresh_state, replayed
from crankwise.run.state import NO_SLIP
from tests.gear import BENCH_HEAD, PLATE_HEAD, head
from tests.run.machine import AtTheMachine, plan_on


@pytest.fixture
def run() -> AtTheMachine:
    """Twelve lines on the bench head, begun: rows 0 to 11, and row 12 closes."""
    return AtTheMachine(plan_on(head(BENCH_HEAD), 12, "dial")).done_to(0)


def test_a_row_passed_over_comes_back_before_the_run_closes(run: AtTheMachine) -> None:
    run.done_to(3)
    assert run.tap("skipped", 3)
    assert run.state.at_row == 4
    run.done_to(11)
    assert following(run.state) == 3
    assert run.tap("done", 11)
    assert (run.state.at_row, run.state.done, run.state.finished) == (3, 11, False)
    assert run.tap("done", 3)
    assert (run.state.at_row, run.state.done) == (12, 12)
    assert run.tap("done", 12)
    assert run.state.finished


def test_rows_passed_over_in_a_trace_pass_come_back_before_that_pass_closes() -> None:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 4), with_trace()).done_to(1)
    run.tap("skipped", 1)
    assert fresh_state(run.rows).gates == (4, 9)
    for row in (2, 3, 1, 4, 5):
        assert run.state.at_row == row
        run.tap("done", row)


def test_a_row_passed_over_cannot_be_passed_over_again_and_the_closing_row_never(run: AtTheMachine) -> None:
    run.tap("skipped", 0)
    for row in range(1, 12):
        run.tap("done", row)
    assert run.state.at_row == 0
    assert not run.tap("skipped", 0)
    run.tap("done", 0)
    assert run.state.at_row == 12
    assert not run.tap("skipped", 12)


def test_a_row_passed_over_and_given_up_as_bad_is_not_asked_for(run: AtTheMachine) -> None:
    run.tap("skipped", 0)
    run.done_to(11)
    run.tap("done", 11)
    assert run.state.at_row == 0
    run.tap("bad", 0, name="given up", note="the blank has a hole there")
    assert run.state.at_row == 12
    assert run.state.bad == {0: "the blank has a hole there"}
    run.tap("undone", of="given up")
    assert (run.state.at_row, run.state.bad) == (0, {})


def test_back_reopens_what_was_done_or_passed_over_last_one_at_a_time(run: AtTheMachine) -> None:
    run.done_to(2)
    run.tap("skipped", 2)
    run.done_to(12)  # 3 to 11, then 2, which comes back
    stood = []
    while run.state.trail:
        row = run.state.trail[-1].row
        assert not run.tap("back", row + 1)
        assert run.tap("back", row)
        stood.append((run.state.at_row, run.state.skipped))
    assert stood[0] == (2, (2,))
    assert stood[1] == (11, (2,))
    assert stood[-3:] == [(2, ()), (1, ()), (0, ())]
    assert run.state.done == 0


def test_a_break_holds_the_run_until_it_is_resumed(run: AtTheMachine) -> None:
    assert run.tap("paused")
    assert not run.tap("paused")
    assert not run.tap("done", 0)
    assert run.tap("note", note="lunch")
    assert run.tap("resumed")
    assert not run.tap("resumed")
    assert run.tap("done", 0)


def test_overshot_asks_for_the_same_row_again(run: AtTheMachine) -> None:
    run.done_to(5)
    run.tap("overshot", 5)
    assert run.state.overshot
    assert run.state.at_row == 5
    run.tap("done", 5)
    assert not run.state.overshot


def test_the_same_fact_twice_is_one_fact(run: AtTheMachine) -> None:
    run.tap("bad", 3, name="n", note="torn")
    assert not run.tap("bad", 3, name="n", note="torn")
    assert len(run.state.facts) == 1


def test_a_fact_counts_however_late_but_a_step_does_not(run: AtTheMachine) -> None:
    run.done_to(3)
    assert counts(run.state, Entry("note", "late", 0.0, note="x", seen=1))
    assert not counts(run.state, Entry("done", "late", 0.0, 3, seen=1))
    assert not counts(run.state, Entry("slipped", "late", 0.0, 3, angle=Fraction(1, 720), seen=1))


@pytest.mark.parametrize(
    "entry",
    [
        Entry("ring", "x", 0.0, 3),
        Entry("slipped", "x", 0.0, 3),
        Entry("bad", "x", 0.0),
        Entry("bad", "x", 0.0, 13),
        Entry("note", "x", 0.0, -1),
        Entry("undone", "x", 0.0, of="never tapped"),
        Entry("undone", "x", 0.0),
    ],
)
def test_an_entry_that_lacks_what_it_is_about_does_not_count(run: AtTheMachine, entry: Entry) -> None:
    assert not counts(run.state, entry)


def test_the_direction_can_be_answered_anew_until_a_row_is_done() -> None:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 12))
    run.tap("began", name="first", numbers_grow=False)
    assert run.tap("undone", of="first")
    assert not run.state.began
    run.tap("began", name="again", numbers_grow=True)
    run.tap("done", 0)
    assert not run.tap("undone", of="again")
    assert run.state.numbers_grow is True


def test_a_slip_is_in_force_from_then_on_and_makes_what_was_worked_since_doubtful(run: AtTheMachine) -> None:
    run.done_to(8)
    run.tap("slipped", 8, name="slip", angle=Fraction(31, 36000), joint="spindle", since=5)
    assert run.state.suspect == (5, 6, 7)
    assert run.state.anchor == (Fraction(31, 36000), Fraction(31, 36000))
    run.tap("good", 5)
    run.tap("bad", 6)
    assert list(run.state.suspect) == [7]
    run.tap("back", 7)
    assert list(run.state.suspect) == []
    run.tap("undone", of="slip")
    assert run.state.anchor == NO_SLIP


def test_a_slip_stays_in_force_when_a_row_before_it_is_reopened(run: AtTheMachine) -> None:
    slip = Fraction(1, 7200) * 6
    run.done_to(8)
    run.tap("slipped", 8, angle=slip, joint="spindle", since=6)
    run.tap("back", 7)
    assert run.state.anchor.work == run.state.anchor.ring == slip
    hand = in_hand(run.plan, run.rows, run.state)
    assert hand is not None
    assert (hand.row.index, hand.row.reached.achieved) == (7, run.rows[7].reached.target)
    assert hand.row.reached.setting != run.rows[7].reached.setting
    run.done_to(9)
    assert run.state.anchor.work == slip


def test_slips_add_up_and_one_of_the_work_alone_does_not_move_the_ring(run: AtTheMachine) -> None:
    run.tap("slipped", 0, angle=Fraction(1, 720), joint="spindle")
    run.tap("slipped", 0, angle=Fraction(-1, 360), joint="work")
    assert run.state.anchor == (Fraction(-1, 720), Fraction(1, 720))


def test_history_is_kept_and_replays_to_the_same_state(run: AtTheMachine) -> None:
    run.done_to(4)
    run.tap("skipped", 4)
    run.tap("bad", 2, name="bad", note="deep")
    run.tap("undone", of="bad")
    run.tap("back", 4)
    run.tap("slipped", 4, angle=Fraction(1, 900), joint="dial", since=1)
    kinds = [entry.kind for entry in run.journal]
    assert kinds == ["began", "done", "done", "done", "done", "skipped", "bad", "undone", "back", "slipped"]
    assert replayed(run.start, run.journal) == run.state
    assert run.state.entries == len(run.journal)


def test_a_journal_of_the_first_kinds_alone_comes_to_what_it_always_did() -> None:
    old = [
        Entry("began", "a", 1.0, numbers_grow=True, seen=0),
        Entry("done", "b", 2.0, 0, seen=1),
        Entry("done", "c", 3.0, 1, seen=2),
        Entry("done", "late", 3.0, 1, seen=2),
        Entry("back", "d", 4.0, 1, seen=3),
        Entry("done", "e", 5.0, 1, seen=4),
    ]
    state = replayed(5, old)
    assert (state.rows, state.at_row, state.entries, state.last_at) == (5, 2, 5, 5.0)
    assert (state.began, state.numbers_grow, state.finished) == (True, True, False)


def test_the_guide_shows_the_row_after_and_counts_what_is_done(run: AtTheMachine) -> None:
    run.done_to(2)
    run.tap("skipped", 2)
    shown = guide(run.plan.head, run.rows, run.state)
    assert shown.row is not None
    assert shown.next_row is not None
    assert (shown.row.index, shown.next_row.index, shown.done, shown.of) == (3, 4, 2, 13)


def test_the_row_in_hand_is_the_one_of_the_schedule_while_all_goes_well(run: AtTheMachine) -> None:
    assert in_hand(run.plan, run.rows, RunState(13)) is None
    for row in range(13):
        hand = in_hand(run.plan, run.rows, run.state)
        assert hand is not None
        assert hand.row is run.rows[row]
        run.tap("done", row)
    assert in_hand(run.plan, run.rows, run.state) is None


def test_a_row_come_back_to_is_turned_to_from_where_the_machine_stands(run: AtTheMachine) -> None:
    run.done_to(3)
    run.tap("skipped", 3)
    run.done_to(11)
    run.tap("done", 11)
    hand = in_hand(run.plan, run.rows, run.state)
    assert hand is not None
    # From 11/12 to 3/12 the next time round: 4/12 of 72 turns.
    assert (hand.row.index, hand.row.move.turns, hand.row.move.reading) == (3, 24, Fraction(0))
    assert (hand.row.reached.setting.turns, hand.row.reached.error, hand.row.goes_back) == (
        90,
        Fraction(0),
        False,
    )


def test_past_a_row_passed_over_the_next_is_two_moves_on() -> None:
    run = AtTheMachine(plan_on(head(PLATE_HEAD), 51, "compound:circles=(15, 17):holes=(10, 2)"))
    run.done_to(3)
    run.tap("skipped", 3)
    hand = in_hand(run.plan, run.rows, run.state)
    assert hand is not None
    assert (hand.row.index, hand.moves) == (4, 2)


def test_after_a_slip_every_setting_is_less_by_it_and_the_work_is_right_again(run: AtTheMachine) -> None:
    run.done_to(8)
    slip = Fraction(1, 7200) * 6  # six marks
    run.tap("slipped", 8, angle=slip, joint="spindle", since=6)
    hand = in_hand(run.plan, run.rows, run.state)
    assert hand is not None
    assert hand.row.reached.setting[:2] == (47, Fraction(94))
    assert hand.row.reached.error == 0
    assert hand.row.ring_check == 240  # the ring slipped with the work
    # The machine stands at the setting of row 7, which was 42 turns and 0: not yet moved by the slip.
    assert hand.row.move[:2] == (5, Fraction(94))


def test_a_slip_of_the_work_alone_shows_on_the_ring_and_one_of_the_dial_does_not(run: AtTheMachine) -> None:
    run.done_to(8)
    run.tap("slipped", 8, name="work", angle=Fraction(1, 1200), joint="work")
    hand = in_hand(run.plan, run.rows, run.state)
    assert hand is not None
    assert hand.row.ring_check == 240 - Fraction(360, 1200)
    run.tap("undone", of="work")
    run.tap("slipped", 8, angle=Fraction(1, 1200), joint="dial")
    hand = in_hand(run.plan, run.rows, run.state)
    assert hand is not None
    assert (hand.row.ring_check, hand.row.reached.setting.reading) == (Fraction(240), Fraction(94))


def test_what_a_plate_cannot_make_good_stays_as_an_error_of_the_row() -> None:
    run = AtTheMachine(plan_on(head(PLATE_HEAD), 60)).done_to(5)
    run.tap("slipped", 5, angle=Fraction(1, 5000), joint="spindle")
    hand = in_hand(run.plan, run.rows, run.state)
    assert hand is not None
    assert 0 < abs(hand.row.reached.error) <= Fraction(1, 2 * 40 * 15)
    assert after(run.state, Entry("done", "x", 0.0, 5)).at_row == 6


def test_a_ring_that_cannot_be_set_is_checked_from_where_it_stands_at_zero() -> None:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 12))
    run.tap("began", numbers_grow=True, name="b", angle=Fraction(10, 360))
    run.done_to(3)
    hand = in_hand(run.plan, run.rows, run.state)
    assert hand is not None
    assert (hand.row.ring_check, hand.row.reached) == (Fraction(100), run.rows[3].reached)
    assert hand.row.move == run.rows[3].move
    run.tap("slipped", 3, angle=Fraction(1, 360), joint="spindle")
    assert run.state.anchor == (Fraction(1, 360), Fraction(11, 360))
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 12))
    run.tap("began", numbers_grow=True, name="b", angle=Fraction(10, 360))
    run.tap("undone", of="b")
    assert run.state.ring_zero == 0
