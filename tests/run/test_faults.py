"""Each fault signs what it leaves over; what cannot be told apart is told as both."""

from dataclasses import replace
from fractions import Fraction
from math import pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.run.faults import Explanation, Kind, Residue, explain
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, head
from tests.run.machine import gear_on

DEGREE = Fraction(1, 360)
NEAR = DEGREE / 4
BENCH = replace(gear_on(head(BENCH_HEAD), 149, "dial"), backlash=DEGREE * 2 / 3)


def residues(*found: Fraction | int, every: int = 10, near: Fraction = NEAR) -> list[Residue]:
    """Residues at rows 0, 10, 20 ...; the dial should show 3 past a numeral at each."""
    return [
        Residue(row * every, Fraction(row * every, 149), Fraction(one), near, Fraction(10 * row % 100 + 3))
        for row, one in enumerate(found)
    ]


def kinds(found: tuple[Explanation, ...]) -> list[Kind]:
    return [one.kind for one in found]


def only(found: tuple[Explanation, ...], kind: Kind) -> Explanation:
    (one,) = [explanation for explanation in found if explanation.kind == kind]
    return one


def test_nothing_left_over_is_no_fault() -> None:
    assert explain(residues(0, NEAR, -NEAR, 0), BENCH) == ()
    assert explain([], BENCH) == ()


@pytest.mark.parametrize("times", [1, -1, 2, -3])
def test_a_miscount_is_parts_of_the_circle(times: int) -> None:
    part = Fraction(1, 149)
    fault = only(explain(residues(0, 0, times * part, times * part), BENCH), "miscount")
    assert (fault.times, fault.size, fault.since, fault.clear, fault.until) == (
        times,
        times * part,
        20,
        10,
        None,
    )
    assert fault.remedy == "find the row and go on from it"


@pytest.mark.parametrize("times", [1, -1])
def test_a_whole_turn_is_five_degrees_on_this_head(times: int) -> None:
    found = explain(residues(0, 0, 0, times * 5 * DEGREE), BENCH)
    assert only(found, "whole turn").times == times
    assert kinds(found)[:2] == [
        "whole turn",
        "miscount",
    ]  # two parts are 4.83 degrees: within a quarter of it
    nearer = explain(residues(0, 0, 0, times * 5 * DEGREE, near=NEAR / 2), BENCH)
    assert "miscount" not in kinds(nearer)


def test_a_misread_numeral_is_ten_marks_and_one_position_only() -> None:
    found = explain(residues(0, DEGREE / 2, 0, 0, near=DEGREE / 20), BENCH)
    fault = only(found, "misread numeral")
    assert (fault.times, fault.since, fault.clear, fault.until) == (1, 10, 0, 10)
    assert "slip" not in kinds(found)  # it was right again


def test_reading_backwards_depends_on_where_in_the_interval_it_was() -> None:
    backwards = 4 * DEGREE / 20  # 3 past the numeral read as 7 past: 4 marks of 3 minutes
    fault = only(explain(residues(0, backwards, 0, near=DEGREE / 40), BENCH), "read backwards")
    assert (fault.size, fault.since) == (backwards, 10)
    assert "read backwards" not in kinds(explain(residues(0, -backwards, 0, near=DEGREE / 40), BENCH))


@pytest.mark.parametrize("sign", [1, -1])
def test_the_backlash_is_a_wrong_approach(sign: int) -> None:
    found = explain(residues(0, sign * DEGREE * 2 / 3, 0, near=DEGREE / 20), BENCH)
    assert only(found, "wrong approach").size == sign * DEGREE * 2 / 3


def test_a_step_of_any_size_that_persists_is_a_slip() -> None:
    slip = DEGREE * 31 / 100
    found = explain(residues(0, 0, slip, slip + NEAR / 20, slip, near=NEAR / 5), BENCH)
    fault = only(found, "slip")
    assert (fault.since, fault.clear, fault.until, fault.times) == (20, 10, None, 0)
    assert abs(fault.size - slip) < NEAR / 5
    assert fault.remedy == "re-anchor from here on"
    assert kinds(found) == ["slip"]


def test_a_step_too_many_times_its_uncertainty_apart_is_not_one_step() -> None:
    assert "slip" not in kinds(explain(residues(0, DEGREE, 2 * DEGREE), BENCH))


def test_a_rounded_step_added_again_and_again_is_a_ramp() -> None:
    # 28.7 marks instead of 28.685...: 3.7 marks, 11 minutes, after 251 steps.
    step = Fraction("28.7") / 7200 - Fraction(1, 251)
    gear = gear_on(head(BENCH_HEAD), 251, "dial")
    found = explain(
        [Residue(row, Fraction(row, 251), row * step, DEGREE / 60) for row in (50, 100, 150, 200, 250)], gear
    )
    fault = only(found, "wrong step")
    assert abs(fault.size - step) < DEGREE / 60 / 250
    assert fault.remedy == "set every position from the start"
    assert "slip" not in kinds(found)


def test_work_off_centre_is_a_sine_once_in_a_turn() -> None:
    size = 0.4
    found = explain(
        [
            Residue(
                row,
                Fraction(row, 60),
                Fraction(size * (sin(2 * pi * row / 60 + 0.6) - sin(0.6)) / 360),
                NEAR / 5,
            )
            for row in range(0, 60, 6)
        ],
        gear_on(head(BENCH_HEAD), 60, "dial"),
    )
    fault = only(found, "off centre")
    assert abs(float(fault.size) * 360 - size) < 0.1
    assert kinds(found) == ["off centre"]


