"""The traps of a number of parts: what a setting really cuts, and why a number cannot be had."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.ways.traps import (
    MissingFactor,
    NearMiss,
    PlainSetting,
    RowNeedsGears,
    SetByEye,
    WormStarts,
    prime_factors,
    really_divides,
    traps,
)
from tests.gear import BENCH_HEAD, PLATE_HEAD, head, worm_head


def rows_of(count: int) -> RowNeedsGears:
    (found,) = [
        trap for trap in traps(head(PLATE_HEAD), EqualDivisions(count)) if isinstance(trap, RowNeedsGears)
    ]
    return found


def missing_of(count: int, circles: str = "[15, 16, 17, 18, 19, 20]", ratio: str = "40") -> MissingFactor:
    gear = worm_head(ratio, f"[[plates]]\ncircles = {circles}\n")
    (found,) = [trap for trap in traps(gear, EqualDivisions(count)) if isinstance(trap, MissingFactor)]
    return found


def test_22_holes_on_the_33_circle_cut_60_and_not_57() -> None:
    # A chart's row for 57 used without its gears: 40 / (22/33) = 60.
    cuts = dict(rows_of(57).cuts)
    assert PlainSetting(33, 0, 22) in cuts[60]
    assert really_divides(Fraction(40), PlainSetting(33, 0, 22)) == 60


@given(count=st.integers(2, 2000))
def test_every_setting_that_is_named_cuts_the_number_that_is_named(count: int) -> None:
    for trap in traps(head(PLATE_HEAD), EqualDivisions(count)):
        if isinstance(trap, RowNeedsGears):
            named = [(cut, setting) for cut, settings in trap.cuts for setting in settings]
        elif isinstance(trap, NearMiss):
            named = list(trap.cuts)
        else:
            continue
        for cut, setting in named:
            moves = setting.turns * setting.circle + setting.holes
            assert cut * moves == 40 * setting.circle
            assert cut != count
            assert setting.holes < setting.circle


@given(count=st.integers(2, 400))
def test_a_near_miss_is_every_miscount_by_one_that_comes_out_whole(count: int) -> None:
    gear = head(PLATE_HEAD)
    expected = {
        (40 * circle // moves, circle, moves)
        for circle in gear.circles
        if 40 * circle % count == 0
        for moves in (40 * circle // count - 1, 40 * circle // count + 1)
        if moves and 40 * circle % moves == 0
    }
    found = {
        (cut, setting.circle, setting.turns * setting.circle + setting.holes)
        for trap in traps(gear, EqualDivisions(count))
        if isinstance(trap, NearMiss)
        for cut, setting in trap.cuts
    }
    assert found == expected


def test_57_is_no_prime_and_wants_3_and_19_together() -> None:
    trap = missing_of(57)
    assert trap.factors == (3, 19)
    assert trap.circle == 57
    assert trap.missing == ()
    assert missing_of(57, "[15, 16]").missing == (19,)
    assert trap.turns == Fraction(40, 57)


def test_a_factor_must_be_there_as_often_as_it_is_wanted() -> None:
    assert missing_of(27, "[15, 18, 20]", "40").missing == (3,)
    assert missing_of(127).missing == (127,)


@given(count=st.integers(2, 3000))
def test_the_least_circle_is_the_least(count: int) -> None:
    found = [
        trap for trap in traps(head(PLATE_HEAD), EqualDivisions(count)) if isinstance(trap, MissingFactor)
    ]
    exact = any(40 * circle % count == 0 for circle in head(PLATE_HEAD).circles)
    assert bool(found) is not exact
    for trap in found:
        least = next(circle for circle in range(1, count + 1) if 40 * circle % count == 0)
        assert trap.circle == least


@pytest.mark.parametrize(
    ("worm", "other", "cuts"),
    [
        ("wheel_teeth = 40\nstarts = 2", 40, 30),
        ("wheel_teeth = 60\nstarts = 3", 60, 20),
        ("ratio = 20", 40, 120),
        ("ratio = 45", 90, 120),
    ],
)
def test_a_worm_of_two_starts_taken_for_one_halves_the_number_and_the_other_way_round(
    worm: str, other: int, cuts: int
) -> None:
    gear = head(f'name = "Trial"\n[worm]\n{worm}\n[dial]\nmarks = 100\n')
    (trap,) = traps(gear, EqualDivisions(60))
    assert isinstance(trap, WormStarts)
    assert trap.other_ratio == other
    assert trap.cuts == cuts


def test_nothing_is_said_where_there_is_nothing_to_say() -> None:
    assert traps(head(BENCH_HEAD), EqualDivisions(127)) == ()
    assert traps(head(PLATE_HEAD), AngleList((Fraction(0), Fraction(1, 57)))) == ()
    assert traps(head('name = "wheel"\n[[notched_wheels]]\nnotches = 60\n'), EqualDivisions(57)) == ()
    assert traps(head(PLATE_HEAD), EqualDivisions(12)) == ()


@given(number=st.integers(1, 20_000))
def test_the_factors_are_primes_and_make_the_number(number: int) -> None:
    product = 1
    for factor in prime_factors(number):
        assert all(factor % smaller for smaller in range(2, factor) if smaller * smaller <= factor)
        product *= factor
    assert product == number


def by_eye(gear_toml: str, divisions: EqualDivisions) -> list[SetByEye]:
    return [trap for trap in traps(head(gear_toml), divisions) if isinstance(trap, SetByEye)]


def test_a_ring_that_meets_every_position_is_read_to_less_than_the_dial() -> None:
    # Half of 1/360 of a turn on the ring; half of a mark of 100, of 72 turns to a turn, on the dial.
    assert by_eye(BENCH_HEAD, EqualDivisions(60)) == [SetByEye(Fraction(1, 720), Fraction(1, 14_400))]


@pytest.mark.parametrize("divisions", [EqualDivisions(7), EqualDivisions(720), EqualDivisions(360, every=2)])
def test_nothing_is_said_of_a_ring_that_is_not_offered_for_all_parts(divisions: EqualDivisions) -> None:
    assert by_eye(BENCH_HEAD, divisions) == []


def test_a_pin_in_a_hole_leaves_nothing_to_the_eye() -> None:
    ring = "[ring]\ngraduations = 360\n"
    assert by_eye(PLATE_HEAD + ring, EqualDivisions(60)) == [SetByEye(Fraction(1, 360), None)]
    assert by_eye(PLATE_HEAD + ring, EqualDivisions(36)) == [SetByEye(Fraction(1, 360), None)]
    assert by_eye(PLATE_HEAD + ring, EqualDivisions(11)) == []


def test_nothing_is_said_where_the_ring_is_all_there_is_or_the_finer_of_two() -> None:
    coarse = "[worm]\nwheel_teeth = 2\n[dial]\nmarks = 10\n[ring]\ngraduations = 360\n"
    assert by_eye(f'name = "Coarse"\n{coarse}', EqualDivisions(60)) == []
    assert by_eye('name = "Alone"\n[ring]\ngraduations = 360\n', EqualDivisions(60)) == []
