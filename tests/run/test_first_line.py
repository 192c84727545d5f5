"""Going back to the first line or space: asked for when, what it found, what has slipped."""

from fractions import Fraction

import pytest

from crankwise.part.divisions import EqualSteps
from crankwise.part.part import Work
from crankwise.plan.passes import with_trace
from crankwise.run.entry import is_put_off
from crankwise.run.first_line import (
    NEAR_MM,
    meets,
    missed_first,
    near_turns,
    return_due,
    return_residues,
    return_that_closed,
    turns_off,
    worked_since_met,
)
from crankwise.run.in_hand import in_hand
from crankwise.run.state import Anchor
from crankwise.run.watch import Watch
from tests.gear import BENCH_HEAD, MILL_TABLE, head
from tests.run.machine import AtTheMachine, plan_on

RIM = Fraction(150)


def bench(rim: Fraction | None = RIM, work: Work = "line") -> AtTheMachine:
    return AtTheMachine(plan_on(head(BENCH_HEAD), 149, "dial", rim, work))


def watch(run: AtTheMachine) -> Watch:
    return Watch(run.plan, run.rows)


def due(run: AtTheMachine) -> int | None:
    return return_due(watch(run).checks, run.state)


def test_it_is_asked_for_before_its_row_until_it_is_answered() -> None:
    run = bench()
    assert due(run) is None
    assert due(run.done_to(74)) is None
    assert due(run.done_to(75)) == 75
    run.tap("returned", 75, angle=Fraction(0), means="loupe", name="met")
    assert due(run) is None
    run.tap("undone", of="met")
    assert due(run) == 75


def test_what_is_put_off_is_asked_again_in_the_next_break_and_at_the_end() -> None:
    run = bench().done_to(75)
    run.tap("returned", 75)
    assert is_put_off(run.journal[-1])
    assert due(run) is None
    run.tap("paused")
    assert due(run) == 75
    run.tap("resumed")
    assert due(run.done_to(80)) is None
    run.tap("paused")
    assert due(run) == 80
    run.tap("returned", 80, angle=Fraction(0))
    assert due(run) is None
    run.tap("resumed")
    run.done_to(149)
    assert due(run) == 149
    run.tap("returned", 149)
    run.done_to(150)
    assert due(run) == 149, "the run is done, and the first line was not looked at"


def test_a_first_line_that_is_not_there_or_is_bad_is_not_gone_back_to() -> None:
    run = bench()
    run.tap("began", numbers_grow=True)
    run.tap("skipped", 0)
    run.done_to(75)
    assert due(run) is None
    run = bench().done_to(75)
    run.tap("bad", 0, note="torn")
    assert due(run) is None
    run.tap("good", 0)
    assert due(run) == 75


@pytest.mark.parametrize(
    ("work", "means", "off_mm", "is_met"),
    [
        ("line", None, "0.02", True),
        ("line", None, "-0.021", False),
        ("line", "indicator", "0.006", False),
        ("space", None, "-0.005", True),
        ("space", None, "0.006", False),
        ("space", "loupe", "0.02", True),
    ],
)
def test_a_line_is_met_as_near_as_a_loupe_shows_and_a_flank_as_near_as_an_indicator(
    work: Work, means: str | None, off_mm: str, is_met: bool
) -> None:
    run = bench(work=work).done_to(75)
    run.tap("returned", 75, off_mm=Fraction(off_mm), means=means)
    assert meets(run.plan.part, run.journal[-1]) is is_met
    assert (missed_first(watch(run), run.state) is None) is is_met


