"""Where a sheet asks for the ring's reading: at the same rows as the run at the screen, with the same promise.

Whoever has nothing but the paper is promised no less: so many positions at most from a lost move, or a slip
that the ring can show, to the box where it shows (run/check_points.py).
"""

from collections.abc import Sequence
from dataclasses import replace

from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.run.check_points import Checks, checks
from crankwise.run.evidence import RING, Evidence
from crankwise.wording.run_checks import last_reading_text
from crankwise.wording.sheet import CHECKS_ON_PAPER, QUARTERS_ON_PAPER

MOST_ROWS = 4_000
"""Rows for which the fewest questions are sought, a second's work; of more, the quarters are asked."""


def weighed(plan: Plan, rows: Sequence[Row]) -> Checks | None:
    """Return the checks of one list by itself; None without a ring, and for a list too long to weigh."""
    if rows[0].ring_check is None or len(rows) > MOST_ROWS:
        return None
    return checks(Evidence(plan, tuple(replace(row, index=place) for place, row in enumerate(rows))))


def check_rows(rows: Sequence[Row], found: Checks | None) -> frozenset[int]:
    """Return the rows of one list, by index, at which the ring is read and written down; none without a ring.

    Where no reading can show a lost move, and in a list too long to weigh, they are its quarters and its end.
    """
    if rows[0].ring_check is None:
        return frozenset()
    moves = len(rows) - 1
    quarters = [-(-moves * quarter // 4) for quarter in (1, 2, 3, 4)]
    return frozenset(rows[place].index for place in _asked(found) or quarters)


def checks_fact(
    plan: Plan, lists: Sequence[Sequence[Row]], weights: Sequence[Checks | None]
) -> tuple[tuple[str, str], ...]:
    """Return what the boxes promise, for the head of the sheet; nothing where one list promises nothing.

    weights  the checks of each list by itself, as `weighed`
    """
    if lists[0][0].ring_check is not None and any(len(rows) > MOST_ROWS for rows in lists):
        return (("Checks", QUARTERS_ON_PAPER),)
    most = [found.promise.positions for found in weights if found and _asked(found)]
    promised = [count for count in most if count is not None]
    if len(promised) < len(lists):
        return ()
    count = max(promised)
    told = CHECKS_ON_PAPER.format(count=count, s="" if count == 1 else "s")
    after = [
        last_reading_text(plan, found.promise, rows)
        for rows, found in zip(lists, weights, strict=True)
        if found
    ]
    return (("Checks", " ".join(filter(None, (told, *dict.fromkeys(after))))),)


def _asked(found: Checks | None) -> list[int]:
    return [point.row for point in found.points if RING in point.asks] if found else []
