"""What is named is what was done: by every way to divide, and nothing is named that this way has not."""

from collections import Counter
from random import Random

import pytest

from crankwise.run.faults import Kind
from tests.gear import head
from tests.oracle.named_faults import Named, blunders, named, runs_of_every_method

ALL_THE_GEAR = """
name = "All the gear"
[worm]
wheel_teeth = 40
[dial]
marks = 90
read_to = "1/2"
numbered_every = 10
[ring]
graduations = 360
read_to = "1/2"
[stepper]
steps = 3200
[[plates]]
circles = [15, 16, 17, 18, 19, 20]
[[plates]]
circles = [21, 23, 27, 29, 31, 33]
[[notched_wheels]]
notches = 60
[[notched_wheels]]
notches = 24
[change_gears]
teeth = [24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100]
"""
COUNTS = (12, 36, 59, 77, 127)
HOLES: tuple[Kind, ...] = ("miscount of holes", "wrong arms")


@pytest.fixture(scope="module")
def told() -> list[Named]:
    random = Random(5)
    runs = runs_of_every_method(head(ALL_THE_GEAR), COUNTS)
    return [
        named(run, blunder)
        for run in runs
        for _ in range(4)
        for blunder in blunders(run.plan, run.rows, random)
    ]


def test_what_was_done_is_always_among_what_is_named(told: list[Named]) -> None:
    seen = [one for one in told if one.told is not None]
    assert [one for one in seen if one.told is not None and one.blunder not in one.told] == []
    methods = {one.method for one in seen}
    assert methods >= {"plain", "dial", "ring", "compound", "differential", "two-circle", "stepper", "block"}
    assert {one.blunder for one in seen} >= {
        "whole turn",
        "wrong arms",
        "miscount of notches",
        "misread numeral",
    }


def test_what_was_done_is_mostly_named_first(told: list[Named]) -> None:
    """A slip may be of just the size of another blunder; a blunder of known size is seldom of another's."""
    seen = [one for one in told if one.told and one.blunder != "slip"]
    first = Counter(one.told is not None and one.told[0] == one.blunder for one in seen)
    assert len(seen) > 300
    assert first[False] < len(seen) / 20


def test_nothing_is_named_that_this_way_has_not(told: list[Named]) -> None:
    for one in told:
        kinds = set(one.told or ())
        if one.method not in ("dial", "ring", "direct"):  # direct on the ring reads it too
            assert not kinds & {"misread numeral", "read backwards"}, one
        if one.method in ("dial", "ring", "stepper"):
            assert not kinds & {*HOLES, "miscount of notches"}, one
        if one.method in ("ring", "stepper", "direct"):
            assert "whole turn" not in kinds, one
