"""Angles as a person types them, read as exact parts of a turn."""

import time
from fractions import Fraction

import pytest

from crankwise.errors import BadAngle
from crankwise.exact.angle import read_angle, read_angles

DEGREE, MINUTE, SECOND = Fraction(1, 360), Fraction(1, 21_600), Fraction(1, 1_296_000)


@pytest.mark.parametrize(
    ("typed", "turns"),
    [
        ("12°34'56.7\"", 12 * DEGREE + 34 * MINUTE + Fraction(567, 10) * SECOND),
        ("12d34m56.7s", 12 * DEGREE + 34 * MINUTE + Fraction(567, 10) * SECOND),
        ("12D34M56.7S", 12 * DEGREE + 34 * MINUTE + Fraction(567, 10) * SECOND),
        ("12° 34′ 56.7″", 12 * DEGREE + 34 * MINUTE + Fraction(567, 10) * SECOND),
        ("12º34’56.7”", 12 * DEGREE + 34 * MINUTE + Fraction(567, 10) * SECOND),
        ("12°34'56.7''", 12 * DEGREE + 34 * MINUTE + Fraction(567, 10) * SECOND),
        ('12°56.7"', 12 * DEGREE + Fraction(567, 10) * SECOND),
        ("-12°30'", Fraction(-25, 720)),
        ("−0°0'30\"", -30 * SECOND),
        ("12.5°", Fraction(25, 720)),
        ("12.5", Fraction(25, 720)),
        ("7 1/2", Fraction(15, 720)),
        ("7 1/2°", Fraction(15, 720)),
        ("30'", 30 * MINUTE),
        ("90'", 90 * MINUTE),
        ("30''", 30 * SECOND),
        ('45"', 45 * SECOND),
        ("1/127 turn", Fraction(1, 127)),
        ("1 1/2 turns", Fraction(3, 2)),
        ("400/9 gon", Fraction(1, 9)),
        ("100GON", Fraction(1, 4)),
        ("90 deg", Fraction(1, 4)),
        ("90 degrees", Fraction(1, 4)),
        ("-30 arcmin", -30 * MINUTE),
        ("1.5arcsec", Fraction(3, 2) * SECOND),
        ("725°", Fraction(725, 360)),
        ("0", Fraction(0)),
    ],
)
def test_an_angle_is_read_exactly(typed: str, turns: Fraction) -> None:
    assert read_angle(typed) == turns


def test_a_radian_is_taken_with_pi_to_fifty_decimals() -> None:
    # 1 rad = 206264.806247096355156473357330778613197... seconds of arc (any table of constants)
    printed = Fraction("206264.806247096355156473357330778613197")
    assert abs(read_angle("1 rad") * 1_296_000 - printed) < Fraction(1, 10**33)


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("", "angle: nothing given; write degrees as 12.5, 12°34'56.7\""),
        ("north", "angle: 'north' is not an angle; write degrees as"),
        ("12 furlong", "angle: 'furlong' in '12 furlong' is not a unit of angle"),
        ("12°60'", 'angle: "12°60\'" has 60 minutes; after a larger unit, minutes stay below 60'),
        ("12°0'60\"", "angle: '12°0\\'60\"' has 60 seconds; after a larger unit, seconds stay below 60"),
        ("12.5°30'", 'angle: "12.5°30\'" has a part of a unit before a smaller unit'),
        ("12°1/2'3\"", "angle: '12°1/2\\'3\"' has a part of a unit before a smaller unit"),
        ("12:30", "angle: '12:30' is not an angle"),
        ("1/0 turn", "angle: '1/0 turn' is not an angle"),
        ("12°-30'", 'angle: "12°-30\'" is not an angle'),
        ("°", "angle: '°' is not an angle"),
    ],
)
def test_what_is_no_angle_is_told_in_one_sentence(typed: str, sentence: str) -> None:
    with pytest.raises(BadAngle) as found:
        read_angle(typed)
    assert str(found.value).startswith(sentence)


def test_a_list_is_separated_by_commas_semicolons_or_lines() -> None:
    assert read_angles("0, 12.5; 30°15'\n1/7 turn,") == (
        Fraction(0),
        Fraction(25, 720),
        30 * DEGREE + 15 * MINUTE,
        Fraction(1, 7),
    )


def test_a_list_tells_which_of_its_angles_cannot_be_read() -> None:
    with pytest.raises(BadAngle, match=r"^angle 3 of the list: 'x' is not an angle; write degrees as"):
        read_angles("0, 12.5, x, y")


@pytest.mark.parametrize("typed", ["", " ", ",;\n"])
def test_an_empty_list_says_how_to_write_one(typed: str) -> None:
    with pytest.raises(BadAngle, match=r"^angles: the list is empty; separate the angles by commas"):
        read_angles(typed)


@pytest.mark.parametrize("filler", [" ", "1", "1 ", ".", "a", "1d"])
def test_an_endless_angle_is_refused_at_once(filler: str) -> None:
    began = time.process_time()
    with pytest.raises(BadAngle, match=r"^angle: .* is not an? "):
        read_angle("1" + filler * 20_000 + "!")
    assert time.process_time() - began < 1  # not a race: without a bound it takes minutes