def test_the_ring_agrees_and_the_first_line_is_0_41_mm_away() -> None:
    """A crank forced with the lock on: 0.31 degrees, which at a radius of 75 mm is 0.41 mm."""
    run = bench().done_to(75)
    run.tap("returned", 75, angle=Fraction(0))
    run.done_to(149)
    run.tap("returned", 149, off_mm=Fraction("0.41"), means="loupe")
    found = missed_first(watch(run), run.state)
    assert found is not None
    assert found.off is not None
    assert found.slip is not None
    assert float(found.off * 360) == pytest.approx(0.3132, abs=0.0001)
    slip = next(fault for fault in found.faults if fault.kind == "slip")
    assert (slip.since, slip.clear) == (149, 75)
    assert (found.slip.joint, found.slip.row, found.slip.angle) == ("work", 149, found.off)
    assert (found.slip.since, found.slip.suspect) == (75, tuple(range(75, 149)))

    run.tap("slipped", 149, angle=found.slip.angle, joint="work", since=found.slip.since)
    assert run.state.anchor == Anchor(found.off, Fraction(0))
    assert run.state.suspect == tuple(range(75, 149))
    assert missed_first(watch(run), run.state) is None
    assert return_residues(watch(run), run.state) == ()
    assert worked_since_met(run.plan.part, run.state) == ()


def test_another_look_a_step_or_taking_it_back_settles_it() -> None:
    run = bench().done_to(75)
    before = run.state
    for settled in ("mended", "taken back", "a step"):
        run.state = before
        run.tap("returned", 75, off_mm=Fraction("-0.3"), name=f"off, {settled}")
        assert missed_first(watch(run), run.state) is not None
        if settled == "mended":
            run.tap("returned", 75, angle=Fraction(0))
        elif settled == "taken back":
            run.tap("undone", of=f"off, {settled}")
        else:
            run.tap("done", 75)
        assert missed_first(watch(run), run.state) is None


def test_the_backlash_or_a_turn_of_the_crank_is_named_before_a_slip() -> None:
    run = bench(rim=None).done_to(75)
    run.tap("returned", 75, angle=Fraction(-1, 72), means="loupe")
    found = missed_first(watch(run), run.state)
    assert found is not None
    assert (found.faults[0].kind, found.faults[0].times) == ("whole turn", -1)
    assert [fault.kind for fault in found.faults][-1] == "slip"


def test_a_length_without_a_rim_is_kept_and_names_no_angle() -> None:
    run = bench(rim=None).done_to(75)
    run.tap("returned", 75, off_mm=Fraction("0.4"))
    found = missed_first(watch(run), run.state)
    assert found is not None
    assert (found.off, found.faults, found.slip) == (None, (), None)


def test_without_a_rim_it_is_near_as_at_a_radius_of_50_mm() -> None:
    """0.02 mm is 1.4 minutes there, 0.005 mm is 20 seconds."""
    part = bench(rim=None).plan.part
    assert near_turns(part, "loupe") * 360 * 60 == Fraction(7, 5)
    assert near_turns(part, "indicator") * 360 * 3600 == 20
    with_rim = bench(rim=Fraction(100)).plan.part
    for means in NEAR_MM:
        assert float(near_turns(part, means)) == pytest.approx(float(near_turns(with_rim, means)), rel=0.05)


def test_along_a_slide_it_is_a_length() -> None:
    run = AtTheMachine(plan_on(head(MILL_TABLE), EqualSteps(40, Fraction(3)), work="space"))
    row = watch(run).checks.returns[0].row
    assert watch(run).checks.returns[0].smallest == Fraction(1, 100) / 127_000
    run.done_to(row).tap("returned", row, off_mm=Fraction("-0.31"))
    found = missed_first(watch(run), run.state)
    assert found is not None
    assert found.off == Fraction("-0.31") / 127_000
    assert turns_off(run.plan.part, run.journal[-1]) == found.off
    assert found.slip is not None
    assert found.slip.suspect == tuple(range(row))


