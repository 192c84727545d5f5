"""Flats on a bar: depths, widths, and what is refused with what would work."""

from fractions import Fraction
from math import radians, sin, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.errors import BadDivisions, FaultsFound
from crankwise.part.divisions import AngleList
from crankwise.part.flats import Flat, Flats, height_of_corners, height_of_side, part_of, polygon
from crankwise.part.flats_cards import measuring_card, preparation_card


def test_a_hexagon_is_as_the_handbook_has_it() -> None:
    hexagon = polygon(6, Fraction(17, 2))
    assert hexagon.bar_mm == pytest.approx(17 * 1.1547, abs=1e-3)
    assert hexagon.depth_mm(hexagon.flats[0]) == pytest.approx((17 * 1.1547 - 17) / 2, abs=1e-3)
    assert hexagon.across_flats_mm == 17
    assert hexagon.corners_are_sharp


@given(st.integers(3, 60), st.fractions(1, 200, max_denominator=20))
def test_a_polygon_by_its_side_its_corners_and_its_height_is_the_same(count: int, height: Fraction) -> None:
    flats = polygon(count, height)
    side = 2 * float(height) * tan(radians(180 / count))
    assert flats.width_mm(flats.flats[0]) == pytest.approx(side)
    assert height_of_side(count, side) == pytest.approx(float(height))
    assert height_of_corners(count, flats.bar_mm) == pytest.approx(float(height))
    assert flats.sharp_corners_mm == pytest.approx(side / sin(radians(180 / count)))


@given(st.integers(1, 40), st.fractions(1, 100, max_denominator=20), st.fractions(Fraction(1, 100), 1))
def test_the_depth_from_a_bar_and_the_height_make_the_bar(
    count: int, height: Fraction, more: Fraction
) -> None:
    bar = 2 * height * (1 + more)
    flats = polygon(count, height, bar)
    depth = flats.depth_mm(flats.flats[0])
    assert isinstance(depth, Fraction)
    assert 2 * (depth + height) == bar


def test_a_small_bar_leaves_its_round_at_the_corners() -> None:
    flats = polygon(4, Fraction(10), Fraction(25))
    assert flats.across_corners_mm == 25
    assert not flats.corners_are_sharp
    assert flats.width_mm(flats.flats[0]) == pytest.approx(15)  # 10, 7.5 and 12.5: a triangle of 3, 4 and 5


def test_an_odd_polygon_is_measured_to_the_corner() -> None:
    triangle = polygon(3, Fraction(8))
    assert triangle.across_flats_mm is None
    assert triangle.flat_to_corner_mm == pytest.approx(24)
    assert {line.what: line.value for line in measuring_card(triangle).lines}[
        "flat to opposite corner"
    ] == pytest.approx(24)


def test_two_flats_and_one() -> None:
    two = polygon(2, Fraction(7), Fraction(18))
    assert (two.across_flats_mm, two.across_corners_mm) == (14, None)
    assert two.depth_mm(two.flats[0]) == 2
    one = polygon(1, Fraction(7), Fraction(18))
    told = {line.what: line.value for line in measuring_card(one).lines}
    assert told["over the flat and the round"] == 16


def test_unequal_flats_are_told_one_by_one() -> None:
    flats = Flats(
        tuple(
            Flat(Fraction(quarter, 4), height) for quarter, height in enumerate(map(Fraction, (8, 9, 8, 7)))
        ),
        Fraction(22),
    )
    assert [flats.depth_mm(flat) for flat in flats.flats] == [3, 2, 3, 4]
    part = part_of(flats)
    assert isinstance(part.divisions, AngleList)
    assert [mark.note for mark in part.marks][:2] == ["depth 3 mm (0.1181 in)", "depth 2 mm (0.0787 in)"]
    told = {line.what: line.value for line in measuring_card(flats).lines}
    assert told["over flat 2 and the one opposite"] == 16
    assert "depth of flat 4" in {line.what for line in preparation_card(flats).lines}


