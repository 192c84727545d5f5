"""Rounding to places: the nearest one, and how far out the worst of a row is."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.exact.places import nearest_place, nearest_places, nearest_whole, worst_rounding

small = st.fractions(-50, 50, max_denominator=200)


@pytest.mark.parametrize(
    ("target", "places", "place"),
    [
        (Fraction(1, 127), Fraction(7200 * 2), 113),  # 56.69 marks, to half a mark: 56.5
        (Fraction(1, 127), Fraction(40 * 49), 15),
        (Fraction(3, 127), Fraction(40 * 49), 46),
        (Fraction(126, 127), Fraction(40 * 49), 1945),
        (Fraction(0), Fraction(7), 0),
        (Fraction(3, 2), Fraction(360), 540),
    ],
)
def test_a_target_is_set_to_the_place_nearest_to_it(target: Fraction, places: Fraction, place: int) -> None:
    assert nearest_place(target, places) == place


@pytest.mark.parametrize(("halves", "place"), [(1, 0), (3, 2), (5, 2), (7, 4), (-1, 0), (-3, -2)])
def test_a_half_goes_to_the_even_place(halves: int, place: int) -> None:
    assert nearest_place(Fraction(halves, 2), Fraction(1)) == place
    assert nearest_whole(halves, 2) == place


@given(st.integers(), st.integers(1, 10**30))
def test_whole_numbers_are_rounded_as_a_fraction_is(top: int, bottom: int) -> None:
    assert nearest_whole(top, bottom) == round(Fraction(top, bottom))


@given(small, st.fractions(Fraction(1, 10), 500, max_denominator=50))
def test_no_other_place_is_nearer(target: Fraction, places: Fraction) -> None:
    place = nearest_place(target, places)
    out = abs(place - target * places)
    assert out <= abs(place + 1 - target * places)
    assert out <= abs(place - 1 - target * places)


@given(small, st.fractions(-5, 5, max_denominator=90), st.integers(1, 200))
def test_the_worst_of_a_row_is_what_counting_them_all_gives(
    first: Fraction, step: Fraction, count: int
) -> None:
    distances = []
    for index in range(count):
        part = (first + index * step) % 1
        distances.append(min(part, 1 - part))
    assert worst_rounding(first, step, count) == max(distances)


@given(st.integers(1, 120), st.integers(1, 120), st.integers(0, 500), st.integers(1, 500))
def test_the_worst_of_a_whole_circle_is_found_without_counting(
    parts: int, places: int, offset: int, coarseness: int
) -> None:
    first, step = Fraction(offset, coarseness), Fraction(places, parts)
    parts_out = [(first + index * step) % 1 for index in range(parts)]
    assert worst_rounding(first, step, parts) == max(min(part, 1 - part) for part in parts_out)


def test_a_million_parts_take_no_counting() -> None:
    # 999,983 is prime: every residue is met, the worst is the one next to the half.
    assert worst_rounding(Fraction(0), Fraction(7200, 999_983), 999_983) == Fraction(499_991, 999_983)


@pytest.mark.parametrize(("count", "worst"), [(1, "1/4"), (3, "1/4"), (4, "1/2"), (5, "1/2")])
def test_a_place_that_is_not_reached_does_not_count(count: int, worst: str) -> None:
    # 3/4, 1, 5/4, 3/2: only the fourth lies half-way
    assert worst_rounding(Fraction(3, 4), Fraction(1, 4), count) == Fraction(worst)


@given(small, small, st.integers(1, 60))
def test_a_row_of_places_is_the_places_one_by_one(first: Fraction, step: Fraction, count: int) -> None:
    one_by_one = [nearest_place(first + index * step, Fraction(1)) for index in range(count)]
    assert list(nearest_places(first, step, count)) == one_by_one
