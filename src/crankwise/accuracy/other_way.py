"""Another way of the same head that would make the part better: a ring read by eye, where there is a dial."""

from collections.abc import Iterable, Mapping, Sequence

from crankwise.accuracy.bounds import Bounds, coarse_bounds
from crankwise.accuracy.budget import Budget, OtherWay
from crankwise.accuracy.sources import causes, pitch_law
from crankwise.accuracy.tolerance import STANDARDS, class_reached
from crankwise.head.error_sizes import Size
from crankwise.plan.plan import Plan
from crankwise.ways.way import Way

MOST_TRIED = 5
MUCH = 0.8
"""To this share one of the two figures must fall, and the other not rise, before another way is spoken of."""


def other_way(
    found: Budget,
    ways: Sequence[Way],
    asked: Mapping[str, Size] | None = None,
    both_sides: bool = False,
) -> OtherWay | None:
    """Return the way that would do much better at the rim than the one that the budget is of, or None.

    ways    of the same job, the best first; the first of each other method is tried, corrected or not, and
            MOST_TRIED at most
    asked, both_sides  as for `budget`

    Both are reckoned on the same coarse lattice, so that they can be compared. Sizes that are only typical
    count as they do in the budget, so a head that was never measured may turn out otherwise.
    """
    here = coarse_bounds(found.law)
    better = []
    for way in _one_of_each(ways, found.plan.way):
        plan = Plan(found.plan.part, way)
        there = coarse_bounds(pitch_law(plan, causes(plan, asked, both_sides), found.rim_mm))
        shares = (_share(there.single, here.single), _share(there.cumulative, here.cumulative))
        if min(shares) <= MUCH and max(shares) <= 1:
            better.append((there.cumulative, there.single, OtherWay(way, there, _class(found, there))))
    return min(better, key=lambda one: one[:2])[2] if better else None


def _one_of_each(ways: Iterable[Way], chosen: Way) -> list[Way]:
    first: dict[tuple[str, bool], Way] = {}
    for way in ways:
        first.setdefault((way.method, way.corrects), way)
    first.pop((chosen.method, chosen.corrects), None)
    return list(first.values())[:MOST_TRIED]


def _share(after: float, before: float) -> float:
    return after / before if before else 1.0 if not after else float("inf")


def _class(found: Budget, there: Bounds) -> int | None:
    if found.gear is None:
        return None
    return class_reached(STANDARDS["iso-2013"], found.gear, there.single, there.cumulative).gear
