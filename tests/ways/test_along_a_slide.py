"""A slide's dial: every place against plain fractions of millimetres, and the working as on paper."""

from collections.abc import Iterator
from fractions import Fraction
from math import floor

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.exact.length import INCH, along
from crankwise.exact.number import PI
from crankwise.head.dial import Dial
from crankwise.head.head import Head
from crankwise.head.slide import Slide
from crankwise.part.divisions import EqualDivisions, EqualSteps
from crankwise.ways.search import find_ways
from crankwise.ways.way import Way
from crankwise.wording.ways import working_text
from tests.gear import BENCH_HEAD, head

MODULE_1 = EqualSteps(40, PI)


def table(lead: Fraction, marks: int = 100, read_to: Fraction = Fraction(1)) -> Head:
    return Head("Mill table", dial=Dial(marks, read_to, 0), slide=Slide(lead))


def only_way(on: Head, steps: EqualSteps) -> Way:
    (way,) = find_ways(on, steps)
    assert way.method == "dial"
    return way


def by_hand(
    lead: Fraction, marks: int, read_to: Fraction, step: Fraction, count: int
) -> Iterator[tuple[int, Fraction, Fraction]]:
    """Whole turns, reading and error in mm of each place, in plain millimetres; halves go to the even place."""
    finest = lead * read_to / marks
    for number in range(count):
        target = step * number
        below = floor(target / finest)
        over = target / finest - below
        place = below + (over > Fraction(1, 2) or (over == Fraction(1, 2) and below % 2 == 1))
        turns = floor(place * finest / lead)
        yield turns, (place * finest - turns * lead) / lead * marks, place * finest - target


leads = st.sampled_from(
    [Fraction(5), Fraction(3), Fraction("2.5"), INCH / 10, INCH / 8, INCH / 5, Fraction(22, 7)]
)
steps_mm = st.fractions(Fraction(1, 5), 40, max_denominator=997) | st.sampled_from(
    [PI, PI * INCH / 24, PI / 2]
)


@given(leads, st.integers(10, 250), st.integers(1, 5), steps_mm, st.integers(1, 60))
def test_every_place_is_what_plain_fractions_give(
    lead: Fraction, marks: int, part: int, step: Fraction, count: int
) -> None:
    read_to = Fraction(1, part)
    way = only_way(table(lead, marks, read_to), EqualSteps(count, step))
    found = [(one.setting.turns, one.setting.reading, along(one.error)) for one in way.reached()]
    assert found == list(by_hand(lead, marks, read_to, step, count))
    assert along(way.worst_error) == max(abs(error) for _, _, error in found)
    assert along(way.worst_error) <= lead / (2 * marks * part)


@pytest.mark.parametrize(
    ("position", "turns", "reading", "micrometres"),
    # pi / 0.05 = 62.8319 marks; x 2, x 3, x 39
    [(0, 0, 0, "0"), (1, 0, 63, "8.41"), (2, 1, 26, "16.81"), (3, 1, 88, "-24.78"), (39, 24, 50, "-22.11")],
)
def test_module_1_on_a_screw_of_5_mm_as_worked_on_paper(
    position: int, turns: int, reading: int, micrometres: str
) -> None:
    reached = list(only_way(table(Fraction(5)), MODULE_1).reached())[position]
    assert (reached.setting.turns, reached.setting.reading) == (turns, Fraction(reading))
    assert abs(along(reached.error) * 1000 - Fraction(micrometres)) < Fraction(1, 200)


def test_the_circular_pitch_of_24_to_the_inch_stands_on_an_inch_dial() -> None:
    """Circular pitch of 24 DP: 0.1309 in, as every handbook's table of circular pitches prints it."""
    way = only_way(table(INCH / 10), EqualSteps(2, PI * INCH / 24))
    (_, second) = way.reached()
    assert abs(along(second.target) / INCH - Fraction("0.1309")) < Fraction(1, 20_000)
    assert (second.setting.turns, second.setting.reading) == (1, Fraction(31)), "0.100 and 0.031 in"


def test_a_metric_rack_on_an_inch_screw_has_no_rounding_but_its_dial_s() -> None:
    """Ten steps of 2.54 mm are an inch: ten turns of a screw of 1/10 in, to the mark."""
    way = only_way(table(INCH / 10), EqualSteps(11, Fraction("2.54")))
    assert way.exact
    assert [one.setting.turns for one in way.reached()] == list(range(11))


def test_a_long_rack_is_no_further_out_at_its_end() -> None:
    way = only_way(table(Fraction(5)), EqualSteps(10_000, PI))
    last = list(way.reached())[-1]
    assert abs(along(last.error)) <= Fraction(5, 200)
    assert last.achieved < 1, "nothing comes round"


def test_a_line_does_not_close() -> None:
    way = only_way(table(Fraction(5)), MODULE_1)
    assert way.closure() is None
    assert way.crank_turns == PI * 39 / 5


def test_round_work_is_not_for_a_slide_nor_a_rack_for_a_head() -> None:
    assert find_ways(table(Fraction(5)), EqualDivisions(40)) == []
    assert find_ways(head(BENCH_HEAD), MODULE_1) == []


def test_the_working_is_in_marks_and_millimetres() -> None:
    told = [working_text(step) for step in only_way(table(Fraction(5)), MODULE_1).working()]
    assert told == [
        "a mark is worth: 5 / 100 = 0.05 mm",
        "one step: 3.1415926535 / 0.05 = about 62.8319 marks",
        "position 39, counted from the start: 39 x 3.1415926535 / 0.05 = about 2450.4423 marks",
        "the nearest that can be set: 2450 / 1 = 2450 marks",
        "whole turns in that: 2450 / 100, rounded down = 24 turns",
        "and on the dial: 2450 - 24 x 100 = 50 marks",
        "error of position 39: (2450 - 2450.4422698000) x 0.05 = about -0.02211 mm",
        "bound for any position: half of the least that can be set: 5 / (2 x 100 x 1) = 0.025 mm",
        "worst position of these: the largest of them all, either way = about 0.02478 mm",
    ]
