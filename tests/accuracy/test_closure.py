from fractions import Fraction

import pytest

from crankwise.accuracy.closure import close
from crankwise.errors import BadAngle


def test_the_steps_make_the_circle_whatever_the_gauge_is() -> None:
    truth = [Fraction(value) for value in (7, -3, 5, -9)]
    for gauge in (0, 12, -40):
        found = close([error - gauge for error in truth])
        assert found.gauge == gauge
        assert [step.error for step in found.steps] == truth
        assert [step.cumulative for step in found.steps] == [7, 4, 9, 0]
        assert found.height == 9


def test_it_is_exact() -> None:
    found = close([Fraction(1), Fraction(0), Fraction(0)])
    assert found.gauge == Fraction(-1, 3)
    assert sum(step.error for step in found.steps) == 0


def test_one_step_is_no_round() -> None:
    with pytest.raises(BadAngle, match="1 step; a round has 2 or more"):
        close([Fraction(1)])
