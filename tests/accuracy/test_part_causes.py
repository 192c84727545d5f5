"""What deviations point to: each cause made on purpose is found, and chance alone points to nothing."""

from cmath import phase
from fractions import Fraction
from math import cos, pi, sin
from random import Random

import pytest

from crankwise.accuracy.inspection import Inspected, from_angles, from_chords, from_neighbours
from crankwise.accuracy.part_causes import causes
from crankwise.accuracy.part_steps import MOST_ODDS

COUNT = 50


def part(
    off: float = 0,
    misread: tuple[int, float] | None = None,
    bad: tuple[int, float] | None = None,
    sigma: float = 1.0,
    seed: int = 1,
) -> Inspected:
    """Pitches of a part with a wave once per turn, a pitch misread, a bad position, and chance."""
    chance = Random(seed)
    places = [off * cos(2 * pi * (k / COUNT - 0.2)) + chance.gauss(0, sigma) for k in range(COUNT)]
    if bad:
        places[bad[0]] += bad[1]
    single = [after - before for before, after in zip(places, [*places[1:], places[0]], strict=True)]
    if misread:
        single[misread[0]] += misread[1]
    mean = sum(single) / COUNT
    return Inspected(tuple(one - mean for one in single))


def test_causes_are_told_apart() -> None:
    assert causes(part()) == ()
    (wave,) = causes(part(25))
    assert (wave.name, wave.at) == ("off-centre", 10)
    assert wave.size == pytest.approx(25, abs=2)
    (misread,) = causes(part(misread=(17, 20.0)))
    assert (misread.name, misread.at) == ("misread", 17)
    assert misread.size == pytest.approx(20, abs=5)
    (bad,) = causes(part(bad=(30, -20.0)))
    assert (bad.name, bad.at) == ("bad-setting", 30)
    assert bad.size == pytest.approx(-20, abs=4)


def test_all_three_at_once() -> None:
    found = causes(part(25, (3, 22.0), (30, 20.0)))
    assert (found[0].name, found[0].at) == ("off-centre", 10)
    assert {(one.name, one.at) for one in found[1:]} == {("misread", 3), ("bad-setting", 30)}


def cut_with(moved: dict[int, float], each: float = 0.0, seed: int = 1, sigma: float = 1) -> Inspected:
    """A part cut round from position 0: from each of these on it stands so much further; every step adds."""
    chance = Random(seed)
    places = [
        each * k + sum(by for since, by in moved.items() if k >= since) + chance.gauss(0, sigma)
        for k in range(COUNT)
    ]
    return Inspected(
        tuple(after - before for before, after in zip(places, [*places[1:], places[0]], strict=True))
    )


def test_a_slip_is_told_once_though_the_circle_takes_it_back_at_position_0() -> None:
    (slip,) = causes(cut_with({23: 60.0}))
    assert (slip.name, slip.at) == ("slip", 22)
    assert slip.size == pytest.approx(60, abs=4)
    assert {(one.name, one.at) for one in causes(cut_with({12: 60.0, 30: 40.0}))} == {
        ("slip", 11),
        ("slip", 29),
    }


def test_the_odds_say_how_surely_the_closing_tells_a_slip_from_a_misreading() -> None:
    (slip,) = causes(cut_with({23: 60.0}))
    assert slip.odds == MOST_ODDS
    (misread,) = causes(part(misread=(17, 20.0)))
    assert misread.odds is not None
    assert misread.odds > 100


def test_a_step_of_half_its_size_in_the_last_pitch_may_be_either() -> None:
    """What the last pitch takes back is as far from a slip's as from a misreading's: (s + x)^2 / 2 = x^2."""
    single = list(part().single)
    single[20] = 7.5
    single[-1] = -(2**0.5 - 1) * single[20]
    told = [one for one in causes(Inspected(tuple(single))) if one.at == 20]
    assert told[0].odds is not None
    assert told[0].odds < 20


def test_an_angle_misread_cannot_be_told_from_a_position_set_wrong() -> None:
    targets = [Fraction(k, 60) for k in range(60)]
    chance = Random(8)
    measured = [target + Fraction(chance.gauss(0, 3e-6)) for target in targets]
    measured[33] += Fraction(1, 10_000)
    (bad,) = causes(from_angles(measured, targets, Fraction(100)))
    assert (bad.name, bad.at, bad.odds) == ("bad-setting", 33, None)