@pytest.mark.parametrize(
    ("count", "height", "bar", "said"),
    [
        (2, 5, None, "flats: 2; fewer than 3 flats have no corners, .* as --bar 20mm"),
        (0, 5, 20, "flats: 0; a bar has 1 to 1000 flats"),
        (1001, 5, 20, "1 to 1000 flats"),
        (6, 8, 16, r"bar: 16 mm; too small: .* so the bar is over 16 mm \(0.63 in\)"),
        (6, 0, 16, "a flat at or below the centre"),
    ],
)
def test_what_cannot_be_cut_is_refused(count: int, height: int, bar: int | None, said: str) -> None:
    with pytest.raises(FaultsFound, match=said):
        polygon(count, Fraction(height), None if bar is None else Fraction(bar))


def test_a_flat_that_its_neighbours_cut_away_is_refused() -> None:
    flats = (Flat(Fraction(0), 5), Flat(Fraction(1, 8), 9), Flat(Fraction(1, 4), 5))
    with pytest.raises(FaultsFound, match="flat 2: nothing of it is left by its neighbours"):
        Flats(tuple(Flat(flat.angle, Fraction(flat.height_mm)) for flat in flats), Fraction(22))


def test_flats_are_given_in_order() -> None:
    with pytest.raises(BadDivisions, match="angles must rise"):
        Flats((Flat(Fraction(1, 2), Fraction(5)), Flat(Fraction(1, 4), Fraction(5))), Fraction(22))


def test_a_flat_as_low_as_told_is_left_by_its_neighbours() -> None:
    def three(middle: Fraction) -> Flats:
        sides = Fraction(5)
        return Flats(
            (Flat(Fraction(0), sides), Flat(Fraction(1, 8), middle), Flat(Fraction(1, 4), sides)),
            Fraction(22),
        )

    with pytest.raises(FaultsFound, match=r"make it lower than 7\.071 mm"):  # the corner of a square of 10
        three(Fraction("7.08"))
    assert three(Fraction("7.07")).width_mm(Flat(Fraction(1, 8), Fraction("7.07"))) > 0


def test_a_hundred_unequal_flats_are_enough() -> None:
    many = tuple(Flat(Fraction(number, 101), Fraction(10) + Fraction(number, 1000)) for number in range(101))
    with pytest.raises(FaultsFound, match="flats: 101 unequal ones; at most 100"):
        Flats(many, Fraction(30))


def test_the_passes_end_at_the_depth() -> None:
    square = polygon(4, Fraction(10), Fraction(25))
    passes = [line for line in preparation_card(square).lines if line.what.startswith("pass ")]
    assert [line.what for line in passes] == ["pass 1, rough", "pass 2, rough", "pass 3, finish"]
    assert passes[-1].value == Fraction(5, 2)
    assert Fraction(passes[-1].value or 0) - Fraction(passes[-2].value or 0) == Fraction(3, 10)


@pytest.mark.parametrize(
    ("flats", "order"),
    [
        (polygon(6, Fraction(8)), "cut two opposite flats and measure across them before the others"),
        (polygon(5, Fraction(8)), "cut one flat and measure over it to the round opposite before the others"),
        (Flats((Flat(Fraction(0), Fraction(5)),), Fraction(12)), "rough, then finish at the depth"),
    ],
)
def test_the_order_of_work_is_one_that_these_flats_have(flats: Flats, order: str) -> None:
    told = {line.what: line.note for line in preparation_card(flats).lines}
    assert told["order"].endswith(order)


def test_the_first_of_an_odd_number_of_flats_is_measured_over_the_round_that_is_still_there() -> None:
    triangle = polygon(3, Fraction(8), Fraction(17))
    told = {line.what: line for line in measuring_card(triangle).lines}
    assert told["over the first flat and the round"].value == 16.5
    assert "over the first flat and the round" not in {
        line.what for line in measuring_card(polygon(4, Fraction(8))).lines
    }
