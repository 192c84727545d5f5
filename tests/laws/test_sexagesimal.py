"""Angles written and read against a general library of sexagesimal angles, sharing nothing with the package.

The library computes in floats, good to about 1e-9 seconds here; so an angle is taken a thousandth of a
second away from any half, where both must round alike.
"""

import re
from fractions import Fraction

import pytest
from astropy.coordinates import Angle
from hypothesis import given
from hypothesis import strategies as st

from crankwise.exact.angle import read_angle
from crankwise.wording.angle import decimal_degrees, degrees_minutes_seconds

thousandths = st.one_of(
    st.integers(-1_296_000_000 * 3, 1_296_000_000 * 3),
    # next to a rollover of seconds, minutes or degrees, to either side of nought
    st.builds(lambda minute, off: minute * 60_000 + off, st.integers(-50_000, 50_000), st.integers(-60, 60)),
).filter(lambda count: count % 100 != 50)


def theirs(degrees: float, precision: int) -> str:
    text = str(
        Angle(degrees, "deg").to_string(unit="deg", sep=("°", "'", '"'), precision=precision, pad=False)
    )
    text = re.sub(r"(?<=[°'])0(?=[0-9])", "", text)  # it writes 5 minutes as 05
    # The library keeps the minus of an angle that rounds to nought; we never print "-0".
    return text.removeprefix("-") if not re.search("[1-9]", text) else text


@given(thousandths)
def test_degrees_minutes_seconds_are_written_as_the_library_does(count: int) -> None:
    turns = Fraction(count, 1_296_000_000)
    assert degrees_minutes_seconds(turns, 1) == theirs(float(turns * 360), 1)


@given(thousandths)
def test_three_places_are_written_as_the_library_does(count: int) -> None:
    turns = Fraction(count, 1_296_000_000)
    assert degrees_minutes_seconds(turns, 3) == theirs(float(turns * 360), 3)


@given(st.integers(-10_800_000, 10_800_000))
def test_decimal_degrees_are_written_as_the_library_does(ten_thousandths: int) -> None:
    turns = Fraction(ten_thousandths, 3_600_000)
    written = str(Angle(float(turns * 360), "deg").to_string(unit="deg", decimal=True, precision=4))
    assert decimal_degrees(turns) == f"{written}°"


@given(
    st.sampled_from(["", "-", "+"]),
    st.integers(0, 400),
    st.integers(0, 59),
    st.decimals(0, 59, places=3, allow_nan=False),
    st.sampled_from(["{}{}d{}m{}s", "{}{}°{}'{}\"", "{}{}° {}' {}\"", "{}{}°{}′{}″"]),
)
def test_degrees_minutes_seconds_are_read_as_the_library_does(
    sign: str, degrees: int, minutes: int, seconds: object, form: str
) -> None:
    typed = form.format(sign, degrees, minutes, seconds)
    assert float(read_angle(typed) * 360) == pytest.approx(float(Angle(typed).deg), rel=1e-12, abs=1e-12)


@pytest.mark.parametrize(
    "typed", ["12.5 deg", "-0.25deg", "0.3 rad", "90 arcmin", "45.5arcsec", "12d30m", "30'", '5.5"']
)
def test_an_angle_with_a_unit_is_read_as_the_library_does(typed: str) -> None:
    assert float(read_angle(typed) * 360) == pytest.approx(float(Angle(typed).deg), rel=1e-14)
