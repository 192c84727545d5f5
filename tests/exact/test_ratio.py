"""The simplest ratio between two, against trying every bottom."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from crankwise.exact.ratio import simplest_between

ratios = st.fractions(min_value=0, max_value=50, max_denominator=200)


@given(st.fractions(min_value=Fraction(1, 50), max_value=50, max_denominator=80), ratios)
def test_the_simplest_ratio_between_two_has_the_least_bottom(least: Fraction, more: Fraction) -> None:
    greatest = least + more / 100
    found = simplest_between(least, greatest)
    assert least <= found <= greatest
    for bottom in range(1, found.denominator):
        assert -(-least * bottom // 1) > greatest * bottom
