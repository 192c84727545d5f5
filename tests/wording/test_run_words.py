"""What is said at the machine when something is not as it should be, read aloud."""

from dataclasses import replace
from fractions import Fraction

from crankwise.part.divisions import EqualDivisions
from crankwise.plan.passes import ONE_PASS, Pass, with_trace
from crankwise.run.check_points import checks
from crankwise.run.faults import Residue, explain
from crankwise.run.merge import merged
from crankwise.run.where_am_i import where_am_i
from crankwise.wording.run_checks import (
    check_question,
    checks_text,
    conflict_text,
    last_reading_text,
    pass_text,
    promise_text,
    return_text,
    witness_text,
)
from crankwise.wording.run_faults import fault_text
from crankwise.wording.run_where import where_text
from tests.gear import BENCH_HEAD, PLATE_HEAD, ROUND_TABLE, head
from tests.run.machine import AtTheMachine, gear_on, plan_on


def tide_ring(done: int) -> AtTheMachine:
    return AtTheMachine(plan_on(head(BENCH_HEAD), 149)).done_to(done)


def said(run: AtTheMachine, **read: str) -> tuple[str, ...]:
    evidence = run.evidence
    readings = [evidence.reading(name, Fraction(value)) for name, value in read.items()]
    return where_text(where_am_i(evidence, readings, run.state), run.rows)


def test_where_the_scales_agree_the_position_is_said_and_no_more() -> None:
    assert said(tide_ring(89), dial="0.7", ring="215") == ("You are at position 89.",)


def test_without_the_ring_it_is_said_that_the_turns_were_not_shown() -> None:
    assert said(tide_ring(89), dial="0.7") == (
        "You are at position 89.",
        "What was read does not show which turn of the crank this is: it holds if the whole turns were right.",
    )


def test_where_it_may_stand_between_positions_is_said_with_its_odds() -> None:
    told = said(tide_ring(2), dial="97", ring="9.83")
    assert told[0] == "No position agrees with what was read."
    assert told[2] == (
        "At no position, 5.03 degrees (5°1'30.0\") past position 2, and nothing has slipped: 98 in 100."
    )


def test_where_holes_are_counted_it_is_the_plate_that_may_have_turned() -> None:
    run = AtTheMachine(plan_on(head(PLATE_HEAD + "[ring]\ngraduations = 360\n"), 13)).done_to(5)
    first = said(run, hole="18", ring="138.5")[0]
    assert first == (
        "The ring agrees with position 5 and the setting does not: it shows 0.69 degrees (0°41'32.3\") more than it "
        "should. The plate has turned, or the holes were miscounted: count them again first; over 99 in 100."
    )


def test_a_slip_is_said_with_its_size_both_ways_its_side_and_what_to_look_at() -> None:
    run = tide_ring(120)
    run.tap("ring", 120, reading=Fraction(290))
    run.done_to(126)
    first, suspect, *do = said(run, dial="40.5", ring="302.34")
    assert first == (
        "The setting agrees with position 125 and the ring does not: the work stands 0.32 degrees (0°18'54.0\") "
        "ahead of its setting, give or take 15 minutes of arc. The wheel has slipped on its spindle, or the ring "
        "on it; over 99 in 100."
    )
    assert suspect == "It slipped at position 120 at the earliest: look at positions 120 to 125, 6 of them."
    assert len(do) == 2


def test_a_whole_turn_out_is_said_as_a_turn() -> None:
    run = tide_ring(60)
    shown = run.evidence.shown[60]
    (told,) = said(run, dial=str(shown["dial"]), ring=str(round(shown["ring"] + 5, 1)))
    assert told.startswith("You are 1 whole turn of the crank past position 60, at no position.")


def test_what_cannot_be_decided_lists_what_agrees() -> None:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 144, "dial")).done_to(50)
    told = said(run, dial="50")
    assert told[0] == "These readings do not decide it."
    assert told[1].startswith("Position 49: ")
    assert told[-2].startswith("And 66 more: ")
    assert told[-2].endswith(" in 100 for all of them.")


def test_the_odds_told_come_to_a_hundred_or_the_rest_is_explained() -> None:
    told = said(AtTheMachine(plan_on(head(BENCH_HEAD), 127)).done_to(3), dial="90")
    assert told == (
        "These readings do not decide it.",
        "Position 118: 77 in 100.",
        (
            "Position 0: under 1 in 100, if misread. The dial would show 0, and was read wrongly by one numbered "
            "interval."
        ),
        "The rest, 22 in 100: on the way between positions, or at one with something slipped or read wrongly.",
        "Read one more scale, or read these more nearly.",
    )


def test_a_position_next_in_order_one_mark_away_is_told() -> None:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 127)).done_to(3)
    beside = (
        "Position 4, near where the journal stands, shows 27 on the dial, about a mark from what was read: it is not "
        "among these. Read the dial again."
    )
    assert run.evidence.shown[4]["dial"] == 27
    assert beside in said(run, dial="28")
    assert beside not in said(run, dial="28", ring="200"), "the ring says that it is not there"
    assert not any("about a mark" in line for line in said(run, dial="29"))


def test_a_misreading_is_asked_to_be_read_again() -> None:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 144, "dial")).done_to(50)
    assert said(run, dial="60", ring="122.5") == (
        "You are at position 49, if one reading was wrong.",
        (
            "The dial would show 50, and was read wrongly by one numbered interval. "
            "Read it again between its two numerals before you go on."
        ),
    )


