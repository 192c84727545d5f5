"""The size of an error as it is typed, whichever door it comes by."""

from fractions import Fraction

import pytest

from crankwise.errors import BadLength, BadNumber
from crankwise.files.error_size_text import read_size
from crankwise.head.error_sizes import Size


@pytest.mark.parametrize(
    ("name", "typed", "low", "high"),
    [
        ("worm_arcsec", '10" to 60"', "10", "60"),
        ("lock_arcsec", "4", "4", "4"),
        ("tool_mm", "0.1 thou", "0.00254", "0.00254"),
        ("dial_diameter_mm", "2 1/2 in", "63.5", "63.5"),
        ("tilt_mm_in_100", "0.05", "0.05", "0.05"),
        ("reading_marks", "1/10..1/5", "0.1", "0.2"),
    ],
)
def test_a_size_is_read_in_the_unit_of_its_name(name: str, typed: str, low: str, high: str) -> None:
    assert read_size(name, typed, "size") == Size(Fraction(low), Fraction(high))


def test_what_cannot_be_read_is_told() -> None:
    with pytest.raises(BadNumber, match="a range has two ends"):
        read_size("worm_arcsec", "1..2..3", "size")
    with pytest.raises(BadNumber, match="at most 36,000 is believed"):
        read_size("worm_arcsec", "99999", "size")
    with pytest.raises(BadNumber, match="write the smaller one first"):
        read_size("worm_arcsec", "9..1", "size")
    with pytest.raises(BadLength, match="is not a length"):
        read_size("tool_mm", "5 ells", "size")
    with pytest.raises(BadNumber, match="is not a number"):
        read_size("worm_arcsec", "20mm", "size")
