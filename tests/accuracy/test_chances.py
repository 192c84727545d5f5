"""Student's t and F against the tables that every handbook prints."""

import pytest

from crankwise.accuracy.chances import f_beyond, incomplete_beta, t_beyond, t_limit

T_95 = {1: 12.706, 2: 4.303, 5: 2.571, 10: 2.228, 30: 2.042, 120: 1.980}
"""Two-sided 5 %, as printed in tables of Student's t."""
F_95 = {(2, 10): 4.10, (5, 20): 2.71, (1, 30): 4.17, (10, 60): 1.99}
"""Upper 5 %, as printed in tables of F."""


@pytest.mark.parametrize("freedom", T_95)
def test_t_is_as_printed(freedom: int) -> None:
    assert round(t_limit(freedom), 3) == T_95[freedom]
    assert t_beyond(t_limit(freedom), freedom) == pytest.approx(0.05, abs=1e-9)


@pytest.mark.parametrize("freedoms", F_95)
def test_f_is_as_printed(freedoms: tuple[int, int]) -> None:
    printed = F_95[freedoms]
    assert f_beyond(printed - 0.005, *freedoms) > 0.05 > f_beyond(printed + 0.005, *freedoms)


def test_the_incomplete_beta_function_in_cases_that_have_a_closed_form() -> None:
    assert incomplete_beta(1, 1, 0.3) == pytest.approx(0.3)
    assert incomplete_beta(2, 1, 0.3) == pytest.approx(0.09)
    assert incomplete_beta(1, 3, 0.3) == pytest.approx(1 - 0.7**3)
    assert (incomplete_beta(2, 3, 0), incomplete_beta(2, 3, 1)) == (0, 1)


def test_no_chance_is_beyond_nothing_but_certainty() -> None:
    assert t_beyond(0, 5) == 1
    assert f_beyond(0, 2, 5) == 1
    assert f_beyond(-1, 2, 5) == 1
