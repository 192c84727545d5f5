from cmath import phase, rect
from fractions import Fraction
from math import cos, pi, sin
from random import Random

import pytest

from crankwise.accuracy.centring import (
    Indicated,
    OffCentre,
    Pointed,
    off_centre,
    pointed_off_centre,
    two_pointers,
)
from crankwise.errors import BadNumber

HUNDREDTH = Fraction(1, 100)


def readings(*pairs: tuple[int, str]) -> list[Indicated]:
    return [Indicated(Fraction(angle, 360), Fraction(shown)) for angle, shown in pairs]


def seen(offset: float, direction: float, angles: list[int], sigma: float = 0.0, seed: int = 1) -> OffCentre:
    chance = Random(seed)
    return off_centre(
        [
            Indicated(
                Fraction(angle, 360),
                Fraction(0.2 + offset * cos(2 * pi * (angle / 360 - direction)) + chance.gauss(0, sigma)),
            )
            for angle in angles
        ],
        Fraction(1, 1_000_000),
    )


def test_four_readings_as_a_machinist_reckons_them() -> None:
    # Across 0-180 it swings 0.05, so 0.025 towards 180; across 90-270 it swings 0.01, so 0.005 towards 90.
    found = off_centre(readings((0, "0.00"), (90, "0.03"), (180, "0.05"), (270, "0.02")), HUNDREDTH)
    assert found.offset == pytest.approx((0.025**2 + 0.005**2) ** 0.5)
    assert found.offset * cos(2 * pi * found.direction) == pytest.approx(-0.025)
    assert found.offset * sin(2 * pi * found.direction) == pytest.approx(0.005)
    assert [round(screw.inward, 9) for screw in found.screws()] == [-0.025, 0.005, 0.025, -0.005]
    assert found.middle == pytest.approx(0.025)


@pytest.mark.parametrize("angles", [[0, 120, 240], [0, 90, 180, 270], [10, 100, 130, 250, 300], [0, 90, 180]])
@pytest.mark.parametrize("direction", [0.0, 0.3, 0.77])
def test_what_was_put_in_comes_out(angles: list[int], direction: float) -> None:
    found = seen(0.04, direction, angles)
    assert found.offset == pytest.approx(0.04, abs=1e-12)
    assert (found.direction - direction + 0.5) % 1 - 0.5 == pytest.approx(0, abs=1e-12)


def test_screws_at_thirds_bring_it_home_too() -> None:
    found = seen(0.04, 0.0, [0, 90, 180, 270])
    third = [screw.inward for screw in found.screws([Fraction(0), Fraction(1, 3), Fraction(2, 3)])]
    assert third == pytest.approx([0.04, -0.02, -0.02])


def test_the_bound_holds_19_times_in_20() -> None:
    angles = [*range(0, 360, 30)]
    held = sum(
        abs(one.offset - 0.05) <= one.bound
        for one in (seen(0.05, 0.2, angles, 0.003, seed) for seed in range(1000))
    )
    # Binomial: 950 expected, 7 the standard deviation; beyond four of them is no chance.
    assert 922 <= held <= 978


def test_readings_that_fit_too_well_still_claim_no_more_than_they_were_read_to() -> None:
    found = off_centre(readings((0, "0.00"), (90, "0.03"), (180, "0.05"), (270, "0.02")), HUNDREDTH)
    assert found.residual == pytest.approx(0, abs=1e-12)
    assert found.uncertainty == pytest.approx(0.01 / 12**0.5 * 0.5**0.5)
    assert found.bound == pytest.approx(1.959964 * found.uncertainty)


def test_three_readings_leave_nothing_over_to_judge_by() -> None:
    found = off_centre(readings((0, "0.00"), (120, "0.03"), (240, "0.05")), HUNDREDTH)
    assert found.residual is None
    assert not found.is_out_of_round
    assert found.uncertainty > 0


