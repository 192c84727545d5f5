"""Racks: places along a slide, and the pin that rests in a space."""

from fractions import Fraction
from math import pi, tan

import pytest
from shapely import Point, Polygon

from crankwise.errors import FaultsFound
from crankwise.exact.length import INCH, along
from crankwise.part.gear_system import INCH_FULL_DEPTH
from crankwise.part.rack import Rack, measuring_card, part_of_rack, preparation_card, spaces_in

ONE = Fraction(1)


def test_places_count_from_the_first_space() -> None:
    rack = Rack(100, ONE)
    assert [float(place) for place in rack.positions_mm] == pytest.approx(
        [pi * number for number in range(100)]
    )
    assert rack.cut_length_mm == rack.positions_mm[-1]


def test_an_inch_rack_has_the_inch_depth() -> None:
    rack = Rack(10, INCH / 24, system=INCH_FULL_DEPTH)
    assert float(rack.whole_depth_mm / INCH) == pytest.approx(2.157 / 24)
    assert float(rack.pitch_mm / INCH) == pytest.approx(pi / 24)


@pytest.mark.parametrize(
    ("travel", "spaces"), [(1, 1), (Fraction("31.4"), 10), (Fraction("31.5"), 11), (1000, 40)]
)
def test_the_spaces_that_a_slide_reaches(travel: Fraction, spaces: int) -> None:
    assert spaces_in(40, Rack(40, ONE).pitch_mm, Fraction(travel)) == spaces


@pytest.mark.parametrize(("module", "angle"), [("1", "20"), ("2.5", "14.5"), ("0.8", "25")])
def test_the_pin_rests_as_high_as_told(module: str, angle: str) -> None:
    rack = Rack(20, Fraction(module), Fraction(angle) / 360)
    told = {line.what: line.value for line in measuring_card(rack).lines}
    pin, over = told["pin"], told["pin over the top"]
    assert pin is not None
    assert over is not None
    # The space as a polygon, its top at height 0; the pin is let down until it would cut into a flank.
    m, slope = float(module), tan(2 * pi * float(rack.pressure_angle))
    half, depth = pi * m / 4, float(rack.whole_depth_mm)
    wide, narrow = half + m * slope, half - (depth - m) * slope
    wall = Polygon([(wide, 0), (narrow, -depth), (9 * m, -depth), (9 * m, 0)])
    high, low = 3 * m, -depth
    for _ in range(60):
        middle = (high + low) / 2
        if Point(0, middle).distance(wall) > float(pin) / 2:
            high = middle
        else:
            low = middle
    assert high + float(pin) / 2 == pytest.approx(float(over), abs=1e-9)
    assert 2 * narrow == pytest.approx(rack.bottom_width_mm)


@pytest.mark.parametrize(
    ("rack", "said"),
    [
        ((0, ONE), "teeth: 0; a rack is cut with 1 to 10,000 spaces"),
        ((5, Fraction(0)), "module: 0 mm; from 0.05 to 100 mm"),
        ((5, ONE, Fraction(60, 360)), "pressure angle: 60 degrees; from 10 to 35"),
    ],
)
def test_what_cannot_be_a_rack_is_refused(rack: tuple[int, Fraction], said: str) -> None:
    with pytest.raises(FaultsFound, match=said):
        Rack(*rack)


def test_the_card_warns_of_stepping() -> None:
    pitch = next(line for line in preparation_card(Rack(5, ONE)).lines if line.what == "pitch")
    assert "never add a rounded one" in pitch.note


def test_a_rack_is_spaces_along_a_line_just_where_it_has_them() -> None:
    rack = Rack(40, Fraction("1.5"))
    part = part_of_rack(rack)
    assert part is not None
    assert (part.work, part.is_straight, part.rim_mm) == ("space", True, None)
    assert tuple(along(target) for _, target in part.divisions.targets()) == rack.positions_mm
    assert part.length_of(part.divisions.last_target) == rack.cut_length_mm


def test_a_rack_longer_than_any_slide_is_sized_and_not_run() -> None:
    assert part_of_rack(Rack(10_000, Fraction(100))) is None
