"""Straight splines: the standard's sizes, what is refused, the circuits."""

from fractions import Fraction

import pytest

from crankwise.errors import FaultsFound
from crankwise.part.splines import (
    LIGHT,
    MEDIUM,
    Splines,
    measuring_card,
    parts_of,
    preparation_card,
    standard_key,
)


@pytest.mark.parametrize(("size", "key"), [*LIGHT.items(), *MEDIUM.items()], ids=str)
def test_every_size_of_the_standard_can_be_made(size: tuple[int, int, int], key: Fraction) -> None:
    keys, minor, major = size
    assert standard_key(keys, Fraction(minor), Fraction(major)) == key
    splines = Splines(keys, Fraction(minor), Fraction(major), Fraction(key))
    assert splines.series in ("light", "medium")
    assert splines.floor_settings(Fraction(1))[-1] * 360 < 180 / keys


def test_the_two_series_share_no_size() -> None:
    assert not set(LIGHT) & set(MEDIUM)
    assert (len(LIGHT), len(MEDIUM)) == (15, 20)


def test_a_size_of_its_own_is_of_no_series() -> None:
    assert standard_key(6, Fraction(20), Fraction(25)) is None
    assert standard_key(6, Fraction("22.5"), Fraction(26)) is None
    assert Splines(6, Fraction("22.5"), Fraction(26), Fraction(6)).series == ""


def test_the_floors_lie_half_a_division_on() -> None:
    keys, floors = parts_of(Splines(6, Fraction(23), Fraction(26), Fraction(6)))
    assert [target for _, target in keys.divisions.targets()][:2] == [0, Fraction(1, 6)]
    assert next(floors.divisions.targets())[1] == Fraction(1, 12)


def test_the_card_tells_each_circuit() -> None:
    splines = Splines(6, Fraction(23), Fraction(26), Fraction(6))
    told = {line.what: line.value for line in preparation_card(splines, Fraction(4)).lines}
    assert told["infeed for the floors"] == Fraction(3, 2)
    assert told["circuit 1, side of the cutter off centre"] == 3
    assert told["flats for each floor"] == 3
    assert measuring_card(splines).lines[0].value == 6


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ((2, 23, 26, 6), "keys: 2; a splined shaft has 3 to 100 keys"),
        ((6, 0, 26, 6), "minor: 0 mm; it is above 0"),
        ((6, 26, 23, 6), "minor: 26 mm over the floors and 23 mm over the keys"),
        ((6, 10, 26, 3), "minor: 10 mm; so deep between keys of 26 mm no core is left"),
        ((6, 23, 26, 12), "key: 12 mm; 6 keys so wide meet at the floor: up to 10.9"),
    ],
)
def test_what_cannot_be_a_spline_is_refused(asked: tuple[int, int, int, int], said: str) -> None:
    with pytest.raises(FaultsFound, match=said):
        Splines(asked[0], *map(Fraction, asked[1:]))


def test_a_floor_cutter_that_is_too_wide_is_refused() -> None:
    splines = Splines(6, Fraction(23), Fraction(26), Fraction(6))
    with pytest.raises(FaultsFound, match=r"floor cutter: 6.5 mm; the floor between two keys is 6.35 mm"):
        splines.floor_settings(Fraction("6.5"))
    assert splines.floor_settings(Fraction("6.2"))
