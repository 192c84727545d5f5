"""Compound indexing: complete, and nothing nearer, against brute force over all holes."""

from fractions import Fraction
from itertools import combinations
from math import gcd

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from crankwise.head.head import Head
from crankwise.head.plate import Plate
from crankwise.head.worm import Worm
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.ways.compound import MOST_PARTS_AT_ONCE, Compound, circle_pairs, ways
from crankwise.ways.way import Setting
from tests.gear import PLATE_HEAD, head, worm_head
from tests.oracle.two_circles import exact_compounds, nearest_place

RATIOS = st.fractions(Fraction(1, 2), 120, max_denominator=3)
PLATES = st.lists(st.integers(2, 32), min_size=2, max_size=3, unique=True).map(tuple).map(Plate)
HEADS = st.builds(
    Head, st.just("any"), RATIOS.map(Worm), st.none(), st.lists(PLATES, min_size=1, max_size=2).map(tuple)
)


def found(gear: Head, count: int) -> list[Compound]:
    return list(ways(gear, EqualDivisions(count)))


def as_moves(way: Compound) -> frozenset[tuple[int, int]]:
    """The holes of the two moves without the whole turns of the crank's own."""
    (first, second), (a, b) = way.circles, way.holes
    return frozenset({(first, a % first), (second, b)})


def has_plain(gear: Head, count: int) -> bool:
    return any((Fraction(gear.ratio or 1) * circle / count).denominator == 1 for circle in gear.circles)


@settings(max_examples=300)
@given(gear=HEADS, count=st.integers(2, 250))
@example(gear=head(PLATE_HEAD), count=57)
@example(gear=head(PLATE_HEAD), count=249)
def test_the_exact_settings_are_all_there_are(gear: Head, count: int) -> None:
    assume(not has_plain(gear, count))
    expected = {
        moves
        for pair in circle_pairs(gear)
        for moves in exact_compounds((gear.ratio or 1) / Fraction(count), *pair)
    }
    ours = [way for way in found(gear, count) if way.exact and way.parts_at_once == 1]
    assert {as_moves(way) for way in ours} == expected
    assert len(ours) == len(expected)


@settings(max_examples=100)
@given(gear=HEADS, count=st.integers(2, 120))
def test_exact_settings_of_several_parts_are_all_there_are(gear: Head, count: int) -> None:
    ours = [way for way in found(gear, count) if way.exact]
    assume(not has_plain(gear, count) and not any(way.parts_at_once == 1 for way in ours))
    expected = {
        (parts, moves)
        for parts in range(2, min(MOST_PARTS_AT_ONCE, count - 1) + 1)
        if gcd(parts, count) == 1
        for pair in circle_pairs(gear)
        if not _is_a_hole_of_one(parts * Fraction(gear.ratio or 1) / count, pair)
        for moves in exact_compounds(parts * Fraction(gear.ratio or 1) / count, *pair)
    }
    assert {(way.parts_at_once, as_moves(way)) for way in ours} == expected


def _is_a_hole_of_one(turns: Fraction, pair: tuple[int, int]) -> bool:
    """Whether one circle makes the move alone: then a second is not needed."""
    return any((turns * circle).denominator == 1 for circle in pair)


@settings(max_examples=100)
@given(gear=HEADS, count=st.integers(2, 120))
@example(gear=head(PLATE_HEAD), count=106)
def test_no_setting_of_brute_force_is_nearer_than_the_nearest(gear: Head, count: int) -> None:
    ours = found(gear, count)
    assume(ours and not any(way.exact for way in ours))
    for several in (False, True):
        best = min(
            (abs(way.drift) for way in ours if (way.parts_at_once > 1) is several),
            default=None,
        )
        if best is None:
            continue
        for parts in range(2 if several else 1, min(MOST_PARTS_AT_ONCE, count - 1) + 1 if several else 2):
            turns = parts * (gear.ratio or 1) / Fraction(count)
            for pair in circle_pairs(gear) if gcd(parts, count) == 1 else ():
                if _is_a_move_of_both(turns, pair):
                    assert best <= nearest_place(turns, *pair) / (gear.ratio or 1)


def _is_a_move_of_both(turns: Fraction, pair: tuple[int, int]) -> bool:
    """Whether the nearest place of the two circles is not a hole of one of them: that would be plain."""
    nearest = nearest_place(turns, *pair)
    return all(abs(turns * circle - round(turns * circle)) / circle > nearest for circle in pair)


