"""A plan: the way that was chosen, or the best."""

from fractions import Fraction

from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.plan import planned
from tests.gear import BENCH_HEAD, head, worm_head

BENCH = head(BENCH_HEAD)
PART = Part(EqualDivisions(127))


def test_the_best_way_is_taken_where_none_is_named() -> None:
    plan = planned(BENCH, PART)
    assert plan is not None
    assert plan.way.method == "dial"
    assert plan.head == BENCH


def test_a_way_is_found_again_by_its_key() -> None:
    plan = planned(BENCH, PART, "ring:ring=360")
    assert plan is not None
    assert plan.way.method == "ring"
    assert planned(BENCH, PART, plan.way.key) == plan


def test_the_tolerance_changes_what_is_best() -> None:
    # 241 holes are finer than 100 marks, but they are counted and need their plate.
    both = worm_head("40", "[dial]\nmarks = 100\n[[plates]]\ncircles = [241]\n")
    truest, simplest = planned(both, PART), planned(both, PART, tolerance=Fraction(1, 360))
    assert truest is not None
    assert simplest is not None
    assert (truest.way.method, simplest.way.method) == ("nearest-hole", "dial")


def test_a_way_that_the_head_has_not_makes_no_plan() -> None:
    assert planned(BENCH, PART, "plain:circle=39:turns=1:holes=26") is None
