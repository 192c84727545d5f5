"""What may be made by one move over and over, and what that leaves over."""

from fractions import Fraction

import pytest

from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.ways.compound import Compound, ways
from crankwise.ways.constant_move import can_move_constantly
from tests.gear import PLATE_HEAD, head


@pytest.mark.parametrize(
    ("divisions", "constantly"),
    [
        (EqualDivisions(7), True),
        (EqualDivisions(60, every=5), True),
        (EqualDivisions(60, every=7), False),
        (EqualDivisions(60, last=30), False),
        (EqualDivisions(60, first=1), False),
        (EqualDivisions(60, start=Fraction(1, 9)), False),
        (AngleList((Fraction(0), Fraction(1, 2))), False),
    ],
)
def test_only_equal_parts_all_round_from_the_zero(
    divisions: EqualDivisions | AngleList, constantly: bool
) -> None:
    assert can_move_constantly(divisions) is constantly


def nearest_of_several(count: int) -> Compound:
    return next(way for way in ways(head(PLATE_HEAD), EqualDivisions(count)) if way.parts_at_once > 1)


def test_several_parts_at_once_come_round_after_as_many_circuits() -> None:
    way = nearest_of_several(106)
    closure = way.closure()
    assert closure.target == way.parts_at_once
    assert closure.error == way.residue
    assert closure.position == 106


def test_the_working_names_the_drift_its_sum_and_what_is_left_over() -> None:
    way = nearest_of_several(106)
    values = [step.value for step in way.working()]
    assert values[-3:] == [way.drift, way.drift * 105, way.drift * 106]


def test_met_again_it_is_out_by_the_residue_once_more() -> None:
    way = nearest_of_several(106)
    fourth = list(way.reached())[4]
    again = way.again(fourth, 1)
    assert again.error == fourth.error + way.residue
    assert again.position == fourth.position


def test_every_fifth_position_is_divided_as_so_many_parts() -> None:
    gear = head(PLATE_HEAD)
    fifth = list(ways(gear, EqualDivisions(345, every=5)))
    assert [way.setup for way in fifth] == [way.setup for way in ways(gear, EqualDivisions(69))]
    assert [row.position for row in fifth[0].reached()][:3] == [0, 5, 10]
