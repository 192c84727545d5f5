"""One row whole: the pass it belongs to, its line and numeral, and the sentence that is spoken."""

from fractions import Fraction

from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Mark, Part
from crankwise.plan.passes import ONE_PASS, Pass, Passes
from crankwise.plan.plan import Plan, planned
from crankwise.plan.schedule import schedule
from crankwise.wording.run_row import RowWords, RowWriter
from tests.gear import BENCH_HEAD, head

MARKS = (
    Mark("long", "0", "stop piece 3 mm"),
    *(Mark("short") for _ in range(4)),
    Mark("middle"),
    *(Mark("short") for _ in range(4)),
)


def plan(marks: tuple[Mark, ...] = ()) -> Plan:
    found = planned(head(BENCH_HEAD), Part(EqualDivisions(10), work="line", marks=marks), "dial")
    assert found is not None
    return found


def words(made: Plan, index: int, passes: Passes = ONE_PASS) -> RowWords:
    rows = schedule(made, passes)
    return RowWriter(made, rows).words(rows[index])


def test_a_long_line_tells_its_stop_piece_and_its_numeral() -> None:
    first = words(plan(MARKS), 0)
    assert (first.mark, first.numeral, first.is_long) == ("long line, stop piece 3 mm", "0", True)
    assert words(plan(MARKS), 5).mark == "middle line"
    assert not words(plan(MARKS), 1).is_long


def test_the_closing_row_has_no_line_to_make() -> None:
    closing = words(plan(MARKS), 10)
    assert (closing.mark, closing.numeral, closing.is_long) == ("", "", False)


def test_a_part_that_tells_no_lines_apart_has_none_that_is_long() -> None:
    assert not words(plan(), 0).is_long
    assert words(plan(), 3).mark == ""


def test_the_pass_and_what_is_done_in_it() -> None:
    passes = (Pass("trace"), Pass("rough", depth_mm=Fraction(3, 2)), Pass("finish"))
    assert words(plan(), 3, passes).pass_text == "Trace, pass 1 of 3"
    assert words(plan(), 3, passes).told.work == "A faint mark only."
    assert words(plan(), 14, passes).pass_text == "Roughing, pass 2 of 3, 1.50 mm deep"
    assert words(plan(), 14, passes).told.work == "Rough: scribe the line."
    assert words(plan(), 25, passes).told.work == "Finish: scribe the line."
    assert words(plan(), 3).pass_text == ""


def test_the_row_is_spoken_in_one_breath() -> None:
    assert words(plan(MARKS), 5).say("clockwise") == (
        "Position 5. Clockwise. 7 whole turns, then come up to 0 on the dial. On the numeral 0. "
        "Middle line. Scribe the line."
    )
