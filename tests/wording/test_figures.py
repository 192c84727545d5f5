"""Figures rounded once, halves away from nought, and an error that is never told as none."""

from fractions import Fraction

import pytest

from crankwise.wording.figures import arcseconds, at_the_rim, decimal, rounded, short

SECOND = Fraction(1, 1_296_000)


@pytest.mark.parametrize(
    ("value", "unit", "count"),
    [("5/2", "1", 3), ("-5/2", "1", -3), ("7/3", "1", 2), ("0", "1", 0), ("1", "1/3", 3), ("1/2", "1/5", 3)],
)
def test_rounding_is_half_away_from_nought(value: str, unit: str, count: int) -> None:
    assert rounded(Fraction(value), Fraction(unit)) == count


@pytest.mark.parametrize(
    ("value", "places", "text"),
    [
        ("113/40", 2, "2.83"),  # 2.825
        ("-113/40", 2, "-2.83"),
        ("0.004", 2, "0.00"),
        ("-0.004", 2, "0.00"),
        ("0.05", 1, "0.1"),
        ("9.995", 2, "10.00"),
        ("0.5", 0, "1"),
        ("123", 0, "123"),
        ("1/3", 6, "0.333333"),
    ],
)
def test_a_decimal_has_its_stated_places(value: str, places: int, text: str) -> None:
    assert decimal(Fraction(value), places) == text


@pytest.mark.parametrize(
    ("value", "text"),
    [
        ("113/2", "56.5"),
        ("7200/127", "about 56.6929"),
        ("1/8192", "about 0.0001"),
        ("56.12345", "about 56.1235"),
    ],
)
def test_a_value_that_is_cut_short_says_about(value: str, text: str) -> None:
    assert short(Fraction(value)) == text


@pytest.mark.parametrize(
    ("seconds", "text"),
    [
        ("0", '0"'),
        ("44.62", '44.6"'),
        ("-34.724", '-34.7"'),
        ("0.06", '0.1"'),
        ("0.04", '0.0400"'),
        ("0.00004", 'under 0.0001"'),
        ("-0.00004", 'under 0.0001"'),
    ],
)
def test_an_error_is_never_told_as_none(seconds: str, text: str) -> None:
    assert arcseconds(Fraction(seconds) * SECOND) == text


def test_45_seconds_at_200_mm_are_22_micrometres() -> None:
    # 45 / 206264.8 x 100 mm = 21.8 um = 0.859 thou
    assert at_the_rim(45 * SECOND, Fraction(200)) == "21.8 µm (8.6 tenths of a thou)"
    assert at_the_rim(45 * SECOND, Fraction(2000)) == "218.2 µm (8.6 thou)"
    assert at_the_rim(45 * SECOND, Fraction(200), inch_first=True) == "8.6 tenths of a thou (21.8 µm)"
