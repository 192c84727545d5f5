"""Readings as they were typed: their units, and what is named instead of being reckoned with."""

from fractions import Fraction

import pytest

from crankwise.errors import FaultsFound
from crankwise.tasks.part_readings import check_unit, column_of, part_values, typed_readings


def values(text: str, column: str) -> list[Fraction]:
    return [one.value for one in part_values(typed_readings(text, column))[1]]


@pytest.mark.parametrize(
    ("column", "text", "kind", "value"),
    [
        ("pitch_um", "2.5", "pitch_um", Fraction(5, 2)),
        ("pitch_mm", "0,0025", "pitch_um", Fraction(5, 2)),
        ("pitch_thou", "1", "pitch_um", Fraction(127, 5)),
        ("pitch_in", "-0.001", "pitch_um", Fraction(-127, 5)),
        ("pitch_um", "1 thou", "pitch_um", Fraction(127, 5)),
        ("chord_in", "2", "chord_mm", Fraction(254, 5)),
        ("chord_mm", "2 in", "chord_mm", Fraction(254, 5)),
        ("chord_in", "50.8 mm", "chord_mm", Fraction(254, 5)),
        ("size_in", "0.1", "size_mm", Fraction(127, 50)),
        ("size_mm", "0,1 in", "size_mm", Fraction(127, 50)),
        ("position_deg", "12d30m", "position_deg", Fraction(25, 2)),
    ],
)
def test_every_unit_comes_out_exactly(column: str, text: str, kind: str, value: Fraction) -> None:
    assert part_values(typed_readings(text, column)) == (kind, [(1, value)])


def test_lines_are_counted_as_they_stand_with_remarks_and_empty_ones() -> None:
    sheet = typed_readings("# first half\n\n1\n  \n2\n", "size_mm")
    assert [tuple(one) for one in part_values(sheet)[1]] == [(3, Fraction(1)), (5, Fraction(2))]


def test_a_heading_goes_before_what_the_column_was_said_to_be() -> None:
    assert values("size_in\n1\n2", "size_mm") == [Fraction(127, 5), Fraction(254, 5)]


@pytest.mark.parametrize("heading", ["place,date", "pitch_um,size_mm"])
def test_one_column_and_no_more_tells_of_the_part(heading: str) -> None:
    with pytest.raises(
        FaultsFound, match=f"the columns {heading.replace(',', ', ')}; one of them is pitch_um"
    ):
        column_of(typed_readings(f"{heading}\n1,2", "pitch_um", "wheel.csv"))


@pytest.mark.parametrize(
    ("numbers", "told"),
    [
        ((1, 2, 4), "4 after 2; 3 comes next"),
        ((1, 2, 2), "2 after 2; 3 comes next"),
        ((1, 3, 2), "3 after 1; 2 comes next"),
    ],
)
@pytest.mark.parametrize("column", ["tooth", "hole", "position"])
def test_rows_that_are_numbered_run_on_by_one(numbers: tuple[int, ...], told: str, column: str) -> None:
    rows = "\n".join(f"{number},5" for number in numbers)
    with pytest.raises(FaultsFound, match=told):
        values(f"{column},pitch_um\n{rows}", "")


def test_rows_may_be_numbered_from_anywhere() -> None:
    assert values("tooth,pitch_um\n17,1\n18,2\n19,3", "") == [1, 2, 3]


@pytest.mark.parametrize(
    ("column", "text", "told"),
    [
        (
            "pitch_um",
            "1\n2\n-1\n4000\n0",
            r"line 4\): 4000; the others are about 1; mistyped.*write micrometres",
        ),
        ("chord_mm", "10.01\n10.02\n1.003\n10.00\n10.01", r"line 3\): 1.003; the others are about 10.01"),
        (
            "chord_in",
            "1.001\n1.002\n10.03\n1.000",
            r"line 3\): 10.03; the others are about 1.00.*inches under",
        ),
    ],
)
def test_a_reading_out_of_all_proportion_is_named(column: str, text: str, told: str) -> None:
    with pytest.raises(FaultsFound, match=told):
        values(text, column)


def test_a_wheel_that_is_merely_poor_is_not_taken_for_mistyped() -> None:
    assert len(values("120\n-300\n250\n-80\n10", "pitch_um")) == 5


def test_all_that_was_mistyped_is_told_at_once() -> None:
    with pytest.raises(FaultsFound) as told:
        values("1\nx\n3\n4 ells", "size_mm")
    assert [fault.line for fault in told.value.faults] == [2, 4]


@pytest.mark.parametrize(
    ("column", "read", "told"),
    [
        ("chord_mm", "1", "these look like inches; name the column chord_in"),
        ("size_in", "25.4", "these look like millimetres; name the column size_mm"),
    ],
)
def test_lengths_in_the_other_system_are_named(column: str, read: str, told: str) -> None:
    sheet = typed_readings(read, column)
    wanted = Fraction(127, 5)
    with pytest.raises(FaultsFound, match=told):
        check_unit(part_values(sheet)[1], wanted, column, "")


def test_lengths_that_are_merely_wrong_are_left_to_the_inspection() -> None:
    _, found = part_values(typed_readings("20", "size_mm"))
    check_unit(found, Fraction(127, 5), "size_mm", "")
