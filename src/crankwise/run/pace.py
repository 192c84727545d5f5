"""The operator's own pace, and the time left at it."""

from collections.abc import Sequence
from dataclasses import dataclass

from crankwise.run.state import RunState

LEAST_ROWS = 3
"""Rows timed before a pace is told: two would be chance."""

A_BREAK = 5
"""Times the usual pace beyond which a row was a break, and says nothing about the pace."""


@dataclass(frozen=True, slots=True)
class Pace:
    """How long a row takes, and the rest of the run; both in seconds."""

    row: float
    left: float


def pace(state: RunState) -> Pace | None:
    """Return the pace of the last rows of a run and the time left at it; None before enough are timed.

    The middle of the last times between two rows done, so that a break or a stumble moves it little.
    A clock that jumps back, a pause and a row reopened give no time at all, never a wrong one.
    Source: common practice, no source; the middle value is the least easily misled.
    """
    row = usual(state.intervals)
    return None if row is None else Pace(row, row * rows_left(state))


def usual(seconds: Sequence[float]) -> float | None:
    """Return the usual of some times, breaks left out; None when there are too few to say."""
    if len(seconds) < LEAST_ROWS:
        return None
    middle = sorted(seconds)[len(seconds) // 2]
    unbroken = sorted(value for value in seconds if value <= A_BREAK * middle)
    return unbroken[len(unbroken) // 2]


def rows_left(state: RunState) -> int:
    """Return how many rows are still to do; those given up as bad are not."""
    bad = state.bad
    return state.rows - state.front + sum(row not in bad for row in state.skipped)
