from fractions import Fraction
from math import pi, sin

import pytest

from crankwise.accuracy.inspection import from_angles, from_chords, from_neighbours, sizes
from crankwise.errors import BadLength, BadNumber


def test_neighbours_compared_from_any_zero_give_the_same_curve() -> None:
    truth = (3.0, -1.0, 4.0, -6.0)
    for zero in (0, 17):
        found = from_neighbours([Fraction(one) + zero for one in truth])
        assert found.single == truth
        assert list(found.cumulative) == [0, 3, 2, 6]
        assert (found.single_pitch, found.cumulative_pitch, found.adjacent_pitch) == (6, 6, 10)


def test_measured_angles_from_any_zero() -> None:
    targets = [Fraction(k, 4) for k in range(4)]
    out = [Fraction(one, 1_296_000) for one in (0, 10, -5, 20)]
    for zero in (Fraction(0), Fraction(1, 3)):
        found = from_angles([t + o + zero for t, o in zip(targets, out, strict=True)], targets, Fraction(100))
        arcsec = pi / 648_000 * 50 * 1000
        assert found.cumulative == pytest.approx([0, 10 * arcsec, -5 * arcsec, 20 * arcsec])


def test_chords_find_their_own_circle() -> None:
    angles = [0, 30.01, 60, 90.02, 120, 150, 180, 210, 240, 270, 300, 330]
    chords = [
        Fraction(80 * sin(pi * (after - before) / 360))
        for before, after in zip(angles, [*angles[1:], 360], strict=True)
    ]
    found, diameter = from_chords(chords)
    assert diameter == pytest.approx(80, abs=1e-9)
    arc = pi * 80 * 1000 / 360
    assert found.cumulative == pytest.approx([(a - 30 * k) * arc for k, a in enumerate(angles)], abs=1e-6)


def test_sizes_are_summed_up() -> None:
    found = sizes([Fraction("10.02"), Fraction("10.04"), Fraction("10.00")], Fraction(10))
    assert (found.mean, found.spread, found.off) == (Fraction("10.02"), Fraction("0.04"), Fraction("0.02"))
    assert sizes([Fraction(1)]).off is None


def test_what_is_no_round_is_refused() -> None:
    with pytest.raises(BadNumber, match="pitches: 2; from 3"):
        from_neighbours([Fraction(1), Fraction(2)])
    with pytest.raises(BadNumber, match="3 measured; the part has 4 positions"):
        from_angles([Fraction(0)] * 3, [Fraction(0)] * 4, Fraction(100))
    with pytest.raises(BadLength, match="one is not above 0"):
        from_chords([Fraction(1), Fraction(0), Fraction(1)])
    with pytest.raises(BadLength, match="the longest is as long as all others go"):
        from_chords([Fraction(10), Fraction(1), Fraction(1)])
    with pytest.raises(BadNumber, match="sizes: none"):
        sizes([])


def test_part_of_a_circle_has_a_pitch_fewer() -> None:
    targets = [Fraction(k, 12) for k in range(4)]
    out = (0, 36, 0, -36)  # thousandths of a turn of 360,000
    measured = [target + Fraction(one, 360_000) for target, one in zip(targets, out, strict=True)]
    found = from_angles(measured, targets, Fraction(100), goes_round=False)
    unit = pi * 100 * 1000 / 10_000
    assert found.single == pytest.approx((unit, -unit, -unit))
    assert found.cumulative == pytest.approx((0, unit, 0, -unit))
    assert found.adjacent_pitch == pytest.approx(2 * unit)


def test_places_beyond_their_limits_are_counted_from_one() -> None:
    found = sizes([Fraction(5), Fraction(6), Fraction(4)], None, Fraction(5), Fraction(11, 2))
    assert found.beyond == (2, 3)