def test_a_slip_that_was_undone_before_the_end_is_told_with_its_return() -> None:
    found = causes(cut_with({12: 60.0, 30: -60.0}))
    assert {(one.name, one.at) for one in found} == {("slip", 11), ("slip", 29)}


def test_a_step_a_little_too_long_adds_up_into_the_last_pitch() -> None:
    (added,) = causes(cut_with({}, each=1.5))
    assert (added.name, added.at) == ("added-up", COUNT - 1)
    assert added.size == pytest.approx(-1.5 * COUNT, abs=5)


@pytest.mark.parametrize("seed", [0, 5, 8, 13])
def test_a_slip_that_hides_among_the_scatter_is_found_by_the_closing_pitch(seed: int) -> None:
    """Only the last pitch stands out. That the others share it is not so: the curve has a step, not a slope."""
    part = cut_with({20: 60.0}, seed=seed, sigma=9.0)
    (slip,) = causes(part)
    assert slip.name == "slip"
    assert abs(slip.at - 19) <= 1
    assert slip.size == pytest.approx(60, abs=15)


def test_chance_alone_seldom_points_to_anything() -> None:
    # Each of the two tests errs once in a hundred; how often the steps do, `test_step_signatures` counts.
    assert sum(bool(causes(part(seed=seed))) for seed in range(100)) <= 6


def test_few_positions_point_to_nothing() -> None:
    assert causes(Inspected((5.0, -3.0, 2.0, -4.0))) == ()


def cut_off_centre(count: int, off_mm: float, towards: float, rim_mm: float = 100.0) -> list[float]:
    """Where marks cut about the axis stand as seen from a middle that lies beside it, in turns: plain geometry."""
    middle = complex(off_mm * cos(2 * pi * towards), off_mm * sin(2 * pi * towards))
    marks = [rim_mm / 2 * complex(cos(2 * pi * k / count), sin(2 * pi * k / count)) for k in range(count)]
    return [phase(mark - middle) / (2 * pi) for mark in marks]


@pytest.mark.parametrize("towards", [0.0, 0.3, 0.85])
def test_off_centre_says_by_how_much_and_towards_where(towards: float) -> None:
    seen = cut_off_centre(60, 0.02, towards)
    chance = Random(4)
    measured = [Fraction(one + chance.gauss(0, 1e-6)) for one in seen]
    part = from_angles(measured, [Fraction(k, 60) for k in range(60)], Fraction(100))
    (wave,) = causes(part)
    assert wave.size == pytest.approx(20, abs=0.5)
    assert wave.towards == round(towards * 60) % 60
    assert wave.at == round((towards + 0.25) * 60) % 60


def test_a_wandering_sum_passes_for_no_wave() -> None:
    """A gauge that scatters from neighbour to neighbour: its sum wanders, and looks like once per turn."""
    found = 0
    for seed in range(100):
        chance = Random(seed)
        found += any(
            one.name == "off-centre"
            for one in causes(from_neighbours([Fraction(chance.gauss(0, 3)) for _ in range(COUNT)]))
        )
    assert found <= 7


def test_positions_within_half_a_turn_tell_no_wave() -> None:
    targets = [Fraction(k, 60) for k in range(25)]
    bent = [target + Fraction(sin(2 * pi * float(target)) / 1000) for target in targets]
    assert not any(
        one.name == "off-centre" for one in causes(from_angles(bent, targets, Fraction(100), False))
    )


def test_one_hole_of_seven_set_wrongly_is_named() -> None:
    # Seven chords as a calliper reads them; one long, the next short by as much.
    chords = [Fraction(one) / 100 for one in (2603, 2604, 2603, 2615, 2592, 2603, 2603)]
    part, _ = from_chords(chords)
    (bad,) = causes(part)
    assert (bad.name, bad.at) == ("bad-setting", 4)
    # Along the circle it is more than along the chord: a chord of 2 r sin(a / 2) grows by r cos(a / 2) da.
    assert bad.size == pytest.approx(115 / cos(pi / 7), abs=2)
