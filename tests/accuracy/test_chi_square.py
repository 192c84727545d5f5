"""Chi-square against printed tables, its closed form for even degrees of freedom, and plain integration."""

from math import exp, factorial, gamma

import pytest

from crankwise.accuracy.chi_square import chi_square_below, chi_square_limit, spread_limits

PRINTED = (
    # NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4, critical values of the chi-square distribution
    (1, 0.95, "3.841"),
    (7, 0.025, "1.690"),
    (8, 0.025, "2.180"),
    (10, 0.95, "18.307"),
    (10, 0.975, "20.483"),
    (10, 0.025, "3.247"),
    (30, 0.05, "18.493"),
    (100, 0.975, "129.561"),
    (100, 0.025, "74.222"),
)


@pytest.mark.parametrize(("freedom", "below", "printed"), PRINTED)
def test_the_printed_table(freedom: int, below: float, printed: str) -> None:
    assert chi_square_limit(freedom, below) == pytest.approx(float(printed), abs=5.1e-4)


@pytest.mark.parametrize("freedom", [2, 4, 10, 40, 200])
@pytest.mark.parametrize("x", [0.1, 1.0, 7.5, 40.0, 190.0])
def test_even_degrees_of_freedom_by_their_closed_form(freedom: int, x: float) -> None:
    above = exp(-x / 2) * sum((x / 2) ** k / factorial(k) for k in range(freedom // 2))
    assert chi_square_below(x, freedom) == pytest.approx(1 - above, abs=1e-12)


@pytest.mark.parametrize(("freedom", "x"), [(3, 0.5), (3, 9.0), (9, 4.0), (9, 25.0)])
def test_odd_ones_by_summing_the_density(freedom: int, x: float) -> None:
    steps = 200_000
    width = x / steps
    total = 0.0
    for index in range(steps):
        here = (index + 0.5) * width
        total += here ** (freedom / 2 - 1) * exp(-here / 2)
    assert chi_square_below(x, freedom) == pytest.approx(
        total * width / (2 ** (freedom / 2) * gamma(freedom / 2)), abs=1e-6
    )


def test_eight_degrees_of_freedom_bound_a_spread_within_twice() -> None:
    assert spread_limits(7)[1] > 2 > spread_limits(8)[1]
    assert spread_limits(10) == pytest.approx((0.6987, 1.7549), abs=1e-4)
    assert chi_square_below(0.0, 5) == 0
    assert chi_square_below(-1.0, 5) == 0
