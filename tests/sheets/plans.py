"""Plans of every kind that a sheet must hold, and brute force for the dial, sharing nothing with the package."""

from collections.abc import Iterator
from fractions import Fraction
from functools import cache

from crankwise.plan.passes import ONE_PASS, Pass, Passes, long_lines_first, rough_then_finish, with_trace
from crankwise.plan.plan import Plan
from crankwise.tasks.divide import asked_part
from crankwise.ways.search import find_ways
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, head

RING_ONLY = """
name = "Old ring"
[ring]
graduations = 400
full_circle = 400
read_to = "1/4"
"""


EVERYTHING = """
name = "Head with everything"
[worm]
wheel_teeth = 40
[dial]
marks = 90
read_to = "1/5"
numbered_every = 10
[ring]
graduations = 360
read_to = "1/4"
[stepper]
steps = 200
[[plates]]
circles = [15, 16, 17, 18, 19, 20]
[[notched_wheels]]
notches = 24
detent_on = "wheel"
[[notched_wheels]]
notches = 30
detent_on = "worm"
[[notched_wheels]]
notches = 60
[change_gears]
teeth = [24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100]
"""
LIST = "0, 7.2, 24, 90, 94.5, 100, 220.5"


def plan(toml: str, method: str, count: str | None, **asked: str) -> Plan:
    """Return the best plan of one method for what was typed."""
    part = asked_part(count, **asked)  # type: ignore[arg-type]
    ways = find_ways(head(toml), part.divisions)
    return Plan(part, next(way for way in ways if way.method == method))


def tide_ring() -> Plan:
    """Return the 149 lines of the tide ring, on the dial of the bench head."""
    return plan(BENCH_HEAD, "dial", "149", rim="150mm", work="line")


@cache
def every_kind() -> dict[str, Plan]:
    """Return one plan for each scale that can be set, with some that strain a page."""
    angles = "0, 12.5, 30d15m, 1/7 turn, 200, 359.9"
    return {
        "dial": tide_ring(),
        "plain": plan(PLATE_HEAD, "plain", "48", work="space"),
        "nearest hole": plan(PLATE_HEAD, "nearest-hole", "127", rim="8in", work="space"),
        "compound": plan(PLATE_HEAD, "compound", "51", work="space"),
        "two circles": plan(PLATE_HEAD, "two-circle", "149", rim="3000mm", work="hole"),
        "notched wheel": plan(BULL_WHEEL, "direct", "12", work="flat"),
        "ring": plan(RING_ONLY, "ring", "37", work="line"),
        "angles": plan(BENCH_HEAD, "dial", None, angles=angles, rim="101.6mm", work="hole"),
        "one position": plan(BENCH_HEAD, "dial", "1"),
        "a few of many": plan(BENCH_HEAD, "dial", "720", first="100", last="160", every="5", work="line"),
        "far out": plan(BENCH_HEAD, "ring", "149", rim="99999mm"),
        "thousand": plan(BENCH_HEAD, "dial", "1000", rim="200mm", work="line"),
    } | dict(_one_of_each_method())


def _one_of_each_method() -> Iterator[tuple[str, Plan]]:
    """Every method there is, on the first number that it can do."""
    everything, met = head(EVERYTHING), set()
    for part in (
        asked_part("48"),
        asked_part("40"),
        asked_part("51"),
        asked_part("127", rim="8in"),
        asked_part(None, angles=LIST),
    ):
        for way in find_ways(everything, part.divisions):
            if way.method not in met:
                met.add(way.method)
                yield f"everything, {way.method}", Plan(part, way)


@cache
def every_run() -> dict[str, tuple[Plan, Passes]]:
    """Return one run of each kind of plan in one pass, and runs of several passes of each sort."""
    kinds = every_kind()
    rough, finish = rough_then_finish(Fraction(3, 2), Fraction(9, 4))
    return {kind: (planned, ONE_PASS) for kind, planned in kinds.items()} | {
        "trace, rough, finish": (kinds["dial"], with_trace((rough, finish))),
        "holes, rough, finish": (kinds["plain"], (rough, finish)),
        "one deep cut": (kinds["nearest hole"], (Pass(depth_mm=Fraction(2)),)),
        "trace, then long lines first": (kinds["dial"], with_trace(long_lines_first(10, 5))),
        "spread, rough, finish": (
            kinds["notched wheel"],
            (Pass("rough", spread=5), Pass("finish", spread=5)),
        ),
        "trace, then spread": (kinds["two circles"], with_trace((Pass(spread=3),))),
        "angles, trace": (kinds["angles"], with_trace()),
        "a few, trace": (kinds["a few of many"], with_trace()),
    }


def half_marks_by_trying_all(position: int, count: int, ratio: int, marks: int) -> int:
    """Return the half mark nearest to a position by trying every one on the head; halves to the even one."""
    exact_top = position * ratio * marks * 2  # half marks x count
    return min(range(ratio * marks * 2 + 1), key=lambda half: (abs(half * count - exact_top), half % 2))


def degrees_out(half_marks: int, position: int, count: int, ratio: int, marks: int) -> Fraction:
    """Return how far out a setting in half marks is, in degrees."""
    return Fraction(half_marks * 360, ratio * marks * 2) - Fraction(position * 360, count)
