"""Block indexing: every position once, neighbours long after one another, and never put before plain."""

from fractions import Fraction
from math import gcd

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import schedule
from crankwise.ways.block import MOST_CIRCUITS, Block, moves_between_neighbours, parts_at_once, ways
from crankwise.ways.search import find_ways
from tests.gear import PLATE_HEAD, head, worm_head


def block(count: int, toml: str = PLATE_HEAD) -> Block:
    (way,) = ways(head(toml), EqualDivisions(count))
    return way


def visits_between_neighbours(parts: int, count: int) -> int:
    """The least distance, in visits, between any two neighbours; looked up, not worked out."""
    order = [visit * parts % count for visit in range(count)]
    when = {position: visit for visit, position in enumerate(order)}
    apart = (abs(when[position] - when[(position + 1) % count]) for position in range(count))
    return min(min(visits, count - visits) for visits in apart)


@given(count=st.integers(5, 400))
def test_the_number_stepped_at_once_is_the_one_whose_smaller_distance_is_largest(count: int) -> None:
    spreads = {
        parts: min(parts, visits_between_neighbours(parts, count))
        for parts in range(2, min(MOST_CIRCUITS, (count - 1) // 2) + 1)
        if gcd(parts, count) == 1
    }
    best = max(spreads.values(), default=1)
    chosen = parts_at_once(count)
    if best < 2:
        assert chosen is None
    else:
        assert chosen == min(parts for parts, spread in spreads.items() if spread == best)


@given(count=st.integers(3, 200), data=st.data())
def test_neighbours_are_as_many_moves_apart_as_is_said(count: int, data: st.DataObject) -> None:
    coprime = [parts for parts in range(1, count) if gcd(parts, count) == 1]
    parts = data.draw(st.sampled_from(coprime))
    assert moves_between_neighbours(parts, count) == visits_between_neighbours(parts, count)


@pytest.mark.parametrize("count", [20, 25, 45, 50, 60, 98, 100, 188, 360])
def test_every_position_is_visited_once_and_met_exactly(count: int) -> None:
    way = block(count)
    rows = list(way.reached())
    assert sorted(row.position for row in rows) == list(range(count))
    assert all(row.error == 0 and row.target % 1 == Fraction(row.position, count) for row in rows)
    circle = way.circle
    for move, row in enumerate(rows):
        assert row.setting.turns is not None
        assert row.setting.holes is not None
        crank = row.setting.turns + Fraction(row.setting.holes[0], circle)
        assert crank == move * Fraction(way.holes, circle)
        assert crank / 40 % 1 == Fraction(row.position, count)
    assert way.closure().target == way.parts_at_once


def test_the_set_up_is_the_move_and_the_parts_it_steps() -> None:
    way = block(50)
    assert way.setup == {"circle": 15, "turns": 7, "holes": 3, "parts_at_once": 9}
    assert way.visiting_order[:8] == (0, 9, 18, 27, 36, 45, 4, 13)


@pytest.mark.parametrize("count", range(2, 200))
def test_it_is_never_put_before_plain_indexing(count: int) -> None:
    found = find_ways(head(PLATE_HEAD), EqualDivisions(count))
    methods = [way.method for way in found]
    if "block" in methods:
        assert methods.index("plain") < methods.index("block")


@pytest.mark.parametrize("count", [1, 2, 3, 4, 6])
def test_a_few_parts_leave_no_choice(count: int) -> None:
    assert list(ways(head(PLATE_HEAD), EqualDivisions(count))) == []


def test_none_where_no_circle_is_exact_or_the_run_is_an_arc() -> None:
    gear = worm_head("40", "[[plates]]\ncircles = [15]\n")
    assert list(ways(gear, EqualDivisions(57))) == []
    assert list(ways(gear, EqualDivisions(50, last=20))) == []


def test_the_schedule_follows_the_visiting_order_and_keeps_the_numbers() -> None:
    plan = Plan(Part(EqualDivisions(50)), block(50))
    rows = schedule(plan)
    assert [row.reached.position for row in rows[:7]] == [0, 9, 18, 27, 36, 45, 4]
    assert [row.index for row in rows] == list(range(51))
    assert rows[-1].closing
    assert rows[-1].reached.position == 50
    assert rows[6].reached.setting.turns == 43
    assert all((row.move.turns, row.move.holes) == (7, (3,)) for row in rows[1:])
