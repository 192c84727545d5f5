"""Degrees, minutes and seconds with the carry right; decimal degrees."""

from fractions import Fraction

import pytest

from crankwise.wording.angle import decimal_degrees, degrees_minutes_seconds

SECOND = Fraction(1, 1_296_000)


@pytest.mark.parametrize(
    ("seconds", "places", "text"),
    [
        ("3599.96", 1, "1°0'0.0\""),  # 59'59.96"
        ("3599.94", 1, "0°59'59.9\""),
        ("3599.95", 1, "1°0'0.0\""),  # halves go away from nought
        ("59.96", 1, "0°1'0.0\""),
        ("59.5", 0, "0°1'0\""),
        ("59.4", 0, "0°0'59\""),
        ("-3599.96", 1, "-1°0'0.0\""),
        ("-0.04", 1, "0°0'0.0\""),  # no minus before nought
        ("-0.05", 1, "-0°0'0.1\""),
        ("-45296.7", 1, "-12°34'56.7\""),
        ("45296.7", 1, "12°34'56.7\""),
        ("1295999.96", 1, "360°0'0.0\""),
        ("1296000", 1, "360°0'0.0\""),
        ("2610000", 0, "725°0'0\""),
        ("0", 1, "0°0'0.0\""),
        ("0.0004", 3, "0°0'0.000\""),
        ("0.0005", 3, "0°0'0.001\""),
    ],
)
def test_degrees_minutes_seconds_carry(seconds: str, places: int, text: str) -> None:
    assert degrees_minutes_seconds(Fraction(seconds) * SECOND, places) == text


@pytest.mark.parametrize(
    ("turns", "places", "text"),
    [
        ("1/127", 4, "2.8346°"),
        ("-1/127", 4, "-2.8346°"),
        ("1/8", 0, "45°"),
        ("1/720", 0, "1°"),
        ("-1/720", 0, "-1°"),
        ("-1/1000000", 3, "0.000°"),
        ("5/2", 1, "900.0°"),
    ],
)
def test_decimal_degrees_to_a_stated_place(turns: str, places: int, text: str) -> None:
    assert decimal_degrees(Fraction(turns), places) == text
