"""Sprockets: pitch circles against a recalled table, pins against their own coordinates, what is refused."""

from fractions import Fraction
from math import dist

import pytest

from crankwise.errors import FaultsFound
from crankwise.part.divisions import EqualDivisions
from crankwise.part.hole_circle import HoleCircle
from crankwise.part.sprocket import (
    CHAINS,
    Chain,
    Sprocket,
    chain_for_roller,
    measuring_card,
    part_of,
    preparation_card,
)

# Pitch diameter for a pitch of 1, as ISO 606 prints it; recalled, not read, so that agreement says as recalled.
# 11 is left out: recalled as 3.5494, while 1 / sin(180/11) is 3.54947.
UNIT_PITCH_DIAMETERS = {
    9: "2.9238", 10: "3.2361", 12: "3.8637", 13: "4.1786", 14: "4.4940", 15: "4.8097", 16: "5.1258",
    17: "5.4422", 18: "5.7588", 19: "6.0755", 20: "6.3925",
}  # fmt: skip


@pytest.mark.parametrize(("teeth", "printed"), UNIT_PITCH_DIAMETERS.items())
def test_the_pitch_circle_is_the_recalled_one(teeth: int, printed: str) -> None:
    ours = Sprocket(teeth, Chain(Fraction(1), Fraction(5, 8))).pitch_diameter_mm
    assert ours == pytest.approx(float(printed), abs=0.5e-4)


@pytest.mark.parametrize("number", CHAINS)
@pytest.mark.parametrize("teeth", [9, 18, 19, 57])
def test_rollers_seated_on_the_pitch_circle_are_a_pitch_apart_and_measure_as_told(
    number: str, teeth: int
) -> None:
    sprocket = Sprocket(teeth, CHAINS[number])
    seats = HoleCircle(EqualDivisions(teeth), Fraction(sprocket.pitch_diameter_mm)).coordinates_mm()
    assert dist(seats[0], seats[1]) == pytest.approx(float(sprocket.chain.pitch_mm))
    widest = max(dist(seats[0], seat) for seat in seats)
    assert sprocket.over_pins_mm == pytest.approx(widest + float(sprocket.chain.roller_mm))


@pytest.mark.parametrize("number", CHAINS)
def test_limits_are_in_order_for_every_chain(number: str) -> None:
    for teeth in (9, 15, 60, 200):
        sprocket = Sprocket(teeth, CHAINS[number])
        least, most = sprocket.outside_limits_mm
        assert sprocket.root_diameter_mm < least < sprocket.outside_diameter_mm < most
        seat = 2 * sprocket.seating_radius_limits_mm[0]
        assert sprocket.chain.roller_mm < seat < sprocket.chain.pitch_mm  # metal is left between two seats


def test_the_root_may_be_smaller_by_what_its_size_allows() -> None:
    allowed = [Sprocket(teeth, CHAINS["08B"]).root_tolerance_mm for teeth in (19, 40, 70, 90)]
    assert allowed == [Fraction(1, 4), Fraction(3, 10), Fraction(8, 25), Fraction(9, 25)]


def test_an_even_and_an_odd_count_say_where_the_pins_go() -> None:
    even, odd = (
        next(
            line.note
            for line in measuring_card(Sprocket(teeth, CHAINS["08B"])).lines
            if line.what == "over pins"
        )
        for teeth in (18, 19)
    )
    assert even.startswith("in opposite gaps")
    assert odd.startswith("in the two gaps nearest to opposite")


def test_the_width_is_told_where_the_chain_is_known() -> None:
    sprocket = Sprocket(19, CHAINS["08B"])
    assert sprocket.width_mm == Fraction("0.93") * Fraction("7.75")
    assert "width of the teeth" in {line.what for line in preparation_card(sprocket).lines}
    bare = Sprocket(19, Chain(Fraction(10), Fraction(6)))
    assert bare.width_mm is None
    assert "width of the teeth" not in {line.what for line in preparation_card(bare).lines}
    assert len(part_of(bare).divisions) == 19


def test_a_chain_without_its_roller_names_those_of_its_pitch() -> None:
    with pytest.raises(FaultsFound, match=r"roller: not told; .* or name the chain: 08A or 08B"):
        chain_for_roller(Fraction("12.7"), None, None)


@pytest.mark.parametrize(
    ("pitch", "roller", "inner", "said"),
    [
        (0, 5, None, "pitch: 0 mm; a chain's pitch is above 0"),
        (10, 9, None, "roller: 9 mm on a pitch of 10 mm; a roller is a quarter to three quarters"),
        (10, 6, 0, "inner width: 0 mm; it is above 0"),
    ],
)
def test_what_cannot_be_a_chain_is_refused(pitch: int, roller: int, inner: int | None, said: str) -> None:
    with pytest.raises(FaultsFound, match=said):
        Chain(Fraction(pitch), Fraction(roller), None if inner is None else Fraction(inner))


def test_a_sprocket_of_3_teeth_is_refused() -> None:
    with pytest.raises(FaultsFound, match="teeth: 3; a sprocket for roller chain has 6 to 200 teeth"):
        Sprocket(3, CHAINS["08B"])
