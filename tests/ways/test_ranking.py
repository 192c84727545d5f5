"""Which way is put first, and why."""

from fractions import Fraction

import pytest

from crankwise.exact.length import read_tolerance
from crankwise.part.divisions import EqualDivisions
from crankwise.ways.ranking import is_within, reason
from crankwise.ways.search import find_ways
from crankwise.ways.way import Way
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, head, worm_head

SHED = head(
    'name = "Everything"\n[worm]\nwheel_teeth = 40\n[dial]\nmarks = 100\nread_to = "1/2"\n'
    "[ring]\ngraduations = 360\n[[plates]]\ncircles = [39, 49]\n[[notched_wheels]]\nnotches = 60\n"
)


def order(count: int, within: str | None = None) -> list[str]:
    tolerance = read_tolerance(within).as_turns(None) if within else None
    ways = find_ways(SHED, EqualDivisions(count), tolerance)
    return [way.method for way in ways if way.method in ("direct", "plain", "dial", "nearest-hole", "ring")]


def test_the_simplest_exact_way_comes_first() -> None:
    # 8 parts: 5 whole turns by the dial or any circle; the ring's graduations; no notches, no looking up
    assert order(8)[:2] == ["plain", "dial"]
    # 12 parts: five notches; 30 graduations; 3 1/3 turns on the 39 circle. All to do two things but the plate.
    assert order(12)[:3] == ["direct", "direct", "plain"]


def test_without_a_tolerance_the_truest_comes_first_where_none_is_exact() -> None:
    # Worst of 127: 63/127 of a place; 40 x 200 places on the dial, 40 x 49, 40 x 39, 360 on the ring.
    assert order(127) == ["dial", "nearest-hole", "nearest-hole", "ring"]


def test_within_a_wide_tolerance_the_simplest_comes_first() -> None:
    assert order(127, within="1°") == ["dial", "ring", "nearest-hole", "nearest-hole"]
    # The ring by eye is half a degree out at most: outside, it comes last.
    assert order(127, within="10'") == ["dial", "nearest-hole", "nearest-hole", "ring"]


def test_a_hole_or_a_mark_comes_before_a_reading_judged_between_lines() -> None:
    # 16 parts are 22.5 degrees: exact on half graduations of the ring, and yet only judged by eye.
    ring = '[ring]\ngraduations = 360\nread_to = "1/2"\n'
    exact = [way.method for way in find_ways(head(PLATE_HEAD + ring), EqualDivisions(16)) if way.exact]
    assert exact[0] == "plain"
    assert exact.index("ring") > exact.index("plain")
    assert [way.method for way in find_ways(head(BENCH_HEAD), EqualDivisions(720))] == ["dial", "ring"]


@pytest.mark.parametrize(("seconds", "within"), [(45, True), (44, False)])
def test_the_worst_position_decides(seconds: int, within: bool) -> None:
    dial = next(way for way in find_ways(head(BENCH_HEAD), EqualDivisions(127)) if way.method == "dial")
    # 63/127 x 90" = 44.65"
    assert is_within(dial, Fraction(seconds, 1_296_000)) == within
    assert is_within(dial, dial.worst_error)
    assert not is_within(dial, None)


def first(toml: str, count: int, tolerance: Fraction | None = None) -> Way:
    return find_ways(head(toml), EqualDivisions(count), tolerance)[0]


def test_the_reason_is_one_sentence() -> None:
    assert reason(first(BULL_WHEEL, 12)) == (
        "exact, and the least to do: 1 thing to set up, 1 thing to count or look up at each move"
    )
    assert reason(first(BENCH_HEAD, 127)) == "no way is exact; this one has the smallest worst error"
    close, wide = Fraction(1, 1_296_000), Fraction(60, 1_296_000)
    assert reason(first(BENCH_HEAD, 127, close), close) == (
        "no way is within the tolerance; this one comes nearest"
    )
    assert reason(first(BENCH_HEAD, 127, wide), wide) == (
        "within the tolerance, and the least to do: nothing to set up, "
        "3 things to count or look up at each move"
    )


def test_a_head_on_which_nothing_comes_round_has_no_way() -> None:
    assert find_ways(worm_head("40/3", "[dial]\nmarks = 100\n"), EqualDivisions(7)) == []
