"""The schedule of a plan: one row a position, in the order of the run, closing row last."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from crankwise.part.part import Mark
from crankwise.plan.plan import Plan
from crankwise.ways.way import Reached, Setting


@dataclass(frozen=True, slots=True)
class Row:
    """One position of the run.

    index       place in the schedule, from 0; a tap names it
    reached     the position, its target, its setting from the start, where that puts the work
    move        how far to turn from the row before; from the zero on the first row
    passes_zero whether the crank's reading passes its zero on the way
    ring_check  what the ring must show, in the units of its numerals; None without a ring
    mark        what to do there beyond the cut; None where there is nothing to tell apart
    closing     whether this is the first position met again
    """

    index: int
    reached: Reached
    move: Setting
    passes_zero: bool
    ring_check: Fraction | None
    closing: bool = False
    mark: Mark | None = None


def schedule(plan: Plan) -> tuple[Row, ...]:
    """Return every row of the plan in order, the closing row last where the run goes round."""
    return tuple(_rows(plan))


def _rows(plan: Plan) -> Iterator[Row]:
    way = plan.way
    before: Reached | None = None
    closure = way.closure()
    marks = dict(zip(way.divisions.numbers, plan.part.marks, strict=False))
    for index, reached in enumerate(way.reached()):
        yield _row(plan, index, before, reached, mark=marks.get(reached.position))
        before = reached
    if closure is not None:
        yield _row(plan, len(way.divisions), before, closure, closing=True)


def _row(
    plan: Plan,
    index: int,
    before: Reached | None,
    reached: Reached,
    closing: bool = False,
    mark: Mark | None = None,
) -> Row:
    move = plan.way.move(before, reached)
    passes_zero = _passes_zero(before, reached, move)
    return Row(index, reached, move, passes_zero, ring_check(plan, reached), closing, mark)


def _passes_zero(before: Reached | None, reached: Reached, move: Setting) -> bool:
    if before is None or reached.setting.turns is None or before.setting.turns is None or move.turns is None:
        return False
    return reached.setting.turns - before.setting.turns > move.turns


def ring_check(plan: Plan, reached: Reached) -> Fraction | None:
    """Return what the ring shows where the setting really puts the work, in the units of its numerals."""
    ring = plan.head.ring
    if ring is None:
        return None
    return ring.reading(reached.achieved if plan.head.ring_grows else -reached.achieved)
