"""What is told at each row, for each kind of way, read as an operator would."""

from fractions import Fraction

import pytest

from crankwise.head.head import Head
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.passes import with_trace
from crankwise.plan.plan import Plan, planned
from crankwise.plan.schedule import schedule
from crankwise.run.guide import direction_test
from crankwise.sheets.columns import cell_of
from crankwise.ways.search import find_ways
from crankwise.ways.way import Way
from crankwise.wording.run import (
    asked_text,
    diameter_text,
    direction_question,
    disagreement,
    finished_text,
    next_text,
    rows_text,
    told,
)
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, head
from tests.run.machine import plan_on

HALF_RING = 'name = "Ring only"\n[ring]\ngraduations = 360\nread_to = "1/2"'


def plan_of(toml: str, count: int, method: str = "") -> Plan:
    gear, part = head(toml), Part(EqualDivisions(count), work="line")
    if not method:
        best = planned(gear, part)
        assert best is not None
        return best
    return next(Plan(part, way) for way in ways(gear, part) if way.method == method)


def ways(gear: Head, part: Part) -> list[Way]:
    return list(find_ways(gear, part.divisions))


def test_the_dial_is_come_up_to_between_its_numerals() -> None:
    plan = plan_of(BENCH_HEAD, 127, "dial")
    row = told(plan, schedule(plan)[1])
    assert row.turns is not None
    assert (row.turns.value, row.turns.unit) == ("0", "whole turns")
    assert (row.come_up_to.lead, row.come_up_to.value) == ("then come up to", "56.5")
    assert row.detail == "between 50 and 60: 6.5 past 50"
    assert row.ring_check == "2.83°"
    assert row.since_zero == "0 turns + 56.5"
    assert row.work == "Scribe the line."


def test_the_way_past_zero_is_told() -> None:
    plan = plan_of(BENCH_HEAD, 127, "dial")
    rows = schedule(plan)
    assert told(plan, rows[2]).come_up_to.lead == "then past 0, come up to"
    assert next_text(plan, rows[2]) == "2: past 0, come up to 13.5"


def test_the_first_row_is_at_zero_and_asks_for_no_turn() -> None:
    plan = plan_of(BENCH_HEAD, 127, "dial")
    first = told(plan, schedule(plan)[0])
    assert first.turns is None
    assert (first.come_up_to.lead, first.come_up_to.value) == ("Start at", "0")


def test_the_closing_row_must_fall_in_the_first_line() -> None:
    plan = plan_of(BENCH_HEAD, 127, "dial")
    last = told(plan, schedule(plan)[-1])
    assert last.position == "0 = 127"
    assert last.work == "Motor isolated: the tool must fall in the first line."


def test_holes_are_moved_on_by_and_the_hole_is_named() -> None:
    plan = plan_of(PLATE_HEAD, 24, "plain")
    row = told(plan, schedule(plan)[1])
    assert row.turns is not None
    assert (row.turns.value, row.turns.unit) == ("1", "whole turn")
    assert (row.come_up_to.value, row.come_up_to.unit) == ("10", "holes on the 15 circle")
    assert row.detail == "ends in hole 10 (the first is 0)"
    assert next_text(plan, schedule(plan)[2]) == "2: 1 whole turn, then on by 10"


def test_two_circles_are_told_with_their_ways() -> None:
    plan = plan_of(PLATE_HEAD, 59, "compound")
    row = told(plan, schedule(plan)[1])
    assert row.come_up_to.unit.startswith("holes: crank on ")
    assert (" with it on " in row.come_up_to.unit) == ("+" in row.come_up_to.value)


def test_notches_and_the_ring() -> None:
    plan = plan_of(BULL_WHEEL, 12)
    row = told(plan, schedule(plan)[1])
    assert (row.turns, row.come_up_to.value, row.come_up_to.unit) == (None, "5", "notches of the 60")
    plan = plan_of(HALF_RING, 7)
    row = told(plan, schedule(plan)[1])
    assert (row.come_up_to.lead, row.come_up_to.value, row.come_up_to.unit) == (
        "Come up to",
        "51.5°",
        "on the ring",
    )


@pytest.mark.parametrize(
    ("toml", "question"),
    [
        (BENCH_HEAD, "Does the number under the index line of the dial grow?"),
        (HALF_RING, "Turn the spindle clockwise"),
        (BULL_WHEEL, "mark it with an arrow"),
    ],
)
def test_the_direction_is_asked_of_what_can_be_seen(toml: str, question: str) -> None:
    assert question in direction_question(direction_test(head(toml)))


def test_a_disagreement_says_what_the_description_says() -> None:
    assert "makes the numbers of the dial grow; you saw the opposite" in disagreement(
        direction_test(head(BENCH_HEAD))
    )


def test_the_last_word_counts_positions_and_not_the_closing_row() -> None:
    plan = plan_of(BENCH_HEAD, 127, "dial")
    assert finished_text(plan, 128, True).startswith("All 127 lines are done, and the last move came back")
    one = Plan(Part(AngleList((Fraction(0),)), work="hole"), plan.way)
    assert finished_text(one, 1, False) == "The one position is done."


def test_what_the_rows_of_a_run_are_is_told_with_its_closing_rows() -> None:
    plan = plan_of(BENCH_HEAD, 127, "dial")
    assert rows_text(schedule(plan)) == "127 positions and the closing row"
    assert rows_text(schedule(plan, with_trace())) == "254 in 2 passes and 2 closing rows"
    arc = Plan(Part(EqualDivisions(60, first=0, last=11), work="hole"), plan.way)
    assert rows_text(schedule(plan_on(head(BENCH_HEAD), arc.part.divisions))) == "12 positions"


def test_the_closing_row_is_in_the_first_notch_again() -> None:
    plan = plan_of(BULL_WHEEL, 12)
    *_, last, closing = schedule(plan)
    assert told(plan, last).since_zero == "notch 55"
    assert closing.reached.setting.notches == 60
    assert told(plan, closing).since_zero == "notch 0"
    assert cell_of(plan, closing, "notches", Fraction(1)).text == "0"


def test_what_is_asked_in_one_phrase() -> None:
    plan = plan_of(BENCH_HEAD, 127, "dial")
    some = Part(EqualDivisions(60, first=0, last=11), work="hole")
    angles = Part(AngleList((Fraction(0), Fraction(1, 7))), work="flat")
    assert asked_text(plan) == "127 lines"
    assert asked_text(Plan(some, plan.way)) == "12 of 60 holes"
    assert asked_text(Plan(angles, plan.way)) == "2 flats at angles of your own"


def test_a_diameter_is_told_in_both_units() -> None:
    assert diameter_text(Fraction(200), inch_first=False) == "200 mm (7.874 in)"
    assert diameter_text(Fraction(127, 5), inch_first=True) == "1 in (25.4 mm)"
