"""Convergents and simplest ratios, against trying every fraction."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from crankwise.exact.ratio import convergents, simplest_between

ratios = st.fractions(min_value=0, max_value=50, max_denominator=200)


def nearest_with_bottom_up_to(value: Fraction, bottom: int) -> Fraction:
    return min(abs(Fraction(round(value * least), least) - value) for least in range(1, bottom + 1))


@given(ratios)
def test_the_last_convergent_is_the_ratio_itself(value: Fraction) -> None:
    assert list(convergents(value))[-1] == value


@given(ratios)
def test_nothing_with_a_smaller_bottom_is_nearer_than_a_convergent(value: Fraction) -> None:
    for convergent in list(convergents(value))[1:]:
        assert abs(convergent - value) == nearest_with_bottom_up_to(value, convergent.denominator)


def test_the_convergents_of_pi_are_the_ones_in_every_book() -> None:
    pi = Fraction("3.14159265358979")
    assert [str(ratio) for ratio in list(convergents(pi))[:5]] == [
        "3",
        "22/7",
        "333/106",
        "355/113",
        "103993/33102",
    ]


@given(st.fractions(min_value=Fraction(1, 50), max_value=50, max_denominator=80), ratios)
def test_the_simplest_ratio_between_two_has_the_least_bottom(least: Fraction, more: Fraction) -> None:
    greatest = least + more / 100
    found = simplest_between(least, greatest)
    assert least <= found <= greatest
    for bottom in range(1, found.denominator):
        assert -(-least * bottom // 1) > greatest * bottom
