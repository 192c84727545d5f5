"""Two notched wheels as a vernier, against brute force over all notches."""

from fractions import Fraction
from math import lcm

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.errors import FaultsFound
from crankwise.head.head import Head
from crankwise.head.notched_wheel import NotchedWheel
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.ways.two_wheels import TwoWheels, ways
from tests.gear import head
from tests.oracle.two_circles import nearest_place

ASKED = st.integers(1, 100).map(EqualDivisions) | st.lists(
    st.fractions(0, Fraction(199, 200), max_denominator=200), min_size=1, max_size=6, unique=True
).map(lambda angles: AngleList(tuple(sorted(angles))))


def vernier(first: int, second: int) -> Head:
    return Head("wheels", notched_wheels=(NotchedWheel(second), NotchedWheel(first, "wheel")))


def spindle(way: TwoWheels, notches: int | None, second: int | None) -> Fraction:
    assert notches is not None
    assert second is not None
    return Fraction(notches, way.wheels[0]) + Fraction(second, way.wheels[1])


@given(first=st.integers(2, 40), second=st.integers(2, 40), asked=ASKED)
def test_no_pair_of_notches_is_nearer_at_any_position(
    first: int, second: int, asked: EqualDivisions | AngleList
) -> None:
    for way in ways(vernier(first, second), asked):
        assert way.setup == {"wheels": (first, second)}
        stands, before = Fraction(0), None
        for row in way.reached():
            assert spindle(way, row.setting.notches, row.setting.second_notches) == row.achieved
            assert abs(row.error) == nearest_place(row.target, first, second)
            move = way.move(before, row)
            stands += spindle(way, move.notches, move.second_notches)
            assert stands == row.achieved
            before = row
        assert way.worst_error <= Fraction(1, 2 * lcm(first, second))


def test_24_and_25_notches_divide_into_150_and_600() -> None:
    gear = vernier(25, 24)
    for count in (150, 200, 300, 600):
        (way,) = ways(gear, EqualDivisions(count))
        assert way.exact
    assert list(ways(gear, EqualDivisions(24))) == []
    assert list(ways(gear, EqualDivisions(25))) == []


def test_no_vernier_of_wheels_that_stand_apart_or_are_no_finer_together() -> None:
    apart = Head("wheels", notched_wheels=(NotchedWheel(24), NotchedWheel(25)))
    assert list(ways(apart, EqualDivisions(150))) == []
    assert list(ways(vernier(48, 24), EqualDivisions(150))) == []


@pytest.mark.parametrize(
    "wheels",
    [
        '[[notched_wheels]]\nnotches = 24\ndetent_on = "wheel"\n',
        (
            "[[notched_wheels]]\nnotches = 24\n[[notched_wheels]]\nnotches = 30\n"
            '[[notched_wheels]]\nnotches = 25\ndetent_on = "wheel"\n'
        ),
    ],
)
def test_a_carried_detent_needs_one_carrier_and_no_more(wheels: str) -> None:
    with pytest.raises(
        FaultsFound, match=r"detent_on \(line \d+\): the detent stands on another notched wheel, so"
    ):
        head(f'name = "Lost"\n{wheels}')
