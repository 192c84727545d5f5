"""The passes that were typed, as the passes of a run."""

from fractions import Fraction

import pytest

from crankwise.errors import BadDivisions, BadLength
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Mark, Part
from crankwise.plan.passes import ONE_PASS, Pass
from crankwise.plan.plan import Plan, planned
from crankwise.tasks.asked_passes import AskedPasses, asked_passes
from tests.gear import BENCH_HEAD, head


def plan(marks: tuple[Mark, ...] = ()) -> Plan:
    found = planned(head(BENCH_HEAD), Part(EqualDivisions(20), marks=marks))
    assert found is not None
    return found


def test_nothing_typed_is_one_pass_straight_round() -> None:
    assert asked_passes(plan(), AskedPasses()) == ONE_PASS


def test_trace_rough_and_finish_in_a_spread_order() -> None:
    asked = AskedPasses(
        trace=True, cuts="two", rough_depth="1mm", finish_depth="1/16 in", order="spread", circuits="3"
    )
    assert asked_passes(plan(), asked) == (
        Pass("trace"),
        Pass("rough", spread=3, depth_mm=Fraction(1)),
        Pass("finish", spread=3, depth_mm=Fraction(127, 80)),
    )


def test_one_cut_may_have_a_depth() -> None:
    assert asked_passes(plan(), AskedPasses(finish_depth="0.15mm")) == (Pass(depth_mm=Fraction(3, 20)),)


def test_lengths_by_number_and_by_the_parts_own_lines() -> None:
    by_number = asked_passes(plan(), AskedPasses(order="lengths", lengths="10, 5"))
    assert [(one.each, one.but_not) for one in by_number] == [(10, 0), (5, 10), (1, 5)]
    marks = tuple(Mark("short" if place % 5 else "long") for place in range(20))
    by_class = asked_passes(plan(marks), AskedPasses(order="lengths"))
    assert [one.line_class for one in by_class] == ["long", "short"]


@pytest.mark.parametrize(
    ("asked", "kind", "sentence"),
    [
        (AskedPasses(cuts="three"), BadDivisions, "cuts: 'three'; cuts are one of one, two"),
        (
            AskedPasses(rough_depth="1mm"),
            BadDivisions,
            "roughing depth: given, but only one cut is asked for",
        ),
        (AskedPasses(circuits="3"), BadDivisions, "circuits: given, but the order is not spread, in several"),
        (
            AskedPasses(order="spread", lengths="10"),
            BadDivisions,
            "lengths: given, but the order is not long",
        ),
        (AskedPasses(order="spread"), BadDivisions, "circuits: ''; a whole number from 2 to 100"),
        (AskedPasses(order="spread", circuits="²"), BadDivisions, "circuits: '²'; a whole number"),
        (AskedPasses(order="lengths", lengths="10,10"), BadDivisions, "lengths: 10, 10; each is a multiple"),
        (
            AskedPasses(order="lengths", lengths="30"),
            BadDivisions,
            "lengths: '30'; a whole number from 2 to 20",
        ),
        (AskedPasses(rough_depth="deep", cuts="two"), BadLength, "roughing: 'deep' is not a length"),
        (
            AskedPasses(rough_depth="2mm", finish_depth="2mm", cuts="two"),
            BadDivisions,
            "finishing: its depth is counted from the rim",
        ),
    ],
)
def test_what_makes_no_sense_is_told(asked: AskedPasses, kind: type[Exception], sentence: str) -> None:
    with pytest.raises(kind, match=sentence):
        asked_passes(plan(), asked)
