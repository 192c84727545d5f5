"""Another way of the same head that does much better at the rim is found, and none where there is none."""

from fractions import Fraction

import pytest

from crankwise.accuracy.bounds import bounds
from crankwise.accuracy.budget import budget
from crankwise.accuracy.cause_kinds import size_of
from crankwise.accuracy.other_way import other_way
from crankwise.accuracy.sources import causes, pitch_law
from crankwise.accuracy.tolerance import GearSize
from crankwise.files.head_toml import read_head
from crankwise.part.divisions import EqualDivisions
from crankwise.plan.plan import Plan
from crankwise.ways.search import find_ways
from crankwise.ways.way import Way
from tests.accuracy.plans import bench_plan, plan_on
from tests.gear import BENCH_HEAD


def ways_of(count: int) -> tuple[Way, ...]:
    return tuple(find_ways(read_head(BENCH_HEAD), EqualDivisions(count)))


def test_a_ring_read_by_eye_is_told_of_the_dial() -> None:
    plan = plan_on(BENCH_HEAD, EqualDivisions(60), "direct", "line", "150")
    found = budget(plan, 150.0)
    better = other_way(found, ways_of(60))
    assert better is not None
    assert better.way.method == "dial"
    by_dial = Plan(plan.part, better.way)
    whole = bounds(pitch_law(by_dial, causes(by_dial), 150.0))
    assert better.bounds.cumulative == pytest.approx(whole.cumulative, rel=0.03)
    assert better.bounds.cumulative < 0.6 * found.part.cumulative
    assert better.gear_class is None


def test_the_dial_is_told_of_nothing_coarser() -> None:
    plan = plan_on(BENCH_HEAD, EqualDivisions(60), "dial", "line", "150")
    assert other_way(budget(plan, 150.0), ways_of(60)) is None


def test_where_there_is_but_one_method_there_is_no_other() -> None:
    assert other_way(budget(bench_plan(127), 127.0), ways_of(127)) is None


def test_sizes_that_were_asked_for_count_for_the_other_way_too() -> None:
    """A worm and a wheel far worse than the ring: the dial then helps nobody."""
    plan = plan_on(BENCH_HEAD, EqualDivisions(60), "direct", "line", "150")
    poor = {"worm": size_of("600", "600"), "wheel": size_of("900", "900")}
    assert other_way(budget(plan, 150.0, asked=poor), ways_of(60), poor) is None


def test_a_gear_is_told_the_class_that_it_would_reach() -> None:
    plan = plan_on(BENCH_HEAD, EqualDivisions(60), "direct", "space", "60")
    gear = GearSize(60, Fraction(1))
    fine = {name: size_of("0", "0.5") for name in ("worm", "wheel", "wheel-teeth", "lock", "worm-twice")} | {
        "work-off-centre": size_of("0", "0.001")
    }
    better = other_way(budget(plan, 60.0, gear, fine), ways_of(60), fine)
    assert better is not None
    assert better.gear_class is not None
