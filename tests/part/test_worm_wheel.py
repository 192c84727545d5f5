"""Worm wheels for gashing: sizes, the tilt, the gash, and what is refused."""

from fractions import Fraction
from math import atan2, degrees, pi, tan

import pytest
from shapely import LineString, Polygon

from crankwise.errors import FaultsFound
from crankwise.part.worm_wheel import WormWheel, measuring_card, part_of, preparation_card

WHEEL = WormWheel(72, Fraction(1), Fraction(20))


def test_the_sizes_of_a_wheel() -> None:
    assert WHEEL.ratio == 72
    assert WHEEL.throat_diameter_mm == 74
    assert WHEEL.centres_mm == 46
    assert WHEEL.throat_radius_mm == 9
    assert WHEEL.hob_outside_mm - WHEEL.worm_outside_mm == Fraction(2, 5)


@pytest.mark.parametrize("starts", [1, 2, 4])
def test_the_tilt_is_that_of_the_thread_unrolled(starts: int) -> None:
    wheel = WormWheel(72, Fraction(1), Fraction(20), starts)
    unrolled = atan2(float(wheel.lead_mm), pi * 20)  # one turn of the thread round the pitch cylinder
    assert wheel.lead_angle * 360 == pytest.approx(degrees(unrolled))


@pytest.mark.parametrize("angle", ["14.5", "20", "25"])
def test_a_gash_as_wide_as_told_just_leaves_both_flanks(angle: str) -> None:
    wheel = WormWheel(72, Fraction(2), Fraction(400), pressure_angle=Fraction(angle) / 360)
    # The thread's own section along its axis, tip up, at height 0 on the pitch line; a thick worm hardly tilts.
    slope = pi * float(Fraction(angle)) / 180
    high, half = 2.4, pi / 2
    thread = Polygon(
        [
            (-half - 9 * tan(slope), -9),
            (-half + high * tan(slope), high),
            (half - high * tan(slope), high),
            (half + 9 * tan(slope), -9),
        ]
    )
    at_the_bottom = float(wheel.gash_depth_mm) - 2  # below the pitch line of the wheel, so above the worm's
    line = LineString([(-9, at_the_bottom), (9, at_the_bottom)])
    assert wheel.gash_width_mm == pytest.approx(thread.intersection(line).length, abs=1e-4)


def test_the_cards_say_that_the_gashes_make_the_count() -> None:
    told = {line.what: line for line in preparation_card(WHEEL).lines}
    assert "gash all 72 first" in told["count"].note
    assert "about 74" in told["count"].note
    assert "undercut" not in told
    assert measuring_card(WHEEL).lines[0].value == 72
    assert len(part_of(WHEEL).divisions) == 72


def test_shared_factors_and_undercut_are_told() -> None:
    told = {
        line.what: line.note for line in preparation_card(WormWheel(16, Fraction(1), Fraction(20), 2)).lines
    }
    assert "share 2" in told["starts"]
    assert "under 18 teeth" in told["undercut"]


@pytest.mark.parametrize(("angle", "least"), [("20", 18), ("14.5", 32)])
def test_the_least_teeth_without_undercut_are_the_known_ones(angle: str, least: int) -> None:
    wheel = WormWheel(72, Fraction(1), Fraction(20), pressure_angle=Fraction(angle) / 360)
    assert wheel.least_teeth_without_undercut == least


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"teeth": 5}, "teeth: 5; a worm wheel has 12 teeth or more"),
        ({"module_mm": Fraction(0)}, "module: 0 mm; from 0.05 to 100 mm"),
        ({"starts": 0}, "starts: 0; a worm has 1 to 12 threads"),
        ({"worm_mm": Fraction(4)}, r"worm: pitch diameter 4 mm; .* 4.4 mm \(0.1733 in\) at least"),
        ({"starts": 12, "worm_mm": Fraction(10)}, "lead by over 45 degrees"),
        ({"pressure_angle": Fraction(1, 4)}, "pressure angle: 90 degrees; from 10 to 35"),
    ],
)
def test_what_cannot_be_a_worm_wheel_is_refused(change: dict[str, Fraction], said: str) -> None:
    with pytest.raises(FaultsFound, match=said):
        WormWheel(**({"teeth": 72, "module_mm": Fraction(1), "worm_mm": Fraction(20)} | change))  # type: ignore[arg-type]
