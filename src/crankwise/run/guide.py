"""What the operator needs to see now: the row to do, the one after, and which way to turn."""

from dataclasses import dataclass
from typing import Literal

from crankwise.head.head import Head
from crankwise.plan.schedule import Row
from crankwise.run.journal import RunState, following

Turn = Literal["clockwise", "anticlockwise"]
Watched = Literal["dial", "ring", "work"]
Turned = Literal["crank", "spindle", "handle"]


@dataclass(frozen=True, slots=True)
class DirectionTest:
    """The question asked before a run: turn clockwise, and see whether a reading grows.

    by        what is turned: the crank, or the spindle itself on a head without one; the handle of a slide
    watched   what is watched: the dial, the ring, or the work where there is no scale to read
    expected  what the head's description says will happen; None when it says nothing
    """

    by: Turned
    watched: Watched
    expected: bool | None


def direction_test(head: Head) -> DirectionTest:
    """Return the direction test for a head, from the operator's side. Source: common practice."""
    by: Turned = "handle" if head.slide else "crank" if head.worm else "spindle"
    if head.dial:
        return DirectionTest(by, "dial", head.dial.clockwise == "increases")
    if head.ring:
        expected = head.worm.clockwise == "increases" if head.worm else head.ring.numbered == "anticlockwise"
        return DirectionTest(by, "ring", expected)
    return DirectionTest(by, "work", None)


@dataclass(frozen=True, slots=True)
class Guide:
    """Where the run stands, and what to do next.

    row            the row to do; None when the run is finished or has not begun
    next_row       the row after it, which may be one that was passed over
    done, of       rows done, of how many, the closing row counted
    turn           the way to turn, always the same; None before the direction is tested
    disagrees      whether the test went against what the head's description says
    """

    row: Row | None
    next_row: Row | None
    done: int
    of: int
    turn: Turn | None
    disagrees: bool


def guide(head: Head, rows: tuple[Row, ...], state: RunState) -> Guide:
    """Return what to show for a run that stands at `state`."""
    at = state.at_row if state.began else len(rows)
    then = following(state) if state.began else len(rows)
    turn: Turn | None = None
    if state.began:
        turn = "anticlockwise" if state.numbers_grow is False else "clockwise"
    expected = direction_test(head).expected
    return Guide(
        row=rows[at] if at < len(rows) else None,
        next_row=rows[then] if then < len(rows) else None,
        done=state.done,
        of=len(rows),
        turn=turn,
        disagrees=None not in (expected, state.numbers_grow) and expected != state.numbers_grow,
    )
