"""Which positions the work falls on."""

from fractions import Fraction

import pytest

from crankwise.errors import BadDivisions
from crankwise.exact.angle import read_angles
from crankwise.exact.length import along
from crankwise.part.divisions import AngleList, EqualDivisions, EqualSteps


def test_equal_parts_count_from_nought() -> None:
    parts = EqualDivisions(4)
    assert list(parts.targets()) == [(0, 0), (1, Fraction(1, 4)), (2, Fraction(1, 2)), (3, Fraction(3, 4))]
    assert len(parts) == 4
    assert parts.goes_round
    assert parts.closing_number == 4
    assert parts.closing_target == 1


def test_a_start_moves_every_position_by_the_same_angle() -> None:
    parts = EqualDivisions(3, start=Fraction(1, 12))
    assert [target for _, target in parts.targets()] == [Fraction(1, 12), Fraction(5, 12), Fraction(9, 12)]
    assert parts.closing_target == Fraction(13, 12)


def test_every_third_keeps_the_numbers_of_all() -> None:
    parts = EqualDivisions(12, every=3)
    assert list(parts.targets()) == [
        (0, 0),
        (3, Fraction(1, 4)),
        (6, Fraction(1, 2)),
        (9, Fraction(3, 4)),
    ]
    assert parts.step == Fraction(1, 4)
    assert parts.goes_round


def test_every_fifth_of_twelve_does_not_come_round() -> None:
    parts = EqualDivisions(12, every=5)
    assert [number for number, _ in parts.targets()] == [0, 5, 10]
    assert not parts.goes_round
    assert parts.closing_target is None


def test_from_one_position_to_another() -> None:
    parts = EqualDivisions(127, first=20, last=24)
    assert [number for number, _ in parts.targets()] == [20, 21, 22, 23, 24]
    assert parts.first_target == Fraction(20, 127)
    assert not parts.goes_round


def test_every_fourth_from_the_second_on_comes_round_to_the_second() -> None:
    parts = EqualDivisions(12, first=2, every=4)
    assert [number for number, _ in parts.targets()] == [2, 6, 10]
    assert parts.goes_round
    assert (parts.closing_number, parts.closing_target) == (14, Fraction(14, 12))


def test_one_part_is_a_whole_circle() -> None:
    assert list(EqualDivisions(1).targets()) == [(0, Fraction(0))]
    assert EqualDivisions(1).goes_round


@pytest.mark.parametrize(
    ("asked", "sentence"),
    [
        ({"count": 0}, "divisions: 0; a circle is divided into 1 part or more"),
        ({"count": -12}, "divisions: -12; a circle is divided into 1 part or more"),
        (
            {"count": 10_000_000},
            "divisions: 10,000,000; at most 1,000,000, which is finer than any head can be read",
        ),
        (
            {"count": 12, "start": Fraction(1)},
            "start: 360 degrees; the start lies from 0 to below 360 degrees",
        ),
        (
            {"count": 12, "start": Fraction(-1, 720)},
            "start: -0.5 degrees; the start lies from 0 to below 360 degrees",
        ),
        ({"count": 12, "every": 0}, "every: 0; from 1 to the 12 divisions"),
        ({"count": 12, "every": 13}, "every: 13; from 1 to the 12 divisions"),
        ({"count": 12, "first": 12}, "first: position 12; positions run from 0 to 11"),
        ({"count": 12, "first": -1}, "first: position -1; positions run from 0 to 11"),
        ({"count": 12, "last": 12}, "last: position 12; from the first, 0, to 11"),
        ({"count": 12, "first": 5, "last": 4}, "last: position 4; from the first, 5, to 11"),
    ],
)
def test_parts_that_cannot_be_are_told(asked: dict[str, object], sentence: str) -> None:
    with pytest.raises(BadDivisions) as found:
        EqualDivisions(**asked)  # type: ignore[arg-type]
    assert str(found.value) == sentence


def test_a_list_keeps_its_angles_and_its_order() -> None:
    angles = AngleList(read_angles("10, 20, 300"))
    assert list(angles.targets()) == [(0, Fraction(1, 36)), (1, Fraction(1, 18)), (2, Fraction(5, 6))]
    assert (len(angles), list(angles.numbers)) == (3, [0, 1, 2])
    assert not angles.goes_round
    assert (angles.closing_number, angles.closing_target) == (3, Fraction(37, 36))


def test_a_list_may_pass_a_full_turn_within_one_turn_of_its_first() -> None:
    assert len(AngleList(read_angles("350, 355, 365"))) == 3


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("-5, 10", "angle 1 of the list: -5 degrees is below 0; angles count forward from the start"),
        (
            "0, 30, 20",
            (
                "angle 3 of the list: 20 degrees comes after 30 degrees; "
                "angles must rise, so that the crank always turns one way"
            ),
        ),
        ("0, 30, 30°", "angle 3 of the list: 30 degrees is there twice; give each angle once"),
        (
            "10, 370",
            (
                "angle 2 of the list: 370 degrees is a full turn or more past the first, 10 degrees; "
                "the list stays within one turn"
            ),
        ),
        (
            "0, 1/7 turn, 1/8 turn",
            (
                "angle 3 of the list: 45 degrees comes after 360/7 degrees; "
                "angles must rise, so that the crank always turns one way"
            ),
        ),
    ],
)
def test_a_list_that_cannot_be_run_is_told(typed: str, sentence: str) -> None:
    with pytest.raises(BadDivisions) as found:
        AngleList(read_angles(typed))
    assert str(found.value) == sentence


def test_an_empty_list_is_told() -> None:
    with pytest.raises(BadDivisions, match=r"^angles: the list is empty; give one angle or more$"):
        AngleList(())


def test_a_list_without_end_is_told() -> None:
    with pytest.raises(BadDivisions, match=r"^angles: 1,000,001 of them; at most 1,000,000$"):
        AngleList(tuple(Fraction(number, 1_000_002) for number in range(1_000_001)))


@pytest.mark.parametrize(
    "divisions",
    [
        EqualDivisions(127),
        EqualDivisions(60, Fraction(1, 7), first=3, last=50, every=7),
        AngleList((Fraction(0), Fraction(1, 5), Fraction(1, 2))),
    ],
)
def test_the_last_target_is_that_of_the_last_position(divisions: EqualDivisions | AngleList) -> None:
    *_, last = divisions.targets()
    assert last == (divisions.numbers[-1], divisions.last_target)


def test_steps_along_a_line_are_exact_lengths_and_never_come_back() -> None:
    steps = EqualSteps(4, Fraction(1, 3))
    assert [along(target) for _, target in steps.targets()] == [0, Fraction(1, 3), Fraction(2, 3), 1]
    assert (steps.goes_round, steps.closing_target, len(steps), steps.is_straight) == (False, None, 4, True)
    assert along(steps.last_target) == 1


@pytest.mark.parametrize(
    ("count", "step", "said"),
    [
        (0, "1", "positions: 0; along a line there are 1 to 1,000,000"),
        (5, "0", "step: 0 mm; from one position to the next is above 0"),
        (50_002, "1", "positions: the last one lies 50,001 mm from the first; 50,000 mm at most"),
    ],
)
def test_steps_that_no_slide_makes_are_refused(count: int, step: str, said: str) -> None:
    with pytest.raises(BadDivisions, match=said):
        EqualSteps(count, Fraction(step))


def test_only_steps_are_straight() -> None:
    assert not EqualDivisions(4).is_straight
    assert not AngleList((Fraction(0),)).is_straight
