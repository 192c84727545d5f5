"""The words of the run page beyond the row: the journal, what brings the run to the machine, a slip."""

from dataclasses import replace
from fractions import Fraction

import pytest

from crankwise.plan.schedule import schedule
from crankwise.run.evidence import Evidence, Readable
from crankwise.run.in_hand import InHand
from crankwise.run.journal import Entry
from crankwise.wording.run import next_text
from crankwise.wording.run_page import (
    GO_BACK_FIRST,
    bring_text,
    entry_text,
    left_at,
    repeat_text,
    scale_asks,
    scale_hint,
    shows_text,
    worse_off,
)
from crankwise.wording.run_where import listed_text
from tests.gear import PLATE_HEAD, head
from tests.run.machine import AtTheMachine, plan_on
from tests.wording.test_run_row import plan

PLAN = plan()
ROWS = schedule(PLAN)


@pytest.mark.parametrize(
    ("entry", "told"),
    [
        (Entry("began", "t", 0.0), "Begun; the direction was tested."),
        (Entry("done", "t", 0.0, 4), "Position 4: done."),
        (Entry("back", "t", 0.0, 4), "Position 4: reopened."),
        (Entry("skipped", "t", 0.0, 4), "Position 4: passed over, to come back to."),
        (Entry("bad", "t", 0.0, 4, note="torn"), "Position 4: bad: torn"),
        (Entry("bad", "t", 0.0, 4), "Position 4: bad"),
        (Entry("good", "t", 0.0, 4), "Position 4: looked at, and good"),
        (Entry("paused", "t", 0.0), "Paused."),
        (Entry("resumed", "t", 0.0), "Gone on."),
        (Entry("overshot", "t", 0.0, 4), "Position 4: gone past, and come up to again."),
        (Entry("ring", "t", 0.0, 4, reading=Fraction(144)), "Position 4: the ring showed 144.00."),
        (Entry("note", "t", 0.0, note="oil"), "oil"),
        (Entry("undone", "t", 0.0, of="x"), "Something written before was taken back."),
        (
            Entry("slipped", "t", 0.0, 4, angle=Fraction(-31, 36000), joint="work"),
            (
                "From position 4 on: the work on its arbor has slipped, and the work stands 0.31 degrees "
                "(0°18'36.0\") behind."
            ),
        ),
    ],
)
def test_a_line_of_the_journal(entry: Entry, told: str) -> None:
    assert entry_text(entry, ROWS, PLAN) == told


def test_what_brings_the_run_to_where_the_machine_stands() -> None:
    assert bring_text(5, 4, ROWS) == "If position 4 is done, tick it: the run then stands at 5."
    assert bring_text(7, 4, ROWS).startswith("If positions 4 to 6 are done, 3 of them, tick them")
    assert "reopen those from 2 on" in bring_text(2, 4, ROWS)


def test_positions_that_were_worked_in_another_order_are_told_one_by_one() -> None:
    """By blocks of 12 the run goes 0, 5, 10, 3, 8, 1: "8 to 1" would be no span."""
    run = AtTheMachine(plan_on(head(PLATE_HEAD), 12, "block:circle=15:turns=16:holes=10:parts_at_once=5"))
    assert bring_text(7, 4, run.rows) == (
        "If positions 8, 1, 6 are done, tick them: the run then stands at 11. Look at each first."
    )
    assert listed_text(range(9), run.rows) == ("0 to 4 in the order worked", ", 9 of them")
    assert listed_text([4, 5, 6], ROWS) == ("4 to 6", ", 3 of them")


def test_a_drive_and_a_pin_told_against_are_asked_for_as_they_are_read() -> None:
    assert scale_asks(Readable("step", 288000)) == "The drive's count shows"
    assert (
        scale_hint(Readable("step", 288000))
        == "What the drive shows, counted from the start: a whole number."
    )
    assert scale_hint(Readable("back hole", 49)) == (
        "Counted: a whole number from 0 to 48; counted against, down to -48."
    )


def test_a_move_made_several_times_says_how_often() -> None:
    assert repeat_text(InHand(ROWS[4])) == ""
    assert repeat_text(InHand(ROWS[4], 3)) == "Make this move 3 times: no work is done between."


def test_what_is_gone_back_first_is_said_before_the_move_and_in_the_row_that_comes_next() -> None:
    back = replace(ROWS[4], goes_back=True)
    assert repeat_text(InHand(back)) == GO_BACK_FIRST
    assert "past the zero, and come up to it again" in GO_BACK_FIRST
    assert repeat_text(InHand(back, 1, 7)).startswith("First make the move the other way 7 times")
    assert next_text(plan(), back).startswith("4: first go back, then ")


def test_where_the_machine_was_left() -> None:
    assert left_at(Evidence(plan(), ROWS), 3) == "dial 60, ring 108.00"


def test_how_near_a_scale_is_read() -> None:
    assert scale_hint(Readable("dial", 100, Fraction(1, 4))) == "From 0 to below 100; read to 0.5."
    assert scale_hint(Readable("hole", 49)) == "Counted: a whole number from 0 to 48."
    assert (shows_text("ring", Fraction(360, 127)), shows_text("dial", Fraction(113, 2))) == ("2.83", "56.5")


def test_which_way_the_ring_is_off() -> None:
    assert worse_off(Fraction(-1, 72)) == (
        "The ring stands 5.00 degrees (5°0'0.0\") behind what it should show."
    )