def test_where_a_turn_is_two_parts_both_are_told() -> None:
    found = explain(residues(0, 0, 5 * DEGREE), gear_on(head(BENCH_HEAD), 144, "dial"))
    assert kinds(found) == ["whole turn", "miscount", "slip"]


PLATE = gear_on(head(PLATE_HEAD), 60, "plain:circle=15:turns=0:holes=10")
HOLE = DEGREE * 9 / 15
WHEEL = gear_on(head(BULL_WHEEL), 12)


@pytest.mark.parametrize("times", [1, -1, 2])
def test_holes_that_were_miscounted_are_no_slip_and_no_misread_dial(times: int) -> None:
    found = explain(residues(0, 0, times * HOLE, near=DEGREE / 20), PLATE)
    fault = only(found, "miscount of holes")
    assert (fault.times, fault.since, fault.clear) == (times, 20, 10)
    assert kinds(found) == ["miscount of holes", "slip"]


def test_notches_that_were_miscounted_are_counted() -> None:
    found = explain(residues(0, 6 * DEGREE, 6 * DEGREE), WHEEL)
    assert kinds(found) == ["miscount of notches", "slip"]
    assert found[0].times == 1


@pytest.mark.parametrize("each", [1, -2])
def test_sector_arms_set_wrong_are_known_by_how_many_moves_were_made(each: int) -> None:
    """Ten moves of a hole each are 6 degrees, and forty are 24: past the whole circle it is told as well."""
    found = explain(residues(*(row * 10 * each * HOLE for row in range(5))), PLATE)
    fault = found[0]
    assert (fault.kind, fault.times, fault.size) == ("wrong arms", each, each * HOLE)
    assert fault.remedy == "set the arms again"
    (first,) = residues(10 * each * HOLE, every=1)
    once_round = replace(first, row=610, found=10 * each * HOLE)
    assert only(explain([once_round], PLATE), "wrong arms").times == each


@pytest.mark.parametrize("circle", [15, 20, 40])
def test_arms_that_may_span_too_many_or_too_few_are_told_as_too_many(circle: int) -> None:
    """After a number of moves that comes to half a turn either way nothing tells them apart; a card says the same."""
    gear = replace(PLATE, holes=(Fraction(1, 40 * circle),))
    there = replace(residues(0)[0], row=10 * circle, found=Fraction(1, 2))
    assert only(explain([there], gear), "wrong arms").times == 2


def test_a_hole_lost_once_is_not_laid_to_the_arms() -> None:
    assert "wrong arms" not in kinds(explain(residues(0, 0, HOLE, near=DEGREE / 20), PLATE))


def test_a_move_that_is_rounded_is_a_miscount_all_the_same() -> None:
    """On a ring read to half degrees, 1/77 is set as 4.5 or as 5: so much is left over, and not 4.675 degrees."""
    ring = gear_on(head(BENCH_HEAD), 77, "ring:ring=360")
    found = explain(residues(0, 5 * DEGREE), ring)
    assert (found[0].kind, found[0].times) == ("miscount", 1)
    assert kinds(explain(residues(0, Fraction(11, 2) * DEGREE), ring)) == ["slip"]


def test_a_ring_is_misread_by_its_own_numerals() -> None:
    ring = gear_on(head(BENCH_HEAD), 77, "ring:ring=360")
    assert only(explain(residues(0, 10 * DEGREE), ring), "misread numeral").times == 1
    assert "misread numeral" not in kinds(explain(residues(0, DEGREE / 2), ring))


def test_one_reading_is_a_rounded_step_where_rounding_makes_so_much() -> None:
    step = Fraction("0.3") / 7200
    one = [Residue(25, Fraction(25, 149), 25 * step, DEGREE / 60, Fraction(8))]
    fault = only(explain(one, BENCH, true_at_start=True), "wrong step")
    assert abs(fault.size - step) < DEGREE / 60 / 25
    assert "wrong step" not in kinds(explain(one, BENCH))  # after a slip, nobody knows what it began from
    coarse = [replace(one[0], found=25 * DEGREE / 10)]
    assert "wrong step" not in kinds(explain(coarse, BENCH, true_at_start=True))  # two marks at a move


@given(
    rows=st.lists(st.integers(0, 148), min_size=2, max_size=9, unique=True).map(sorted),
    times=st.sampled_from([-2, -1, 1, 2]),
    kind=st.sampled_from(["miscount", "whole turn", "misread numeral"]),
    data=st.data(),
)
def test_the_fault_that_was_made_is_always_among_those_told(
    rows: list[int], times: int, kind: Kind, data: st.DataObject
) -> None:
    since = data.draw(st.sampled_from(rows))
    unit = {
        "miscount": Fraction(1, 149),
        "whole turn": Fraction(1, 72),
        "misread numeral": Fraction(10, 7200),
    }[kind]
    near = DEGREE / 5
    out = st.fractions(-near, near, max_denominator=100_000)
    made = [
        Residue(row, Fraction(row, 149), (times * unit if row >= since else 0) + data.draw(out), near)
        for row in rows
    ]
    fault = only(explain(made, BENCH), kind)
    assert fault.times in (times, times // abs(times))
    assert fault.since == since
