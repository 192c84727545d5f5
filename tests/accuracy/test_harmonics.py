from fractions import Fraction
from math import cos, pi, sin

import pytest

from crankwise.accuracy.harmonics import (
    Reading,
    Readings,
    Wave,
    can_be_told,
    inflation,
    look_alike,
    select,
    widest_gap,
)
from crankwise.accuracy.least_squares import Indistinct
from tests.accuracy.measured_heads import HiddenHead

RATIO = Fraction(72)


def at(*places: str, ratio: Fraction | None = RATIO) -> Readings:
    return Readings(tuple(Reading(n, Fraction(place), 0.0) for n, place in enumerate(places, 1)), ratio)


def evenly(count: int, ratio: Fraction | None = RATIO) -> Readings:
    return at(*(f"{k}/{count}" for k in range(count)), ratio=ratio)


def test_a_reading_at_a_place_sees_the_wave_there() -> None:
    cosine, sine = at("1/8", "0").columns(Wave("wheel", 2))
    assert cosine == pytest.approx([0, 1], abs=1e-15)
    assert sine == pytest.approx([1, 0], abs=1e-15)


def test_the_worms_wave_goes_with_the_crank() -> None:
    cosine, _ = at("1/144", "1/72", "73/72").columns(Wave("worm", 1))
    assert cosine == pytest.approx([-1, 1, 1])


def test_a_step_sees_the_difference_of_its_ends() -> None:
    step = Readings((Reading(1, Fraction(1, 2), 0.0, Fraction(0)),), RATIO)
    assert step.closes
    assert step.columns(Wave("wheel", 1))[0] == [pytest.approx(-2)]
    assert step.spindle == [Fraction(0), Fraction(1, 2)]


def test_the_backlash_has_a_column_where_both_ways_were_measured() -> None:
    there, back = Reading(1, Fraction(0), 0.0), Reading(2, Fraction(0), 0.0, None, True)
    assert Readings((there, back), RATIO).plain_columns() == [[1, 1], [0, 1]]
    assert Readings((there, there), RATIO).plain_columns() == [[1, 1]]
    assert Readings((back, back), RATIO).plain_columns() == [[1, 1]]


def test_the_widest_gap_goes_round_the_zero_too() -> None:
    assert widest_gap([Fraction(1, 10), Fraction(1, 2)]) == Fraction(3, 5)
    assert widest_gap([Fraction(1, 3)]) == 1


def test_an_order_needs_more_than_two_places_to_a_wave() -> None:
    assert can_be_told([Fraction(k, 8) for k in range(8)], 6) == [1, 2, 3]
    assert can_be_told([Fraction(k, 5) for k in range(5)], 4) == [1, 2]


def test_even_places_take_the_worm_for_the_wheel() -> None:
    # 35 places on 72:1: from each to the next the crank goes 2 turns and 2/35, like a wheel's 2 per turn.
    assert look_alike(evenly(35), Wave("worm", 1), Wave("wheel", 2)) == pytest.approx(1)
    assert look_alike(evenly(35), Wave("worm", 1), Wave("wheel", 3)) == pytest.approx(0, abs=1e-9)


def test_a_wave_that_stands_still_looks_like_nothing() -> None:
    assert look_alike(evenly(36), Wave("worm", 1), Wave("wheel", 1)) == 0


def test_even_readings_are_as_good_as_they_can_be() -> None:
    assert dict(inflation(evenly(90), [Wave("wheel", 1), Wave("worm", 1)])) == {
        Wave("wheel", 1): pytest.approx(1),
        Wave("worm", 1): pytest.approx(1),
    }


def test_readings_in_one_eighth_of_the_circle_are_not() -> None:
    bunched = at(*(f"{k}/400" for k in range(50)))
    assert dict(inflation(bunched, [Wave("wheel", 1)]))[Wave("wheel", 1)] > 10


def test_waves_are_taken_that_are_there_and_no_others() -> None:
    hidden = HiddenHead(RATIO)
    readings = Readings(tuple(hidden.measured([Fraction(k, 500) for k in range(500)], 2.0, 5)), RATIO)
    further = [Wave("wheel", k) for k in range(2, 7)] + [Wave("worm", k) for k in range(2, 5)]
    found = select(readings, [Wave("wheel", 1), Wave("worm", 1)], further)
    assert found.waves == (Wave("wheel", 1), Wave("wheel", 2), Wave("worm", 1), Wave("worm", 2))
    assert [tried.taken for tried in found.tried] == [True, True, False]
    assert found.tried[0].wave == Wave("wheel", 2)


def test_pure_chance_adds_a_wave_about_once_in_a_hundred() -> None:
    quiet = HiddenHead(RATIO, (("wheel", 1, 50.0, 0.0), ("worm", 1, 20.0, 0.5)))
    places = [Fraction(k, 90) for k in range(90)]
    first, further = [Wave("wheel", 1), Wave("worm", 1)], [Wave("wheel", k) for k in range(2, 7)]
    added = sum(
        len(select(Readings(tuple(quiet.measured(places, 2.0, seed)), RATIO), first, further).waves) > 2
        for seed in range(300)
    )
    # Binomial of 300 at 1 %: 3 expected; 11 or more once in 3,000 times.
    assert added <= 10


def test_readings_without_any_scatter_take_no_rounding_for_a_wave() -> None:
    pure = HiddenHead(RATIO, (("wheel", 1, 50.0, 0.0), ("wheel", 3, 10.0, 0.0), ("worm", 1, 20.0, 0.5)))
    readings = Readings(tuple(pure.measured([Fraction(k, 90) for k in range(90)], 0.0, 1)), RATIO)
    found = select(readings, [Wave("wheel", 1), Wave("worm", 1)], [Wave("wheel", k) for k in range(2, 7)])
    assert found.waves == (Wave("wheel", 1), Wave("wheel", 3), Wave("worm", 1))


def test_first_waves_that_cannot_be_told_apart_are_refused() -> None:
    with pytest.raises(Indistinct):
        select(evenly(36), [Wave("wheel", 1), Wave("worm", 1)], [])


def test_a_ratio_that_is_no_whole_number_is_followed() -> None:
    cosine, sine = at("1/7", ratio=Fraction(45, 2)).columns(Wave("worm", 2))
    assert cosine == [pytest.approx(cos(2 * pi * 45 / 7))]
    assert sine == [pytest.approx(sin(2 * pi * 45 / 7))]
