"""Reading, writing and reading again gives the same; what is written is never out by more than its last place."""

import re
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from crankwise.exact.angle import read_angle
from crankwise.exact.number import as_text
from crankwise.files.head_toml import read_head, write_head
from crankwise.head.head import Head
from crankwise.wording.angle import decimal_degrees, degrees_minutes_seconds
from crankwise.wording.figures import decimal, rounded
from tests.laws.gear import heads

SECONDS = 1_296_000
turns = st.fractions(-3, 3, max_denominator=10**6)
near_a_carry = st.builds(
    lambda units, off: Fraction(units, 21_600) + Fraction(off, 10**6 * SECONDS),
    st.integers(-50_000, 50_000),
    st.integers(-(10**6), 10**6),
)
places = st.integers(0, 4)


@given(st.one_of(turns, near_a_carry), places)
def test_no_seconds_and_no_minutes_ever_reach_60(angle: Fraction, decimals: int) -> None:
    text = degrees_minutes_seconds(angle, decimals)
    match = re.fullmatch(r'(-?)(\d+)°(\d+)\'(\d+(?:\.\d+)?)"', text)
    assert match is not None
    assert int(match[3]) < 60
    assert Fraction(match[4]) < 60
    assert len(match[4].partition(".")[2]) == decimals


@given(st.one_of(turns, near_a_carry), places)
def test_degrees_minutes_seconds_are_within_half_a_unit_of_the_angle(angle: Fraction, decimals: int) -> None:
    written = read_angle(degrees_minutes_seconds(angle, decimals))
    assert abs(written - angle) * SECONDS <= Fraction(1, 2 * 10**decimals)
    # and what is written is written again just so
    assert degrees_minutes_seconds(written, decimals) == degrees_minutes_seconds(angle, decimals)


@given(turns, places)
def test_decimal_degrees_are_within_half_a_unit_of_the_angle(angle: Fraction, decimals: int) -> None:
    written = read_angle(decimal_degrees(angle, decimals))
    assert abs(written - angle) * 360 <= Fraction(1, 2 * 10**decimals)


@given(turns, places)
def test_a_negative_angle_is_written_as_its_mirror(angle: Fraction, decimals: int) -> None:
    text = degrees_minutes_seconds(abs(angle), decimals)
    mirrored = degrees_minutes_seconds(-abs(angle), decimals)
    assert mirrored == (text if read_angle(text) == 0 else f"-{text}")


@given(turns)
def test_an_angle_written_exactly_is_read_as_the_same(angle: Fraction) -> None:
    assert read_angle(f"{as_text(angle)} turn") == angle
    assert read_angle(as_text(angle * 360)) == angle
    assert read_angle(f"{as_text(angle * 400)}gon") == angle
    assert read_angle(f"{as_text(angle * SECONDS)} arcsec") == angle


@given(st.fractions(-1000, 1000), places)
def test_rounding_is_within_half_a_unit_and_alike_on_both_sides(value: Fraction, decimals: int) -> None:
    unit = Fraction(1, 10**decimals)
    assert abs(rounded(value, unit) * unit - value) <= unit / 2
    assert rounded(-value, unit) == -rounded(value, unit)
    assert Fraction(decimal(value, decimals)) == rounded(value, unit) * unit


@given(heads())
def test_a_head_written_and_read_again_is_the_same_head(head: Head) -> None:
    assert read_head(write_head(head)) == head
    assert write_head(read_head(write_head(head))) == write_head(head)
