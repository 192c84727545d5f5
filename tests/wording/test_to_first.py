"""The move back to the first line in words: large where it is turned, and as a sentence in a break."""

from fractions import Fraction

import pytest

from crankwise.part.divisions import EqualDivisions, EqualSteps
from crankwise.run.to_first import ToFirst, from_anywhere, to_first
from crankwise.wording.run import Figure
from crankwise.wording.to_first import repeat_to_first, sentence_to_first, told_to_first
from tests.gear import BENCH_HEAD, BULL_WHEEL, MILL_TABLE, PLATE_HEAD, head
from tests.run.machine import AtTheMachine, plan_on


def asked(run: AtTheMachine) -> ToFirst:
    there = to_first(run.plan, run.rows, run.state)
    assert there is not None
    return there


RUNS = {
    "dial": (lambda: AtTheMachine(plan_on(head(BENCH_HEAD), 149)).done_to(75)),
    "arc": (lambda: AtTheMachine(plan_on(head(BENCH_HEAD), EqualDivisions(149, last=80))).done_to(40)),
    "holes": (lambda: AtTheMachine(plan_on(head(PLATE_HEAD), 60)).done_to(31)),
    "arc of holes": (
        lambda: AtTheMachine(plan_on(head(PLATE_HEAD), EqualDivisions(60, last=40))).done_to(20)
    ),
    "ring": (lambda: AtTheMachine(plan_on(head(BENCH_HEAD), 60)).done_to(30)),
    "notches": (lambda: AtTheMachine(plan_on(head(BULL_WHEEL), 30)).done_to(15)),
    "compound": (lambda: AtTheMachine(plan_on(head(PLATE_HEAD), 63)).done_to(30)),
    "rack": (
        lambda: AtTheMachine(plan_on(head(MILL_TABLE), EqualSteps(40, Fraction(3)), work="space")).done_to(20)
    ),
}


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        ("dial", "To the first line: 36 whole turns, then come up to 0 on the dial."),
        # 39 of 149 parts of 72 turns are 18.85 turns: back by 19 and a half.
        ("arc", "To the first line: 19½ turns back, then come up to 0 on the dial."),
        ("holes", "To the first line: 20 whole turns, then on by 0 holes on the 15 circle."),
        ("arc of holes", "To the first line: 13½ turns back, then come up to hole 0 of the 15 circle."),
        ("ring", "To the first line: come up to 0° on the ring."),
        ("notches", "To the first line: move on by 32 notches of the 60."),
        (
            "compound",
            (
                "To the first line: 0 whole turns, then on by 11 + 3 holes: crank on 21, plate with it on 27. Make "
                "this move 34 times: no work is done between."
            ),
        ),
        ("rack", "To the first space: 12 turns back, then come up to 0 on the dial."),
    ],
)
def test_the_way_there_is_one_sentence(name: str, sentence: str) -> None:
    run = RUNS[name]()
    assert sentence_to_first(run.plan, to_first(run.plan, run.rows, run.state)) == sentence


def test_nothing_is_to_be_made_there() -> None:
    run = RUNS["dial"]()
    words = told_to_first(run.plan, asked(run))
    assert (words.position, words.work) == ("0", "Machine off: bring the tool to the first line.")
    assert repeat_to_first(run.plan, asked(run)) == ""


@pytest.mark.parametrize(
    ("name", "lead", "value", "unit"),
    [
        ("dial", "Come up to", "0", "on the dial"),
        ("holes", "Come up to hole", "0", "of the 15 circle"),
        ("ring", "Come up to", "0°", "on the ring"),
        ("notches", "Come up to notch", "0", "of the 60"),
        ("compound", "Come up to", "zero", "as at the start"),
    ],
)
def test_where_nobody_knows_where_it_stands_the_setting_alone_is_told(
    name: str, lead: str, value: str, unit: str
) -> None:
    run = RUNS[name]()
    words = told_to_first(run.plan, from_anywhere(run.plan, run.rows, 0, run.state.anchor))
    assert words.turns is None
    assert words.come_up_to == Figure(lead, value, unit)


def test_where_the_tool_stands_there_it_says_so() -> None:
    assert sentence_to_first(RUNS["dial"]().plan, None) == "The tool stands at the first line."
