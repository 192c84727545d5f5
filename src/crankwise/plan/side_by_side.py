"""Passes on paper: which one list serves, and each position's own angle.

One list serves passes over the same positions, in the same order, at the same settings.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby

from crankwise.plan.passes import Pass
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.ways.way import Setting


@dataclass(frozen=True, slots=True)
class SideBySide:
    """Passes that follow each other and share one list.

    rows    the rows of the first of them, its closing row last where it goes round
    passes  them, in order: one or more
    number  which pass of the run the first of them is, from 0
    """

    rows: tuple[Row, ...]
    passes: tuple[Pass, ...]
    number: int


def side_by_side(rows: Sequence[Row]) -> tuple[SideBySide, ...]:
    """Return a schedule as lists, each with the passes that it serves, in the order of the run.

    Whole turns, notches and steps may be more by the same number all through, since a schedule counts on from
    the start and a list is begun again: whatever is read must be the same.
    """
    lists: list[SideBySide] = []
    for number, group in groupby(rows, key=lambda row: row.pass_number):
        found = tuple(group)
        last = lists[-1] if lists else None
        if last and _are_the_same(last.rows, found):
            lists[-1] = SideBySide(last.rows, (*last.passes, found[0].work), last.number)
        else:
            lists.append(SideBySide(found, (found[0].work,), number))
    return tuple(lists)


def own_targets(plan: Plan, rows: Iterable[Row]) -> dict[int, Fraction]:
    """Return each row's target, by its index, as its position is met in a run of one pass.

    A schedule of several passes counts on from the start however often it has been round; a list tells the
    angle of the position itself.
    """
    met = {reached.position: reached.target for reached in plan.way.reached()}
    divisions, closure = plan.part.divisions, plan.way.closure()
    first = divisions.numbers[0]
    once_round = closure.target - met[first] if closure else Fraction(0)
    on = divisions.closing_number - first
    return {
        row.index: met[row.reached.position - on] + once_round if row.closing else met[row.reached.position]
        for row in rows
    }


def _are_the_same(rows: Sequence[Row], again: Sequence[Row]) -> bool:
    if len(rows) != len(again):
        return False
    # Some ways are taken back to their zero to close a later pass, where the first went on to it.
    return all(
        _on_the_list(one) == _on_the_list(other)
        and (other.reached.achieved - one.reached.achieved) % 1 == 0
        and (one.closing or _counts_more(one, other) == _counts_more(rows[0], again[0]))
        for one, other in zip(rows, again, strict=True)
    )


def _on_the_list(row: Row) -> tuple[object, ...]:
    """Return what a list says of a row, counts that go on from the start left out."""
    setting = row.reached.setting
    read = (setting.reading, setting.holes, setting.second_notches, setting.circle)
    return row.reached.position, row.closing, row.ring_check, read


def _counts_more(row: Row, again: Row) -> tuple[int, ...]:
    return tuple(
        after - before
        for before, after in zip(_counts(row.reached.setting), _counts(again.reached.setting), strict=True)
    )


def _counts(setting: Setting) -> tuple[int, ...]:
    return (setting.turns or 0, setting.notches or 0, setting.steps or 0)
