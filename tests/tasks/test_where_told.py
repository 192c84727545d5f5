"""What a phone is told to say where the machine stands by, unpacked here as the description of the packing says."""

import json
from fractions import Fraction
from itertools import accumulate
from typing import Any

import pytest

from crankwise.exact.number import read_number
from crankwise.part.divisions import AngleList, EqualDivisions, EqualSteps
from crankwise.plan.passes import rough_then_finish
from crankwise.run.state import NO_SLIP, Anchor
from crankwise.run.watch import Watch
from crankwise.tasks.where_told import where_told, where_words
from tests.gear import BENCH_HEAD, MILL_TABLE, head
from tests.run.machine import AtTheMachine, plan_on
from tests.run.test_evidence import HEADS, first_of_each_method


def unpacked(told: dict[str, Any]) -> list[dict[str, Fraction | None]]:
    """Return what every row shows by scale, and its `place`."""
    names = [scale["name"] for scale in told["scales"]] + ["place"]
    around = [scale["full"] for scale in told["scales"]] + [1]
    columns: dict[str, list[Fraction | None]] = {}
    for column, (name, full, bottom) in enumerate(zip(names, around, told["bottoms"], strict=True)):
        by = [told["steps"][row].split(",")[column] for row in told["rows"]]
        counts = accumulate(int(one or 0) for one in by)
        columns[name] = [
            Fraction(count % (full * int(bottom)), int(bottom)) if one else None
            for one, count in zip(by, counts, strict=True)
        ]
    return [dict(zip(columns, row, strict=True)) for row in zip(*columns.values(), strict=True)]


@pytest.mark.parametrize("name", HEADS)
def test_every_row_comes_back_as_it_is_shown(name: str) -> None:
    for plan in first_of_each_method(HEADS[name]):
        watch = Watch(plan, AtTheMachine(plan).rows)
        for anchor in (NO_SLIP, Anchor(Fraction(1, 777), Fraction(1, 777))):
            evidence = watch.evidence(anchor)
            for row, told in enumerate(unpacked(where_told(watch, anchor))):
                assert told.pop("place") == watch.rows[row].reached.achieved % 1
                assert {scale: value for scale, value in told.items() if value is not None} == evidence.shown[
                    row
                ]


def test_a_second_pass_takes_the_steps_of_the_first() -> None:
    plan = plan_on(head(BENCH_HEAD), 1000)
    once, twice = (
        where_told(Watch(plan, AtTheMachine(plan, passes).rows), NO_SLIP)
        for passes in (
            rough_then_finish(Fraction(1), Fraction(2))[:1],
            rough_then_finish(Fraction(1), Fraction(2)),
        )
    )
    assert once["steps"] == twice["steps"]
    assert len(json.dumps(twice, separators=(",", ":"))) < 7_000
    assert twice["passes"] == [(0, " of pass 1 (roughing)"), (1001, " of pass 2 (finishing)")]


def test_what_faults_are_measured_by_stands_once_for_rows_set_in_the_same_way() -> None:
    angles = AngleList((Fraction(0), Fraction(1, 9), Fraction(1, 4), Fraction(5, 7)))
    for divisions in (EqualDivisions(149), angles):
        plan = plan_on(head(BENCH_HEAD), divisions)
        told = where_told(Watch(plan, AtTheMachine(plan).rows), NO_SLIP)
        assert told["gear_from"] == [(0, 0)]
        (gear,) = told["gears"]
        assert (gear["turn"], gear["mark"], gear["interval"]) == ("1/72", "1/7200", 10)
        assert (gear["part"] is None) is (divisions is angles)


def test_along_a_slide_its_own_words_are_told() -> None:
    steps = plan_on(head(MILL_TABLE), EqualSteps(40, Fraction(3)))
    told, words = where_told(Watch(steps, AtTheMachine(steps).rows), NO_SLIP), where_words(steps)
    assert told["straight_mm"] == 127_000
    assert [(scale["name"], scale["most"]) for scale in told["scales"]] == [
        ("dial", 100),
        ("measured", 50_000),
    ]
    assert words["stop"].startswith("Do not move the slide.")
    assert "steps of the row" in words["kinds"]["miscount"][1]
    assert read_number(told["gears"][0]["part"]) * 127_000 == 3
    turned = where_words(plan_on(head(BENCH_HEAD), 149))
    assert turned["stop"].startswith("Do not move the crank.")
    assert "parts of the circle" in turned["kinds"]["miscount"][1]