def test_rows_are_in_doubt_from_the_last_return_that_met_it() -> None:
    run = bench().done_to(75)
    part = run.plan.part
    assert worked_since_met(part, run.state) == tuple(range(75))
    run.tap("returned", 75)
    assert worked_since_met(part, run.state) == tuple(range(75)), "put off is not met"
    run.done_to(80).tap("ring", 80, reading=watch(run).evidence().shown[80]["ring"])
    assert worked_since_met(part, run.state) == tuple(range(80)), "a ring cannot show it"
    run.tap("returned", 80, angle=Fraction(0))
    assert worked_since_met(part, run.done_to(83).state) == (80, 81, 82)
    run.tap("back", 82)
    assert worked_since_met(part, run.state) == (80, 81)


def moved(run: AtTheMachine) -> tuple[int | None, Fraction | None, bool]:
    """Return the whole turns and the reading that lead to the row in hand, and whether the zero is passed first."""
    hand = in_hand(run.plan, run.rows, run.state)
    assert hand is not None
    setting = hand.row.reached.setting
    return hand.row.move.turns, setting.reading, hand.row.passes_zero


def test_after_a_return_the_move_is_made_from_the_first_line() -> None:
    run = bench().done_to(75)
    from_the_row_before = moved(run)
    assert from_the_row_before == (0, Fraction(24), True)
    run.tap("returned", 75)
    assert moved(run) == from_the_row_before, "put off: nobody went anywhere"
    run.tap("returned", 75, angle=Fraction(0))
    assert moved(run) == (36, Fraction(24), False), "75 of 149 parts of 72 turns are 36 turns and 24.2 marks"
    run.tap("done", 75)
    assert moved(run) == (0, Fraction(145, 2), False)


def test_a_return_that_found_a_slip_still_leaves_the_machine_at_the_first_line() -> None:
    run = bench().done_to(75)
    run.tap("returned", 75, off_mm=Fraction(41, 100))
    run.tap("slipped", 75, angle=Fraction(10, 7200), joint="work", since=0)
    assert moved(run) == (36, Fraction(14), False)


def test_reopening_a_row_after_a_return_is_from_the_first_line_too() -> None:
    run = bench().done_to(75)
    run.tap("returned", 75, angle=Fraction(0))
    run.tap("back", 74)
    assert moved(run)[:2] == (35, Fraction(76))
    run.tap("done", 74)
    assert moved(run) == (0, Fraction(24), True)


def test_a_row_passed_over_after_a_return_leaves_the_machine_where_it_is() -> None:
    run = bench().done_to(75)
    run.tap("returned", 75, angle=Fraction(0))
    run.tap("skipped", 75)
    assert moved(run) == (36, Fraction(145, 2), False)
    assert run.state.stands_at == 0
    run.tap("done", 76)
    assert run.state.stands_at == 76


def test_in_a_later_pass_the_move_is_made_from_the_first_line_of_its_own_round() -> None:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 149, rim_mm=RIM), with_trace()).done_to(150 + 75)
    run.tap("returned", 225, angle=Fraction(0))
    assert moved(run) == (36, Fraction(24), False)


def test_on_a_closing_row_what_ended_it_is_taken_back_with_it() -> None:
    run = bench().done_to(149)
    part = run.plan.part
    run.tap("returned", 149, name="met", angle=Fraction(0))
    assert return_that_closed(part, run.rows, run.state) is None, "not ended yet"
    run.done_to(150)
    closed = return_that_closed(part, run.rows, run.state)
    assert closed is not None
    assert closed.tap == "met"
    run.tap("returned", 149, name="again", angle=Fraction(0))
    assert return_that_closed(part, run.rows, run.state) == closed, "looked at once more, when it was done"
    off = bench().done_to(149)
    off.tap("returned", 149)
    assert return_that_closed(part, off.rows, off.done_to(150).state) is None, "put off"
    middle = bench().done_to(75)
    middle.tap("returned", 75, angle=Fraction(0))
    assert return_that_closed(part, middle.rows, middle.done_to(76).state) is None


def test_the_closing_row_is_the_return_itself() -> None:
    run = bench().done_to(149)
    before = moved(run)
    run.tap("returned", 149, angle=Fraction(0))
    assert moved(run) == before
