"""Classes of lines: lengths in their proportions, depth for a width, and what is refused."""

from fractions import Fraction

import pytest

from crankwise.errors import BadDivisions, BadLength
from crankwise.part.line_classes import default_classes, depth_for
from tests.graduated import classes


def test_usual_lengths_are_1_to_1_5_to_2_and_widths_a_tenth_of_the_spacing() -> None:
    fine, coarse = (default_classes((1, 5, 10), Fraction(spacing)) for spacing in ("1.26", "1.88"))
    assert [one.length_mm for one in fine.classes] == [2, 3, 4]
    assert [one.length_mm for one in coarse.classes] == [Fraction("2.5"), Fraction("3.75"), 5]
    assert {one.width_mm for one in fine.classes} == {Fraction("0.13")}
    assert {one.width_mm for one in default_classes((1,), Fraction(9)).classes} == {Fraction("0.25")}
    assert {one.width_mm for one in default_classes((1,), Fraction(1, 5)).classes} == {Fraction("0.1")}


def test_a_line_of_60_degrees_is_1_15_times_as_wide_as_deep_and_of_90_twice() -> None:
    assert depth_for(Fraction("1.155"), Fraction(1, 6)) == Fraction("1.0003")
    assert depth_for(Fraction(2), Fraction(1, 4)) == 1


@pytest.mark.parametrize(
    ("lengths", "error", "message"),
    [
        ({0: "2", 5: "3"}, BadDivisions, "every 0; a class stands at every 1, 5 or 10"),
        (
            {1: "2", 5: "3", 12: "4"},
            BadDivisions,
            "every 12 after every 5; each class stands at a whole multiple",
        ),
        ({1: "3", 5: "3"}, BadLength, "every 5 are not longer than those of every 1"),
        ({1: "-1"}, BadLength, "length and width are above 0"),
    ],
)
def test_classes_that_do_not_go_together_are_refused(
    lengths: dict[int, str], error: type[Exception], message: str
) -> None:
    with pytest.raises(error, match=message):
        classes(lengths)


def test_a_tool_of_180_degrees_is_no_v() -> None:
    with pytest.raises(BadDivisions, match="tool angle: 180 degrees; a V tool has above 0 and below 180"):
        depth_for(Fraction(1), Fraction(1, 2))