def test_nothing_is_seen_where_nothing_is_off() -> None:
    found = off_centre(readings((0, "0.01"), (90, "0.01"), (180, "0.01"), (270, "0.01")), HUNDREDTH)
    assert not found.is_seen
    assert found.direction_uncertainty is None


def test_an_oval_is_said_to_be_out_of_round_and_not_off_centre() -> None:
    oval = [
        Indicated(Fraction(angle, 360), Fraction(0.05 * cos(4 * pi * angle / 360)))
        for angle in range(0, 360, 30)
    ]
    found = off_centre(oval, Fraction(1, 1000))
    assert found.is_out_of_round
    assert not found.is_seen


def test_a_scale_reads_e_over_r() -> None:
    # 412.5 times the offset in micrometres over the diameter in millimetres: the encoder trade's own formula.
    assert seen(0.1, 0, [0, 90, 180, 270]).scale_error(Fraction(120)) == pytest.approx(
        412.53 * 100 / 120, rel=1e-4
    )


@pytest.mark.parametrize(
    ("rows", "message"),
    [
        (readings((0, "0"), (180, "0.1")), "at 2 different angles; 3 at least"),
        (readings((0, "0"), (360, "0.1"), (720, "0.2")), "at 1 different angle; 3 at least"),
        (readings((0, "0"), (40, "0.1"), (80, "0.2")), "all within 80 degrees; spread them round"),
    ],
)
def test_readings_that_cannot_tell_are_refused(rows: list[Indicated], message: str) -> None:
    with pytest.raises(BadNumber, match=message):
        off_centre(rows, HUNDREDTH)


def test_two_opposite_pointers_cancel_what_the_scale_is_off() -> None:
    swing = {Fraction(k, 12): Fraction(round(90 * sin(2 * pi * k / 12)), 1_296_000) for k in range(12)}
    rows = [Pointed((angle + off) % 1, (angle + Fraction(1, 2) - off) % 1) for angle, off in swing.items()]
    found = two_pointers(rows)
    assert [mean % 1 for mean in found.means] == list(swing)
    assert list(found.swing) == [off * 1_296_000 for off in swing.values()]


def seen_from_the_scale(pointer: float, centre: complex) -> float:
    """The angle, in turns, at which a pointer 60 mm from the axis is seen from a scale's centre."""
    return phase(rect(60, 2 * pi * pointer) - centre) / (2 * pi)


@pytest.mark.parametrize("sense", [1, -1])
@pytest.mark.parametrize("apart", [0.5, 0.497])
def test_two_pointers_tell_how_far_off_a_turning_scale_is_and_which_way(sense: int, apart: float) -> None:
    """The scale is turned either way, its readings rising; its centre is 0.12 mm off, towards its reading 0.2 turn."""
    rows = []
    for k in range(9):
        turned = k / 9
        # Readings rise as it turns, so its numerals run round it against the sense in which it is turned.
        centre = rect(0.12, 2 * pi * sense * (turned - 0.2))
        first, second = (turned - sense * seen_from_the_scale(at, centre) for at in (0.0, -sense * apart))
        rows.append(Pointed(Fraction(first) % 1, Fraction(second) % 1))
    found = pointed_off_centre(rows, Fraction(120), Fraction(1, 10**7))
    assert found.offset == pytest.approx(0.12, abs=1e-3)
    assert found.direction == pytest.approx(0.2, abs=2e-3)
    assert found.scale_error(Fraction(120)) == pytest.approx(0.12 / 60 / (2 * pi) * 1_296_000, rel=1e-2)
    assert found.is_seen


def test_at_too_few_settings_two_pointers_cannot_tell() -> None:
    rows = [Pointed(Fraction(k, 2), Fraction(k, 2) + Fraction(1, 2)) for k in range(2)]
    with pytest.raises(BadNumber, match="at 2 different angles; 3 at least"):
        pointed_off_centre(rows, Fraction(120), Fraction(0))
