"""The budget as a whole: three figures apart, causes ranked, and advice that holds when it is followed."""

from dataclasses import replace
from fractions import Fraction

import pytest

from crankwise.accuracy.bounds import WORK, bounds
from crankwise.accuracy.budget import MOST_POSITIONS, budget
from crankwise.accuracy.cause_kinds import ROUNDING, size_of
from crankwise.accuracy.sources import pitch_law
from crankwise.accuracy.tolerance import GearSize
from crankwise.errors import BadDivisions
from crankwise.head.error_sizes import Size
from crankwise.part.divisions import EqualDivisions
from tests.accuracy.plans import bench_plan, plan_on
from tests.gear import BULL_WHEEL, PLATE_HEAD

SPUR_40 = GearSize(40, Fraction(2))


def test_three_figures_are_kept_apart() -> None:
    plan = bench_plan(127)
    found = budget(plan, 127.0)
    assert found.rounding == plan.way.worst_error
    rounding = next(share for share in found.shares if share.name == ROUNDING)
    assert rounding.bounds.single < found.part.single
    assert found.head.cumulative < found.part.cumulative
    assert found.reached is None
    assert found.outside == ()


def test_an_exact_way_on_a_perfect_head_leaves_the_work_alone() -> None:
    plan = plan_on(PLATE_HEAD, EqualDivisions(28), "plain")
    nothing = size_of("0", "0")
    head = ("worm", "worm-twice", "wheel", "wheel-teeth", "lock", "index-pin", "tilt", "tool")
    found = budget(
        plan, 56.0, asked=dict.fromkeys(head, nothing) | {"work-off-centre": size_of("0.01", "0.01")}
    )
    assert found.rounding == 0
    assert (found.head.single, found.head.cumulative) == (0.0, 0.0)
    assert found.part.cumulative == pytest.approx(20, rel=0.01)


def test_causes_are_ranked_by_what_they_do_alone() -> None:
    shares = budget(bench_plan(127), 127.0).shares
    sizes = [max(share.bounds.single, share.bounds.cumulative) for share in shares]
    assert sizes == sorted(sizes, reverse=True)
    assert shares[0].name == "work-off-centre"
    whole = budget(bench_plan(127), 127.0).part
    assert all(share.bounds.cumulative < whole.cumulative for share in shares)


@pytest.mark.parametrize("count", [40, 59, 127])
def test_one_cause_alone_is_told_within_a_hundredth(count: int) -> None:
    plan = bench_plan(count)
    caused = [(share, share.cause) for share in budget(plan, 100.0).shares if share.cause is not None]
    assert len(caused) > 3
    for share, cause in caused:
        alone = replace(pitch_law(plan, (cause,), 100.0), known=(0.0,) * count)
        finely = bounds(alone, 4 * WORK)
        assert share.bounds.single == pytest.approx(finely.single, rel=0.01)
        assert share.bounds.cumulative == pytest.approx(finely.cumulative, rel=0.01)


def test_advice_holds_when_it_is_followed() -> None:
    plan = plan_on(PLATE_HEAD, EqualDivisions(40), "plain")
    found = budget(plan, 80.0, SPUR_40)
    assert found.reached is not None
    before = found.reached.gear or 99
    gained = [advice for advice in found.advice if (advice.gear_class or 99) < before]
    assert gained
    assert gained[0].cause.kind.name == "work-off-centre"
    for advice in gained:
        cause = advice.cause
        size = Size(min(cause.size.low, advice.size), advice.size)
        followed = budget(plan, 80.0, SPUR_40, {cause.kind.name: size})
        assert followed.reached is not None
        # On the finer lattice of the whole budget a class at the very edge may fall either way.
        assert (followed.reached.gear or 99) <= (advice.gear_class or 99) + 1
        assert followed.part.cumulative == pytest.approx(advice.bounds.cumulative, rel=0.04)


def test_advice_asks_no_more_than_is_needed() -> None:
    plan = plan_on(BULL_WHEEL, EqualDivisions(30), "direct")
    found = budget(plan, 60.0, GearSize(30, Fraction(2)))
    assert found.advice
    for advice in found.advice:
        assert Fraction(advice.cause.kind.best) <= advice.size < advice.cause.size.high


def test_backlash_from_both_sides_spoils_every_pitch() -> None:
    plan = bench_plan(60)
    one_side, both_sides = budget(plan, 60.0), budget(plan, 60.0, both_sides=True)
    assert both_sides.part.single > 2 * one_side.part.single


def test_too_many_positions_are_refused() -> None:
    with pytest.raises(
        BadDivisions, match=rf"budget: {MOST_POSITIONS + 1:,} positions; at most {MOST_POSITIONS:,}"
    ):
        budget(bench_plan(MOST_POSITIONS + 1), 500.0)


def test_a_scriber_is_not_asked_to_be_as_fine_as_a_cutter() -> None:
    steady = {"work-off-centre": size_of("0", "0"), "tool": size_of("0.05", "0.05")}
    for work, least in (("line", "0.005"), ("space", "0.001")):
        found = budget(bench_plan(60, work=work), 100.0, asked=steady)  # type: ignore[arg-type]  # a literal
        told = next(advice for advice in found.advice if advice.cause.kind.name == "tool")
        assert told.size == Fraction(least)


def test_one_position_alone_is_never_out_and_nothing_would_help() -> None:
    found = budget(bench_plan(1), 100.0)
    assert (found.part.single, found.part.cumulative) == (0, 0)
    assert found.advice == ()
