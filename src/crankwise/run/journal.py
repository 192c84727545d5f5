"""The journal of a run: what was tapped, and the state it comes to.

A tap names the row it completes, and how far the journal had come where it was tapped. It counts
only when the run still stands there; a repeat or a late arrival finds the run elsewhere and changes
nothing, so no position is ever skipped. The row alone would not do: a `done` that was delayed until
the row had been done elsewhere and then reopened would complete it unseen.

A line is never taken out. What is undone stays in the journal, with the line that undoes it.
"""

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from crankwise.run.entry import AT_A_ROW, FACTS, KINDS, STEPS, Entry, Joint, Kind, Means
from crankwise.run.state import INTERVALS_KEPT, Anchor, Fact, RunState, Trod, fresh_state

__all__ = [
    "AT_A_ROW",
    "FACTS",
    "KINDS",
    "STEPS",
    "Anchor",
    "Entry",
    "Fact",
    "Joint",
    "Kind",
    "Means",
    "RunState",
    "Trod",
    "after",
    "counts",
    "following",
    "fresh_state",
    "replayed",
]

_WHEREVER_IT_STANDS = FACTS - {"slipped"} | {"paused", "resumed"}
"""Kinds that say what was seen, and are as true when they come late."""


def counts(state: RunState, entry: Entry) -> bool:
    """Return whether an entry changes the run as it stands; a repeat or a late one does not."""
    kind, row = entry.kind, entry.row
    if entry.seen is not None and entry.seen != state.entries and kind not in _WHEREVER_IT_STANDS:
        return False
    if kind == "began":
        return not state.began
    if not state.began:
        return False
    if kind in FACTS:
        return _is_new_fact(state, entry)
    if kind == "paused":
        return not state.paused
    if kind == "resumed":
        return state.paused
    if kind == "undone":
        return entry.of is not None and _can_undo(state, entry.of)
    if state.paused:
        return False
    if kind == "done":
        return row == state.at_row < state.rows
    if kind == "skipped":
        return row == state.at_row == state.front < state.rows and row not in state.gates
    return bool(state.trail) and row == state.trail[-1].row


def _is_new_fact(state: RunState, entry: Entry) -> bool:
    if any(fact.entry.tap == entry.tap for fact in state.facts):
        return False
    if entry.kind == "slipped" and entry.angle is None:
        return False
    if entry.kind == "ring" and entry.reading is None:
        return False
    if entry.row is None:
        return entry.kind not in AT_A_ROW
    return 0 <= entry.row < state.rows


def _can_undo(state: RunState, tap: str) -> bool:
    """The test of the direction can be undone until a row is done; a fact at any time."""
    return (tap == state.begun_by and not state.trail) or any(fact.entry.tap == tap for fact in state.facts)


def after(state: RunState, entry: Entry) -> RunState:
    """Return the state after one entry; the same state when the entry does not count."""
    if not counts(state, entry):
        return state
    changed = _changed(state, entry)
    at_row = _next_row(changed, changed.front, changed.skipped)
    return replace(changed, last_at=entry.at, entries=state.entries + 1, at_row=at_row)


def _changed(state: RunState, entry: Entry) -> RunState:
    match entry.kind:
        case "began":
            return replace(
                state,
                began=True,
                numbers_grow=entry.numbers_grow,
                begun_by=entry.tap,
                ring_zero=entry.angle or Fraction(0),
                timed_from=entry.at,
            )
        case "done":
            return _done(state, entry)
        case "skipped":
            return _stepped(state, entry, skipped=(*state.skipped, state.at_row), front=state.front + 1)
        case "back":
            return _reopened(state)
        case "paused":
            return replace(state, paused=True, timed_from=None)
        case "resumed":
            return replace(state, paused=False, timed_from=None)
        case "undone":
            return _undone(state, entry.of or "")
        case "slipped":
            return _noted(state, entry, _worked_since(state, entry.since))
        case _:
            return _noted(state, entry)


