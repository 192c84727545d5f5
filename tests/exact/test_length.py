"""Lengths and tolerances: inches exactly, and never a unit by guess."""

import time
from fractions import Fraction

import pytest

from crankwise.errors import BadLength
from crankwise.exact.length import Tolerance, read_diameter, read_length, read_tolerance, rim_length


@pytest.mark.parametrize(
    ("typed", "millimetres"),
    [
        ("200", Fraction(200)),
        ("200mm", Fraction(200)),
        ("200 MM", Fraction(200)),
        ("8 in", Fraction(1016, 5)),
        ("8in", Fraction(1016, 5)),
        ('8"', Fraction(1016, 5)),
        ('8 "', Fraction(1016, 5)),
        ("8\u2033", Fraction(1016, 5)),
        ('7 7/8"', Fraction(63, 8) * Fraction(254, 10)),
        ("203.2mm", Fraction(1016, 5)),
        ("1in", Fraction(254, 10)),
        ("7 7/8 inches", Fraction(63, 8) * Fraction(254, 10)),
        ("1/2 inch", Fraction(127, 10)),
        ("20um", Fraction(1, 50)),
        ("20 µm", Fraction(1, 50)),  # the micro sign
        ("20 \u03bcm", Fraction(1, 50)),  # the Greek letter
        ("1thou", Fraction(254, 10_000)),
    ],
)
def test_a_length_is_read_exactly(typed: str, millimetres: Fraction) -> None:
    assert read_length(typed) == millimetres


def test_a_length_that_was_left_out_is_told_so() -> None:
    with pytest.raises(BadLength, match=r"^rim: nothing given; write it as 200mm, 8in, 20um or 2thou$"):
        read_length(" ", "rim")


@pytest.mark.parametrize("typed", ["wide", '8""', "8'", "3 cm", "1,5mm", "1/0 mm", "mm"])
def test_what_is_no_length_is_told_with_how_to_write_one(typed: str) -> None:
    with pytest.raises(BadLength, match=r"^rim: .* is not a length; write it as 200mm, 8in, 20um or 2thou$"):
        read_length(typed, "rim")


@pytest.mark.parametrize("typed", ["0", "-200mm", "0in"])
def test_a_diameter_is_above_nought(typed: str) -> None:
    with pytest.raises(BadLength, match=f"^rim: {typed} is not above 0; write it as 200mm or 8in$"):
        read_diameter(typed, "rim")


@pytest.mark.parametrize("filler", [" ", "1", "a"])
def test_an_endless_length_is_refused_at_once(filler: str) -> None:
    began = time.process_time()
    with pytest.raises(BadLength, match="is not a length"):
        read_length("1" + filler * 20_000 + "!")
    assert time.process_time() - began < 1  # not a race: without a bound it takes minutes


def test_an_endless_length_is_not_repeated_to_the_person() -> None:
    with pytest.raises(BadLength) as found:
        read_length("1" * 5_000 + " furlongs")
    assert len(str(found.value)) < 200


def test_a_whole_turn_of_a_rim_is_its_circumference() -> None:
    # 100 x pi, to ten printed decimals
    assert abs(rim_length(Fraction(1), Fraction(100)) - Fraction("314.1592653590")) < Fraction(1, 10**10)


@pytest.mark.parametrize(
    ("typed", "turns"),
    [
        ('30"', Fraction(30, 1_296_000)),
        ("30arcsec", Fraction(30, 1_296_000)),
        ("30''", Fraction(30, 1_296_000)),
        ("0.5'", Fraction(30, 1_296_000)),
        ("0.01 deg", Fraction(1, 36_000)),
        ("0°0'30\"", Fraction(30, 1_296_000)),
        ("0 arcsec", Fraction(0)),
    ],
)
def test_a_tolerance_may_be_an_angle(typed: str, turns: Fraction) -> None:
    assert read_tolerance(typed) == Tolerance(turns=turns)
    assert read_tolerance(typed).as_turns(None) == turns


@pytest.mark.parametrize(
    ("typed", "millimetres"),
    [("20um", "0.02"), ("0.02mm", "0.02"), ("1thou", "0.0254"), ("0.001in", "0.0254")],
)
def test_a_tolerance_may_be_a_length_at_the_rim(typed: str, millimetres: str) -> None:
    tolerance = read_tolerance(typed)
    assert tolerance == Tolerance(rim_mm=Fraction(millimetres))
    # at 200 mm, one turn is 628.3185307180 mm
    turns = tolerance.as_turns(Fraction(200))
    assert abs(turns * Fraction("628.3185307180") - Fraction(millimetres)) < Fraction(1, 10**10)


def test_a_length_needs_its_rim() -> None:
    with pytest.raises(BadLength, match=r"^within: a length at the rim needs the rim's diameter too"):
        read_tolerance("20um").as_turns(None)


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("", "within: nothing has no unit; write an angle as 30arcsec"),
        ("30", "within: '30' has no unit; write an angle as 30arcsec"),
        ("1/2", "within: '1/2' has no unit"),
        ("30 furlongs", "within: '30 furlongs' is neither an angle nor a length; write"),
        ("thirty arcsec", "within: 'thirty arcsec' is neither an angle nor a length"),
        ("-20um", "within: -20um is below 0; a tolerance is 0 or more, to either side"),
        ('-5"', 'within: -5" is below 0; a tolerance is 0 or more, to either side'),
    ],
)
def test_a_tolerance_in_the_wrong_unit_is_told(typed: str, sentence: str) -> None:
    with pytest.raises(BadLength) as found:
        read_tolerance(typed)
    assert str(found.value).startswith(sentence)
