"""Scales from a law rise, stay within the circle, and say where they do not."""

from fractions import Fraction
from math import log10

import pytest

from crankwise.errors import BadDivisions
from crankwise.part.scale_law import Law, Stretch, between_points, scale_of_law, stretched


def values(*numbers: str) -> list[Fraction]:
    return [Fraction(number) for number in numbers]


def test_stretches_that_meet_have_the_value_once() -> None:
    both = stretched(
        [Stretch(Fraction(1), Fraction(2), Fraction(1, 2)), Stretch(Fraction(2), Fraction(4), Fraction(1))]
    )
    assert both == tuple(values("1", "1.5", "2", "3", "4"))
    assert Stretch(Fraction(3), Fraction(1), Fraction(-1)).values() == values("3", "2", "1")


@pytest.mark.parametrize(
    ("stretch", "message"),
    [
        (("1", "2", "0"), "never comes there"),
        (("2", "1", "1"), "never comes there"),
        (("1", "2", "0.3"), "the step goes whole into the stretch"),
        (("0", "1", "0.00001"), "makes 100,000 lines; at most 20,000"),
    ],
)
def test_a_stretch_that_does_not_come_out_is_refused(stretch: tuple[str, str, str], message: str) -> None:
    with pytest.raises(BadDivisions, match=message):
        Stretch(*values(*stretch))


def test_a_logarithmic_scale_once_round_meets_itself() -> None:
    scale = scale_of_law("log", [Fraction(n) for n in range(1, 11)], lambda x: log10(x))
    assert len(scale.counts) == 9
    assert not scale.is_exact
    assert scale.note == "10 is a full circle on and falls on 1: one line for both"
    # Known to eight places: the logarithm of 2 is 0.30102999566...
    assert abs(scale.angles()[1] - Fraction("0.301029995664")) < Fraction(1, 10**12)


def test_an_exact_law_stays_exact() -> None:
    scale = scale_of_law("third", values("0", "1", "2"), lambda x: x / 3)
    assert scale.is_exact
    assert scale.angles() == (Fraction(0), Fraction(1, 3), Fraction(2, 3))


@pytest.mark.parametrize(
    ("law", "message"),
    [
        (lambda x: -x / 9, "from 0 to 1 the angle falls, by 40 degrees; .* the other order, or put a minus"),
        (lambda x: x * (3 - x) / 9, "from 1 to 2 the angle stays where it is; it must rise"),
        (lambda x: x * (2 - x) / 9, "from 1 to 2 the angle falls back by 40 degrees"),
        (lambda x: x / 2, r"at 3 it is 540 degrees past 0, a full circle or more; .* times 0\.666"),
    ],
)
def test_a_law_that_does_not_rise_or_goes_too_far_is_refused(law: Law, message: str) -> None:
    chosen = [*range(3)] if "540" not in message else [0, 1, 3]
    with pytest.raises(BadDivisions, match=message):
        scale_of_law("bad", [Fraction(n) for n in chosen], law)


def test_between_calibrated_points_lines_lie_straight() -> None:
    law = between_points(
        [(Fraction(0), Fraction(0)), (Fraction(10), Fraction(1, 8)), (Fraction(20), Fraction(1, 2))]
    )
    assert [law(Fraction(x)) for x in (0, 5, 10, 15, 20)] == [*values("0", "1/16", "1/8", "5/16", "1/2")]
    with pytest.raises(BadDivisions, match="21 lies outside the calibrated points, 0 to 20"):
        law(Fraction(21))


@pytest.mark.parametrize("points", [[(1, 0)], [(1, 0), (3, 1), (2, 2)], [(1, 0), (1, 1)]])
def test_points_that_do_not_run_one_way_are_refused(points: list[tuple[int, int]]) -> None:
    with pytest.raises(BadDivisions, match=r"^points: "):
        between_points([(Fraction(value), Fraction(angle, 9)) for value, angle in points])