def _noted(state: RunState, entry: Entry, suspect: tuple[int, ...] = ()) -> RunState:
    return replace(state, facts=(*state.facts, Fact(entry, len(state.trail), suspect)))


def _done(state: RunState, entry: Entry) -> RunState:
    intervals = state.intervals
    if state.timed_from is not None and entry.at > state.timed_from:
        intervals = (*intervals, entry.at - state.timed_from)[-INTERVALS_KEPT:]
    if state.at_row == state.front:
        return _stepped(state, entry, front=state.front + 1, intervals=intervals)
    skipped = tuple(row for row in state.skipped if row != state.at_row)
    return _stepped(state, entry, skipped=skipped, intervals=intervals)


def _stepped(
    state: RunState,
    entry: Entry,
    front: int | None = None,
    skipped: tuple[int, ...] | None = None,
    intervals: tuple[float, ...] | None = None,
) -> RunState:
    came_back = entry.kind == "done" and state.at_row != state.front
    step = Trod(state.at_row, entry.kind, came_back)
    return replace(
        state,
        front=state.front if front is None else front,
        skipped=state.skipped if skipped is None else skipped,
        intervals=state.intervals if intervals is None else intervals,
        trail=state.trail + (step,),  # noqa: RUF005 - the trail is long, and unpacking copies it twice
        timed_from=entry.at,
        reopened=None if entry.kind == "done" else state.reopened,
    )


def _reopened(state: RunState) -> RunState:
    step = state.trail[-1]
    row, skipped, front = step.row, state.skipped, state.front
    if step.came_back:
        skipped = tuple(sorted((*skipped, row)))
    else:
        skipped, front = tuple(other for other in skipped if other != row), front - 1
    left = len(state.trail) - 1
    # What was found at a step that is reopened holds on: a slip must not be forgotten by going back past it.
    facts = tuple(
        Fact(
            fact.entry,
            min(fact.steps, left),
            tuple(other for other in fact.suspect if other != row),
            fact.is_left or (step.kind == "done" and fact.steps <= left),
        )
        for fact in state.facts
    )
    return replace(
        state,
        front=front,
        skipped=skipped,
        trail=state.trail[:-1],
        facts=facts,
        timed_from=None,
        reopened=row,
    )


def _undone(state: RunState, tap: str) -> RunState:
    if tap == state.begun_by and not state.trail:
        return replace(
            state, began=False, numbers_grow=None, begun_by=None, ring_zero=Fraction(0), timed_from=None
        )
    return replace(state, facts=tuple(fact for fact in state.facts if fact.entry.tap != tap))


def _worked_since(state: RunState, since: int | None) -> tuple[int, ...]:
    """Return the rows that were done from the first doubtful one on, in the order they were done."""
    order = [step.row for step in state.trail if step.kind == "done"]
    if since is None or since not in order:
        return ()
    return tuple(order[order.index(since) :])


def _next_row(state: RunState, front: int, skipped: tuple[int, ...]) -> int:
    """Return the front, or what was passed over and not given up as bad, once a gate is reached."""
    if skipped and (front == state.rows or front in state.gates):
        bad = state.bad
        return next((row for row in skipped if row not in bad), front)
    return front


def following(state: RunState) -> int:
    """Return the row that comes after the one in hand; `rows` when that is the last."""
    at = state.at_row
    if at != state.front:
        return _next_row(state, state.front, tuple(row for row in state.skipped if row != at))
    return _next_row(state, at + 1, state.skipped) if at < state.rows else at


def replayed(rows: int | RunState, entries: Iterable[Entry]) -> RunState:
    """Return the state that a journal comes to, from its first entry.

    rows  the state of the run before it, or only its number of rows for a run of one pass
    """
    state = RunState(rows) if isinstance(rows, int) else rows
    for entry in entries:
        state = after(state, entry)
    return state
