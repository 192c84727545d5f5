"""Clock wheels: the cycloid by a rolled circle, the tip where its two flanks meet, what is refused."""

from fractions import Fraction
from math import atan2, cos, hypot, pi, sin

import pytest

from crankwise.errors import FaultsFound
from crankwise.part.clock_wheel import ClockWheel, measuring_card, part_of, pinion_part_of, preparation_card

PAIRS = [(60, 8), (96, 12), (64, 6), (57, 10), (120, 16)]


def rolled_by_small_steps(wheel_radius: float, circle_radius: float, quarter: float) -> float:
    """The radius at which a point of a circle, rolled on without slip in small steps, is a quarter pitch round.

    The point is turned about the point of contact, a little at a time: that is what rolling is.
    """
    x, y = wheel_radius, 0.0
    contact, step = 0.0, 1e-5
    while atan2(y, x) < quarter:
        middle = contact + step / 2
        px, py = wheel_radius * cos(middle), wheel_radius * sin(middle)
        turn = step * (wheel_radius + circle_radius) / circle_radius
        dx, dy = x - px, y - py
        x, y = px + dx * cos(turn) - dy * sin(turn), py + dx * sin(turn) + dy * cos(turn)
        contact += step
    return hypot(x, y)


@pytest.mark.parametrize(("teeth", "leaves"), PAIRS)
def test_the_full_height_is_where_a_rolled_circle_reaches_the_middle_of_the_tooth(
    teeth: int, leaves: int
) -> None:
    wheel = ClockWheel(teeth, leaves, Fraction(1))
    tip = rolled_by_small_steps(teeth / 2, leaves / 4, pi / (2 * teeth))
    assert wheel.full_addendum_mm == pytest.approx(tip - teeth / 2, abs=1e-3)


@pytest.mark.parametrize(("teeth", "leaves"), PAIRS)
def test_a_module_twice_as_large_makes_all_twice_as_large(teeth: int, leaves: int) -> None:
    one, two = (ClockWheel(teeth, leaves, Fraction(module)) for module in (1, 2))
    assert two.full_addendum_mm == pytest.approx(2 * one.full_addendum_mm)
    assert two.outside_diameter_mm == pytest.approx(2 * one.outside_diameter_mm)


def test_pitch_circles_just_touch() -> None:
    wheel = ClockWheel(60, 8, Fraction(1, 2))
    assert wheel.centres_mm == 17
    assert 2 * wheel.centres_mm == wheel.pitch_diameter_mm + wheel.pinion_pitch_diameter_mm
    assert float(wheel.tooth_thickness_mm) == pytest.approx(pi / 4)


def test_the_kept_share_is_kept() -> None:
    full, kept = (ClockWheel(60, 8, Fraction(1), Fraction(share)) for share in ("1", "0.95"))
    assert kept.addendum_mm == pytest.approx(0.95 * full.addendum_mm)
    assert full.addendum_mm == full.full_addendum_mm


def test_both_wheel_and_pinion_are_divided() -> None:
    wheel = ClockWheel(60, 8, Fraction(1, 2))
    assert (len(part_of(wheel).divisions), len(pinion_part_of(wheel).divisions)) == (60, 8)
    assert pinion_part_of(wheel).rim_mm == 4


def test_what_has_no_source_is_not_told() -> None:
    told = {line.what: line for line in preparation_card(ClockWheel(60, 8, Fraction(1, 2))).lines}
    assert "pinion, outside diameter" not in told
    assert "the cutter's own table" in told["pinion cutter"].note
    assert measuring_card(ClockWheel(60, 8, Fraction(1, 2))).lines[0].value == 17


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ((10, 8, 1), "teeth: 10; a clock wheel has 20 to 500"),
        ((60, 5, 1), "pinion: 5 leaves; a pinion has 6 to 20"),
        ((20, 20, 1), "pinion: 20 leaves to 20 teeth; the wheel that drives has more"),
        ((60, 8, 0), "module: 0 mm; from 0.05 to 5 mm"),
        ((60, 8, 1, Fraction(2)), "tip share: 2; from 0.8 to 1"),
    ],
)
def test_what_cannot_be_a_clock_wheel_is_refused(asked: tuple[int, int, int], said: str) -> None:
    teeth, leaves, module = asked[:3]
    with pytest.raises(FaultsFound, match=said):
        ClockWheel(teeth, leaves, Fraction(module), *asked[3:])