@given(gear=HEADS, count=st.integers(2, 200))
def test_a_constant_move_visits_every_position_and_errs_as_it_says(gear: Head, count: int) -> None:
    for way in found(gear, count):
        rows = list(way.reached())
        assert sorted(row.position for row in rows) == list(range(count))
        assert max(abs(row.error) for row in rows) == way.worst_error
        assert rows[-1].error == way.drift * (count - 1)
        assert rows[0].error == 0
        closure = way.closure()
        assert closure.error == way.residue
        a, b = (Fraction(holes, circle) for holes, circle in zip(way.holes, way.circles, strict=True))
        assert (a + b) / (gear.ratio or 1) == way.advance
        assert a > 0
        assert abs(b) < 1
        for row in rows:
            assert row.target % 1 == Fraction(row.position, count)
            assert way.reach(row.position, row.target) == row
        for row in (*rows, closure):
            assert combine(way, row.setting) == row.achieved * (gear.ratio or 1)
            assert row.setting.turns is not None
            assert row.setting.turns >= 0


def test_the_handbook_setting_for_106_steps_five_parts() -> None:
    """106 by 1 turn + 7/39 + 29/41 on 40:1: a residue of about 0.4" a step, 41" by the last part."""
    gear = head(PLATE_HEAD)
    way = next(
        way
        for way in found(gear, 106)
        if Fraction(way.holes[0], way.circles[0]) + Fraction(way.holes[1], way.circles[1])
        == 1 + Fraction(7, 39) + Fraction(29, 41)
    )
    assert way.parts_at_once == 5
    assert round(abs(float(way.drift)) * 1_296_000, 1) == 0.4
    assert round(abs(float(way.residue)) * 1_296_000) == 41
    assert way.worst_error == abs(way.drift) * 105
    assert way.visiting_order[:4] == (0, 5, 10, 15)
    assert way.visiting_order[21:24] == (105, 4, 9)
    assert sorted(way.visiting_order) == list(range(106))


def test_a_published_pair_is_found() -> None:
    gear = worm_head("40", "[[plates]]\ncircles = [23, 33]\n")
    assert {"circles": (23, 33), "holes": (21, -11)} in [way.setup for way in found(gear, 69)]


def test_whole_turns_are_counted_into_the_holes_of_the_crank() -> None:
    gear = worm_head("80", "[[plates]]\ncircles = [23, 33]\n")
    ours = found(gear, 69)
    assert ours
    assert all(
        Fraction(way.holes[0], way.circles[0]) + Fraction(way.holes[1], way.circles[1]) == Fraction(80, 69)
        for way in ours
    )
    assert all(way.holes[0] > way.circles[0] for way in ours if way.holes[1] < 0)


def test_two_circles_of_different_plates_make_no_compound() -> None:
    gear = worm_head("40", "[[plates]]\ncircles = [23]\n[[plates]]\ncircles = [33]\n")
    assert found(gear, 69) == []


@pytest.mark.parametrize(
    "divisions",
    [
        EqualDivisions(69, last=40),
        EqualDivisions(69, start=Fraction(1, 100)),
        EqualDivisions(69, first=1),
        AngleList((Fraction(0), Fraction(1, 69), Fraction(3, 69))),
    ],
)
def test_an_arc_or_a_list_has_no_constant_move(divisions: EqualDivisions | AngleList) -> None:
    gear = worm_head("40", "[[plates]]\ncircles = [23, 33]\n")
    assert list(ways(gear, divisions)) == []


def test_the_fewest_holes_come_first() -> None:
    gear = head(PLATE_HEAD)
    for count in range(2, 250):
        exact = [way for way in found(gear, count) if way.exact]
        assert [way.parts_at_once for way in exact] == sorted(way.parts_at_once for way in exact)
        for several in combinations(exact, 2):
            if several[0].parts_at_once == several[1].parts_at_once:
                assert sum(map(abs, several[0].holes)) <= sum(map(abs, several[1].holes))


def test_steps_of_the_moves_are_what_the_pins_do() -> None:
    gear = worm_head("40", "[[plates]]\ncircles = [23, 33]\n")
    way = found(gear, 69)[0]
    rows = list(way.reached())
    assert combine(way, rows[5].setting) == 5 * Fraction(40, 69)
    assert way.move(rows[0], rows[1]) == way.one_move
    assert way.move(None, rows[0]).holes == (0, 0)


def test_turns_of_the_plate_are_turns_of_the_crank() -> None:
    """77 by 9/21 + 3/33: eleven moves turn the plate once round, so the crank is at 5 turns and 15 holes."""
    gear = worm_head("40", "[[plates]]\ncircles = [21, 33]\n")
    way = next(way for way in found(gear, 77) if way.holes == (9, 3))
    eleventh = list(way.reached())[11].setting
    assert (eleventh.turns, eleventh.holes) == (5, (15, 0))


def combine(way: Compound, setting: Setting) -> Fraction:
    """Return the turns of the crank that a setting comes to, counted from the start."""
    assert setting.turns is not None
    assert setting.holes is not None
    a, b = (Fraction(holes, circle) for holes, circle in zip(setting.holes, way.circles, strict=True))
    return setting.turns + a + b
