"""Ratchet wheels: what is refused, and what the cards say."""

from fractions import Fraction
from math import atan2, cos, pi, sin

import pytest

from crankwise.errors import FaultsFound
from crankwise.part.ratchet import Ratchet, measuring_card, part_of, preparation_card, ratchet_for_cutter

FIFTY = Fraction(50)


def test_a_sharp_radial_tooth_is_a_triangle_that_can_be_drawn() -> None:
    ratchet = Ratchet(24, FIFTY, Fraction(3))
    # The root lies at (0, 22), and the next tip a division on, on the rim of radius 25.
    tip = 25 * sin(2 * pi / 24), 25 * cos(2 * pi / 24)
    assert ratchet.cutter_angle * 2 * pi == pytest.approx(atan2(tip[0], tip[1] - 22))
    assert ratchet.infeed_mm == pytest.approx(3)
    assert ratchet.offset_mm == 0
    assert ratchet.root_diameter_mm == pytest.approx(44)


def test_an_undercut_face_stands_past_the_centre_and_goes_deeper() -> None:
    ratchet = Ratchet(24, FIFTY, Fraction(3), undercut=Fraction(10, 360))
    assert ratchet.offset_mm == pytest.approx(25 * sin(pi / 18))
    assert ratchet.infeed_mm == pytest.approx(25 - 25 * cos(pi / 18) + 3)


def test_the_land_that_a_cutter_leaves_asks_for_that_cutter() -> None:
    by_cutter = ratchet_for_cutter(30, Fraction(80), Fraction(4), Fraction(58, 360), Fraction(0), "clockwise")
    by_land = Ratchet(30, Fraction(80), Fraction(4), by_cutter.land_mm)
    assert by_land.cutter_angle * 360 == pytest.approx(58)
    assert by_cutter.free == "clockwise"


def test_the_part_is_its_spaces() -> None:
    part = part_of(Ratchet(59, Fraction(80), Fraction(2)))
    assert [len(part.divisions), part.rim_mm, part.work] == [59, 80, "space"]


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"teeth": 2}, "teeth: 2; a ratchet wheel has 3 to 1000 teeth"),
        ({"outside_mm": Fraction(0)}, "outside: 0 mm; it is above 0"),
        ({"depth_mm": Fraction(-1)}, "depth: -1 mm; it is above 0"),
        ({"depth_mm": Fraction(13)}, "up to a quarter of the outside diameter, 12.5 mm"),
        ({"depth_mm": Fraction(1, 10)}, "cutters are from 20 to 85 degrees: cut deeper"),
        ({"teeth": 200, "depth_mm": Fraction(5)}, "cutters are from 20 to 85 degrees: cut less deep"),
        ({"land_mm": Fraction(4)}, r"land: 4 mm; the teeth are 6.544 mm"),
        ({"undercut": Fraction(30, 360)}, "undercut: 30 degrees; a face leans by 0 to 20"),
    ],
)
def test_what_cannot_be_a_ratchet_is_refused(change: dict[str, Fraction], said: str) -> None:
    asked = {"teeth": 24, "outside_mm": FIFTY, "depth_mm": Fraction(3)} | change
    with pytest.raises(FaultsFound, match=said):
        Ratchet(**asked)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("cutter", "said"),
    [
        (80, "it would cut the next tip away: a cutter of 71.6 degrees at most"),
        (40, "it leaves more land than tooth, .* or take a wider angle, up to 71.6 degrees"),
        (10, "cutter: 10 degrees; single-angle cutters are from 20 to 85"),
    ],
)
def test_a_cutter_that_does_not_do_is_refused(cutter: int, said: str) -> None:
    with pytest.raises(FaultsFound, match=said):
        ratchet_for_cutter(24, FIFTY, Fraction(3), Fraction(cutter, 360), Fraction(0), "anticlockwise")


@pytest.mark.parametrize(
    ("free", "faces", "slant"),
    [("anticlockwise", "clockwise", "right"), ("clockwise", "anticlockwise", "left")],
)
def test_the_hand_is_told_from_the_front(free: str, faces: str, slant: str) -> None:
    ratchet = Ratchet(24, FIFTY, Fraction(3), undercut=Fraction(5, 360), free=free)  # type: ignore[arg-type]
    told = {line.what: line.note for line in preparation_card(ratchet).lines}
    assert f"faces look {faces}: the wheel turns freely {free}" in told["hand"]
    assert f"slant is to the {slant}" in told["hand"]
    assert "straight side past the centre" in told
    assert "land" in {line.what for line in measuring_card(ratchet).lines}
