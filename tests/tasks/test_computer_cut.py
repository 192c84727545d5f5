"""A part cut in the computer: by its seed, with a wrong position, and many of them."""

from fractions import Fraction
from functools import cache

import pytest

from crankwise.accuracy.bounds import bounds
from crankwise.accuracy.budget import Budget, budget
from crankwise.errors import BadDivisions, BadNumber
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.tasks.computer_cut import WORST, cut_many, cut_one, picture_of_cut
from tests.accuracy.plans import bench_plan, plan_on
from tests.gear import BENCH_HEAD, BULL_WHEEL


@cache
def found(teeth: int = 12) -> Budget:
    return budget(bench_plan(teeth), 100.0)


def test_pitches_are_the_differences_of_the_errors_and_come_round() -> None:
    part = cut_one(found(), "3")
    assert len(part.pitches) == 12
    assert sum(part.pitches) == pytest.approx(0, abs=1e-9)
    assert part.pitches[4] == pytest.approx(part.errors[5] - part.errors[4])
    assert part.height == max(part.errors) - min(part.errors)


def test_a_wrong_position_makes_one_pitch_wide_and_the_next_narrow() -> None:
    plain, wrong = cut_one(found(), "3"), cut_one(found(), "3", "5")
    # One mark of the bench head's hundred, at 100 mm: 100 pi / 7200.
    assert wrong.too_far == pytest.approx(100_000 * 3.14159265 / 7200)
    changed = [after - before for before, after in zip(plain.pitches, wrong.pitches, strict=True)]
    assert changed == pytest.approx([0] * 4 + [wrong.too_far, -wrong.too_far] + [0] * 6, abs=1e-9)


@pytest.mark.parametrize("seed", ["1", "2", "3"])
def test_the_worst_position_is_worse_than_any_other(seed: str) -> None:
    worst = cut_one(found(), seed, WORST)
    assert worst.wrong is not None
    others = [max(map(abs, cut_one(found(), seed, str(number)).pitches)) for number in range(12)]
    assert max(map(abs, worst.pitches)) == pytest.approx(max(others))
    assert others.index(max(others)) == worst.wrong


def test_one_position_alone_has_no_pitch() -> None:
    plan = plan_on(BENCH_HEAD, AngleList((Fraction(1, 7),)), "dial")
    with pytest.raises(BadDivisions, match="picture: one position has no pitch"):
        cut_one(budget(plan, 100.0), "1")


def test_a_list_that_does_not_come_round_ends_at_its_last_position() -> None:
    plan = plan_on(BENCH_HEAD, AngleList(tuple(Fraction(n, 20) for n in range(6))), "dial")
    part = cut_one(budget(plan, 100.0), "1", "0")
    assert len(part.pitches) == 5
    plain = cut_one(budget(plan, 100.0), "1")
    assert part.pitches[0] == pytest.approx(plain.pitches[0] - part.too_far)
    assert part.pitches[1:] == plain.pitches[1:]


def test_many_parts_spread_about_the_closed_form() -> None:
    many = cut_many(found(), "4000", "5")
    assert sum(many.single.counts) == sum(many.cumulative.counts) == many.simulated.gears == 4000
    closed = bounds(found().law)
    assert many.simulated.bounds.cumulative == pytest.approx(closed.cumulative, rel=0.05)
    step, low = many.single.step, many.single.low
    within = sum(
        count
        for index, count in enumerate(many.single.counts)
        if low + (index + 1) * step <= many.simulated.bounds.single
    )
    assert 0.85 < within / 4000 <= 0.95


def test_fewer_are_cut_of_many_positions_where_nobody_said_how_many() -> None:
    assert cut_many(found(12), "", "1").simulated.gears == 20_000
    assert cut_many(found(720), "", "1").simulated.gears == 2_500_000 // 720


@pytest.mark.parametrize(
    ("parts", "sentence"),
    [("99", "parts: 99; here from 100 to 1,666,666 of 12 positions"), ("2000000", "parts: 2,000,000; here")],
)
def test_too_few_or_too_many_parts_are_refused(parts: str, sentence: str) -> None:
    with pytest.raises(BadNumber, match=sentence):
        cut_many(found(), parts, "1")


def test_a_seed_beyond_belief_is_refused() -> None:
    with pytest.raises(BadNumber, match="seed: 99999999999999999999; a seed is from 0"):
        cut_one(found(), "99999999999999999999")


def test_a_part_without_a_class_has_no_band() -> None:
    plan = plan_on(BULL_WHEEL, EqualDivisions(30), "direct")
    reckoned = budget(plan, 60.0)
    picture = picture_of_cut(cut_one(reckoned, "1"), reckoned, ("above", "below"))
    assert "tolerance" not in picture
    assert ">above</text>" in picture
