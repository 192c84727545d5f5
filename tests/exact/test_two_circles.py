"""Two circles as one scale, against brute force over all holes."""

from fractions import Fraction
from math import lcm

from hypothesis import assume, example, given
from hypothesis import strategies as st

from crankwise.exact.two_circles import fewest_holes, splits
from tests.oracle.two_circles import every_split

CIRCLES = st.integers(1, 40)
PLACES = st.integers(-3000, 3000)


@given(place=PLACES, first=CIRCLES, second=CIRCLES)
@example(place=200, first=15, second=17)
@example(place=0, first=15, second=15)
@example(place=1, first=1, second=1)
def test_the_splits_are_all_there_are_in_rising_order(place: int, first: int, second: int) -> None:
    found = list(splits(place, first, second))
    assert found == sorted(every_split(Fraction(place, lcm(first, second)), first, second))


@given(place=st.integers(0, 3000), first=CIRCLES, second=CIRCLES)
@example(place=1, first=23, second=33)
def test_the_fewest_holes_make_the_place_and_no_split_has_fewer(place: int, first: int, second: int) -> None:
    turns, a, b = fewest_holes(place, first, second)
    target = Fraction(place, lcm(first, second))
    assert turns + Fraction(a, first) + Fraction(b, second) == target
    assert 0 <= a < first
    assert -second < b < second
    fewest = min(
        i + abs(j)
        for i in range(first)
        for j in range(-second + 1, second)
        if (target - Fraction(i, first) - Fraction(j, second)).denominator == 1
        and target - Fraction(i, first) - Fraction(j, second) >= 0
    )
    assert a + abs(b) == fewest


@given(place=st.integers(0, 3000), first=CIRCLES, second=CIRCLES)
def test_the_crank_is_never_asked_to_go_back_past_the_start(place: int, first: int, second: int) -> None:
    assert fewest_holes(place, first, second)[0] >= 0


@given(place=st.integers(0, 3000), first=CIRCLES, second=CIRCLES)
def test_whole_turns_on_are_the_same_holes(place: int, first: int, second: int) -> None:
    places = lcm(first, second)
    assume(place >= places)
    turns, a, b = fewest_holes(place, first, second)
    assert fewest_holes(place + places, first, second) == (turns + 1, a, b)