def test_a_fault_is_said_in_three_parts_what_why_and_what_to_do() -> None:
    gear = gear_on(head(BENCH_HEAD), 149, "dial")
    near = Fraction(1, 3600)
    left = [
        Residue(row, Fraction(row, 149), found, near)
        for row, found in ((10, Fraction(0)), (20, Fraction(-1, 72)))
    ]
    found = explain(left, gear)
    run = tide_ring(0)
    what, why, do = fault_text(found[0], run.rows, run.plan.part)
    assert what == (
        "The crank is out by 1 whole turn too few. Seen from position 20 on, and not yet at position 10."
    )
    assert (
        why
        == "What is left over, 5.00 degrees (5°0'0.0\") behind, is just what that many turns of the crank make."
    )
    assert do == "Unlock, go back half a turn or more past the setting, and come up to it the right way."


def test_checks_promise_in_numbers_and_own_up_to_what_they_cannot_show() -> None:
    run = tide_ring(0)
    plan = checks(run.evidence)
    assert check_question(plan.points[0], run.evidence) == (
        "Read the ring before you work: it should show 60.40.",
    )
    assert promise_text(plan.promise) == (
        "A lost or doubled move that the scales can show stays hidden for 25 positions at most.",
        "A slip of more than 0.50 degrees (0°30'0.0\") shows on the ring.",
    )
    plates = checks(AtTheMachine(plan_on(head(PLATE_HEAD), 60)).evidence)
    assert promise_text(plates.promise)[-1] == (
        "No scale that is read here can show a whole turn too few, a whole turn too many: "
        "count aloud, and mark each position."
    )
    assert witness_text(plates.witness_marks) == (
        "Before you start, scribe or pencil a mark across the wheel and its spindle, across the work and its "
        "arbor, across the head and the table."
    )
    rim = checks(AtTheMachine(plan_on(head(BENCH_HEAD), 149, rim_mm=Fraction(150))).evidence)
    assert "Go round to the first line, machine off" in return_text(rim.returns[0], run.plan)
    assert "0.03 degrees (0°1'50.0\")" in return_text(rim.returns[0], run.plan)


def test_the_promise_tells_of_the_returns_to_the_first_line() -> None:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 149, rim_mm=Fraction(150)))
    # 0.04 mm at a radius of 75 mm is 110.0 seconds.
    assert checks_text(run.plan, checks(run.evidence), run.rows)[1:] == (
        "A slip of more than 0.50 degrees (0°30'0.0\") shows on the ring.",
        (
            "Before positions 75 and 0 = 149 you are asked to bring the tool to the first line, machine off. A slip of "
            "more than 0.03 degrees (0°1'50.0\") shows there, even one too small for every scale."
        ),
        "There and on again is once round each time, 72 turns of the crank.",
    )
    few = AtTheMachine(plan_on(head(BENCH_HEAD), 12, work="space"))
    assert checks_text(few.plan, checks(few.evidence), few.rows)[-1] == (
        "Before position 0 = 12 you are asked to bring the tool to the first space, machine off. A slip shows there, "
        "even one too small for every scale."
    )
    passes = AtTheMachine(few.plan, with_trace(ONE_PASS))
    assert checks_text(few.plan, checks(passes.evidence), passes.rows)[-1].startswith(
        "Where a pass comes round to its first you are asked"
    )
    long = AtTheMachine(run.plan, with_trace(ONE_PASS))
    assert checks_text(run.plan, checks(long.evidence), long.rows)[-2].startswith(
        "Half way through each pass of 20 positions or more, and where a pass comes round to its first you are asked"
    )
    part = AtTheMachine(plan_on(head(BENCH_HEAD), EqualDivisions(60, last=5)))
    assert checks_text(part.plan, checks(part.evidence), part.rows) == promise_text(
        checks(part.evidence).promise
    )


def test_where_no_reading_is_asked_at_the_last_rows_the_promise_says_so() -> None:
    arc = AtTheMachine(plan_on(head(ROUND_TABLE), EqualDivisions(180, last=20)))
    found = checks(arc.evidence)
    assert (found.promise.watched_to, len(arc.rows)) == (19, 21)
    told = (
        "The last reading is asked before position 19: after it no scale shows for sure what goes wrong, so"
    )
    assert sum(line.startswith(told) for line in checks_text(arc.plan, found, arc.rows)) == 1
    assert last_reading_text(arc.plan, found.promise, arc.rows[:20]) == ""


def test_where_it_is_not_gone_back_half_way_the_promise_says_so() -> None:
    run = AtTheMachine(plan_on(head(PLATE_HEAD), 63))
    assert checks_text(run.plan, checks(run.evidence), run.rows)[-2:] == (
        (
            "Before position 0 = 63 you are asked to bring the tool to the first line, machine off. A slip shows "
            "there, even one too small for every scale."
        ),
        (
            "Half way it is not asked: there and on again would be 63 more moves, and each may be lost. So a slip too "
            "small for every scale may stay hidden until the end of the pass."
        ),
    )


def test_a_pass_is_named_with_its_depth() -> None:
    assert pass_text(Pass("rough", depth_mm=Fraction(3, 2)), 0, 2) == "Roughing, pass 1 of 2, 1.50 mm deep"
    assert pass_text(Pass(), 0, 1) == ""


def test_a_conflict_says_what_it_is_about_and_how_much_hangs_on_it() -> None:
    server, phone = tide_ring(2), tide_ring(2)
    phone.done_to(4)
    server.tap("back", 1)
    away = [*phone.journal[:3], *(replace(entry, tap=f"phone {entry.tap}") for entry in phone.journal[3:])]
    found = merged(server.start, server.journal, away)
    assert conflict_text(found.conflicts[0], server.rows) == (
        "The phone went on from another row than the one where this run stands. It is about position 2. "
        "2 entries of the phone are not taken in. Look at the work, and say which is right."
    )
