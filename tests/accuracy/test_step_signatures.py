"""Faults show beyond chance, each by its signature; on clean parts chance shows one no oftener than is said."""

from collections.abc import Callable
from fractions import Fraction
from math import cos, pi
from random import Random

import pytest

from crankwise.accuracy.inspection import Inspected, from_angles, from_neighbours
from crankwise.accuracy.pitch_law import pitch_deviations
from crankwise.accuracy.sources import pitch_law
from crankwise.accuracy.step_signatures import LEVEL, Signature, seen_signatures, signatures
from tests.accuracy.made_parts import Hidden, made_part, plan_of

Clean = Callable[[int, Random], Inspected]


def scatter_of_the_gauge(count: int, chance: Random) -> Inspected:
    return from_neighbours([Fraction(chance.gauss(0, 3)) for _ in range(count)])


def of_a_real_head(count: int, chance: Random) -> Inspected:
    """Worm, wheel, work off centre, scatter of a bench head, read to the micrometre; its known rounding taken off."""
    hidden = Hidden(wheel=40, worm=25, off_centre=0.02, scatter=12)
    pitches = made_part(hidden, PLANS[count], chance).part.single
    read = from_neighbours([Fraction(round(one + chance.gauss(0, 1))) for one in pitches])
    law = pitch_law(PLANS[count], (), 100)
    return read.less(tuple(pitch_deviations(law.known, law.goes_round)))


def as_angles(count: int, chance: Random) -> Inspected:
    targets = [Fraction(k, count) for k in range(count)]
    measured = [
        target + Fraction(chance.gauss(0, 1e-5) + 5e-5 * cos(2 * pi * float(target))) for target in targets
    ]
    return from_angles(measured, targets, Fraction(100))


COUNTS = (7, 12, 35, 59, 127)
PLANS = {count: plan_of(count) for count in COUNTS}


@pytest.mark.parametrize("clean", [scatter_of_the_gauge, of_a_real_head, as_angles])
def test_clean_parts_seldom_show_a_fault(clean: Clean) -> None:
    """2,100 clean parts, 140 of each number of teeth and kind of scatter: fewer than one in twenty of any."""
    shown = {
        count: sum(bool(seen_signatures(clean(count, Random(1000 * count + seed)))) for seed in range(140))
        for count in COUNTS
    }
    assert sum(shown.values()) <= 2.5 * LEVEL * 140 * len(COUNTS)
    assert max(shown.values()) < 140 / 20


def test_every_fault_changes_other_pitches() -> None:
    for part in (
        Inspected((0.0,) * 8),
        from_angles(
            [Fraction(k, 9) for k in range(5)], [Fraction(k, 9) for k in range(5)], Fraction(10), False
        ),
    ):
        marks = [one.marks for one in signatures(part)]
        assert len(marks) == len(set(marks))


def test_a_slip_is_taken_back_by_the_last_pitch() -> None:
    assert Signature("slip", 3, ((3, 1.0), (7, -1.0))) in list(signatures(Inspected((0.0,) * 8)))


def test_two_large_faults_do_not_hide_each_other() -> None:
    chance = Random(3)
    single = [chance.gauss(0, 1) for _ in range(40)]
    for place in (5, 20, 30):
        single[place] += 30
    assert {(one.kind, one.at) for one in seen_signatures(Inspected(tuple(single)))} == {
        ("pitch", 5),
        ("pitch", 20),
        ("pitch", 30),
    }


def test_readings_without_any_scatter_show_nothing_but_the_fault() -> None:
    assert seen_signatures(Inspected((0.0,) * 20)) == []
    single = [0.0] * 20
    single[4], single[5] = 8.0, -8.0
    (one,) = seen_signatures(Inspected(tuple(single)))
    assert (one.kind, one.at) == ("position", 5)
