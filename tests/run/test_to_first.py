"""The move back to the first line or space: followed at a machine of our own, it always comes to the first one."""

from fractions import Fraction
from math import floor

import pytest

from crankwise.part.divisions import AngleList, Divisions, EqualDivisions, EqualSteps
from crankwise.plan.passes import with_trace
from crankwise.run.in_hand import in_hand
from crankwise.run.state import NO_SLIP, Anchor
from crankwise.run.to_first import ToFirst, from_first, to_first, to_first_before
from tests.gear import BENCH_HEAD, BULL_WHEEL, MILL_TABLE, PLATE_HEAD, ROUND_TABLE, head
from tests.run.machine import AtTheMachine, plan_on

ODD_RATIO = """
name = "Odd worm"
[worm]
wheel_teeth = 81
starts = 2
[dial]
marks = 100
read_to = "1/2"
"""


def asked(run: AtTheMachine) -> ToFirst:
    there = to_first(run.plan, run.rows, run.state)
    assert there is not None
    return there


def crank(run: AtTheMachine, row: int) -> Fraction:
    """Return where the crank stands when a row is set, in turns of it from the zero, as read off the setting."""
    setting = run.rows[row].reached.setting
    assert setting.turns is not None
    assert setting.reading is not None
    assert run.plan.head.dial is not None
    return setting.turns + setting.reading / run.plan.head.dial.marks


@pytest.mark.parametrize(
    ("gear", "divisions"),
    [
        (BENCH_HEAD, EqualDivisions(149)),
        (BENCH_HEAD, EqualDivisions(127)),
        (ROUND_TABLE, EqualDivisions(97)),
        (BENCH_HEAD, EqualDivisions(149, last=80)),
        (BENCH_HEAD, AngleList(tuple(Fraction(part * part + 3, 700) for part in range(24)))),
        (MILL_TABLE, EqualSteps(40, Fraction(3))),
        (MILL_TABLE, EqualSteps(40, Fraction(25, 2))),
        (ODD_RATIO, EqualDivisions(33)),
    ],
    ids=["149", "127", "97", "an arc", "a list", "a rack", "half turns", "40.5 turns a round"],
)
def test_on_a_dial_the_crank_comes_to_the_first_reading_from_the_usual_side(
    gear: str, divisions: Divisions
) -> None:
    run = AtTheMachine(plan_on(head(gear), divisions, "dial"))
    first = crank(run, 0)
    for row in range(2, len(run.rows) - 1):
        there = asked(run.done_to(row))
        stands, setting = crank(run, row - 1), there.row.reached.setting
        reading = setting.reading
        assert reading is not None
        assert reading == run.rows[0].reached.setting.reading, (
            "what is read there is what was read at the first"
        )
        part = Fraction(reading) / run.plan.head.dial.marks  # type: ignore[union-attr]
        if there.row.goes_back:
            assert there.back is not None
            turned = stands - there.back
            assert Fraction(1, 2) <= first - turned < 1, (
                "the slack is taken up, and the reading comes up once"
            )
            ends = _up_to(turned, part)
            assert ends == first
        else:
            assert there.row.move.turns is not None
            ends = _up_to(stands + there.row.move.turns, part)
            ratio = run.plan.head.ratio
            assert ratio is not None
            assert ends >= stands
            assert (ends - first) / ratio == 1, "once round, and the work stands as it did"


def _up_to(stands: Fraction, part: Fraction) -> Fraction:
    """Turn on until the reading next shows `part` of a turn; not at all where it shows it already."""
    ends = floor(stands) + part
    return ends if ends >= stands else ends + 1


def test_a_head_whose_dial_reads_otherwise_the_next_time_round_is_turned_back() -> None:
    run = AtTheMachine(plan_on(head(ODD_RATIO), 33, "dial")).done_to(16)
    assert run.plan.head.ratio == Fraction(81, 2)
    assert asked(run).row.goes_back


def test_on_holes_and_notches_and_a_ring_it_goes_on_round() -> None:
    holes = asked(AtTheMachine(plan_on(head(PLATE_HEAD), 60)).done_to(30))
    # 29 of 60 parts of 40 turns are 19 turns and 5 of 15 holes: 20 turns and 10 holes are left.
    assert (holes.row.move.turns, holes.row.move.holes, holes.row.reached.setting.holes) == (20, (10,), (0,))
    notches = asked(AtTheMachine(plan_on(head(BULL_WHEEL), 30)).done_to(15))
    assert notches.row.move.notches == 60 - 14 * 2
    ring = asked(AtTheMachine(plan_on(head(BENCH_HEAD), 60)).done_to(30))
    assert ring.row.reached.setting.reading == 0


def test_where_every_move_is_the_same_it_is_so_many_of_them() -> None:
    plan = plan_on(head(PLATE_HEAD), 63)
    assert plan.way.method == "compound"
    there = asked(AtTheMachine(plan).done_to(30))
    assert (there.moves, there.row.move.holes) == (63 - 29, (11, 3))
    on = from_first(plan, AtTheMachine(plan).rows, 30, NO_SLIP)
    assert on.moves == 30


def test_after_it_the_move_on_is_the_one_that_the_run_then_shows() -> None:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 149)).done_to(75)
    on = from_first(run.plan, run.rows, 75, NO_SLIP)
    assert to_first_before(run.plan, run.rows, 75, NO_SLIP) == asked(run)
    run.tap("returned", 75, angle=Fraction(0))
    assert in_hand(run.plan, run.rows, run.state) == on
    assert to_first(run.plan, run.rows, run.state) is None, "it stands there"


def test_a_slip_that_was_taken_in_is_taken_off_the_first_setting_too() -> None:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 149)).done_to(70)
    run.tap("slipped", 70, angle=Fraction(10, 7200), joint="work", since=60)
    there = asked(run.done_to(75))
    assert there.row.reached.setting.reading == 90, "the work stands ten marks ahead"
    assert run.state.anchor == Anchor(Fraction(1, 720))


def test_once_a_row_is_reopened_only_the_setting_is_told() -> None:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 149)).done_to(76)
    run.tap("back", 75)
    there = asked(run)
    assert not there.is_known
    assert there.row.reached.setting.reading == 0


def test_at_the_end_of_a_pass_it_stands_there() -> None:
    run = AtTheMachine(plan_on(head(BENCH_HEAD), 149), with_trace()).done_to(300)
    assert run.state.finished
    assert to_first(run.plan, run.rows, run.state) is None
    rack = AtTheMachine(plan_on(head(MILL_TABLE), EqualSteps(40, Fraction(3)), work="space")).done_to(40)
    # 117 mm of a screw of 5 mm are 23.4 turns; half a turn past the first at least.
    assert asked(rack).back == 24
