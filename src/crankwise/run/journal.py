"""The journal of a run: what was tapped, and the state it comes to.

A tap names the row it completes, and how far the journal had come where it was tapped. It counts
only when the run still stands there; a repeat or a late arrival finds the run elsewhere and changes
nothing, so no position is ever skipped. The row alone would not do: a `done` that was delayed until
the row had been done elsewhere and then reopened would complete it unseen.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

Kind = Literal["began", "done", "back"]


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the journal.

    kind          began: the direction was tested; done: a row is completed; back: a row is reopened
    tap           the tap's own name, made where it was tapped; the same name twice is one tap
    at            when it was tapped, as the device says: seconds since 1970, UTC
    row           the row completed or reopened; None for began
    numbers_grow  began only: whether a clockwise turn made the numbers grow; None when not asked
    seen          entries that had counted when the page that was tapped was made; None when not said
    """

    kind: Kind
    tap: str
    at: float
    row: int | None = None
    numbers_grow: bool | None = None
    seen: int | None = None


@dataclass(frozen=True, slots=True)
class RunState:
    """Where a run stands.

    rows          rows in the schedule
    began         whether the direction has been tested and the run has begun
    numbers_grow  the answer of that test
    at_row        the row to do next; `rows` when all are done
    last_at       time of the last entry that counted; None before the first
    entries       entries that have counted so far
    """

    rows: int
    began: bool = False
    numbers_grow: bool | None = None
    at_row: int = 0
    last_at: float | None = None
    entries: int = 0

    @property
    def finished(self) -> bool:
        """Whether every row is done."""
        return self.at_row == self.rows


def counts(state: RunState, entry: Entry) -> bool:
    """Return whether an entry changes the run as it stands; a repeat or a late one does not."""
    if entry.seen is not None and entry.seen != state.entries:
        return False
    if entry.kind == "began":
        return not state.began
    if not state.began:
        return False
    if entry.kind == "done":
        return entry.row == state.at_row < state.rows
    return entry.row is not None and entry.row == state.at_row - 1 >= 0


def after(state: RunState, entry: Entry) -> RunState:
    """Return the state after one entry; the same state when the entry does not count."""
    if not counts(state, entry):
        return state
    counted = replace(state, last_at=entry.at, entries=state.entries + 1)
    if entry.kind == "began":
        return replace(counted, began=True, numbers_grow=entry.numbers_grow)
    return replace(counted, at_row=state.at_row + 1 if entry.kind == "done" else state.at_row - 1)


def replayed(rows: int, entries: Iterable[Entry]) -> RunState:
    """Return the state that a journal comes to, from its first entry."""
    state = RunState(rows)
    for entry in entries:
        state = after(state, entry)
    return state
