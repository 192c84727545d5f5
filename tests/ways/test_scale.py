"""A scale: places all round the spindle."""

from fractions import Fraction

import pytest

from crankwise.exact.angle import read_angles
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.ways.scale import Scale


@pytest.mark.parametrize(
    ("ratio", "places", "closes"),
    [("40", 49, True), ("45/2", 16, True), ("45/2", 15, False), ("40/3", 100, False), ("40/3", 99, True)],
)
def test_a_scale_closes_when_a_full_circle_is_whole_places(ratio: str, places: int, closes: bool) -> None:
    scale = Scale(Fraction(ratio), places)
    assert scale.closes == closes
    assert scale.all_round == Fraction(ratio) * places


@pytest.mark.parametrize(
    ("divisions", "move"),
    [
        (EqualDivisions(65), 24),
        (EqualDivisions(65, every=5), 120),
        (EqualDivisions(64), None),
        (AngleList(read_angles("0, 90")), None),
    ],
)
def test_the_one_move_from_each_position_to_the_next(
    divisions: EqualDivisions | AngleList, move: int | None
) -> None:
    assert Scale(Fraction(40), 39).move_of(divisions) == move


@pytest.mark.parametrize(
    ("divisions", "meets"),
    [
        (EqualDivisions(65), True),
        (EqualDivisions(64), False),
        (EqualDivisions(64, last=0), False),  # position 0 is met, but no move of whole places leads on
        (EqualDivisions(65, start=Fraction(1, 1560)), True),
        (EqualDivisions(65, start=Fraction(1, 1561)), False),
        (AngleList(read_angles("0, 1/64 turn, 90")), False),
        (AngleList((Fraction(0), Fraction(1, 65), Fraction(1, 4))), True),
    ],
)
def test_positions_are_met_by_places(divisions: EqualDivisions | AngleList, meets: bool) -> None:
    assert Scale(Fraction(40), 39).meets(divisions) == meets


def test_the_worst_error_of_a_list_is_that_of_its_worst_angle() -> None:
    scale = Scale(Fraction(1), 10)
    angles = AngleList((Fraction(0), Fraction(13, 100), Fraction(56, 100)))  # 1.3 and 5.6 places
    assert scale.worst_error(angles) == Fraction(4, 100)
    assert scale.nearest(Fraction(56, 100)) == 6
    assert scale.achieved(6) == Fraction(6, 10)


@pytest.mark.parametrize(
    "divisions",
    [
        EqualDivisions(127),
        EqualDivisions(60, Fraction(1, 7), every=7),
        AngleList(read_angles("0, 71d30m, 144")),
    ],
)
def test_all_the_places_of_a_run_are_the_nearest_one_by_one(divisions: EqualDivisions | AngleList) -> None:
    scale = Scale(Fraction(45, 2), 16)
    assert list(scale.all_nearest(divisions)) == [scale.nearest(target) for _, target in divisions.targets()]
