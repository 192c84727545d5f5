"""Where a run stands: what is next, what is done, and all that is known about it."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from crankwise.plan.schedule import Row
from crankwise.run.entry import Entry, Kind, is_put_off

INTERVALS_KEPT = 15


class Anchor(NamedTuple):
    """What has slipped so far, in turns of the spindle, positive the way the work advances.

    work  how far the work stands ahead of what the head is set to; settings are made less by it
    ring  how far the ring stands ahead of it
    """

    work: Fraction = Fraction(0)
    ring: Fraction = Fraction(0)


NO_SLIP = Anchor()


class Trod(NamedTuple):
    """One step of the run that still holds: a row done, or passed over.

    came_back  whether the row had been passed over before
    """

    row: int
    kind: Kind
    came_back: bool = False


class Fact(NamedTuple):
    """An entry that still holds.

    entry    what was tapped
    steps    how many steps of the trail came before it; fewer once those are reopened
    suspect  the rows that it has made doubtful
    is_left  whether a row was done after it and reopened since: the machine stands there no more
    """

    entry: Entry
    steps: int
    suspect: tuple[int, ...] = ()
    is_left: bool = False


@dataclass(frozen=True, slots=True)
class RunState:
    """Where a run stands.

    rows          rows in the schedule
    began         whether the direction has been tested and the run has begun
    numbers_grow  the answer of that test
    at_row        the row to do next; `rows` when all are done
    last_at       time of the last entry that counted; None before the first
    entries       entries that have counted so far
    gates         rows before which all that was passed over is done: the closing rows, or where a pass
                  without one ends
    front         the first row that has not come yet
    skipped       rows passed over and not yet done, in their order
    paused        whether the operator has taken a break
    trail         the steps that still hold, in order
    facts         other entries that still hold, in order
    begun_by      the tap that began the run
    ring_zero     how far the ring stands ahead where all else is at zero, in turns of the spindle
    intervals     seconds that the last rows took, breaks left out; the newest last
    reopened      the row reopened last, at which or past which the machine stands; None once a row is done
    timed_from    when the row in hand was begun; None after a break
    """

    rows: int
    began: bool = False
    numbers_grow: bool | None = None
    at_row: int = 0
    last_at: float | None = None
    entries: int = 0
    gates: tuple[int, ...] = ()
    front: int = 0
    skipped: tuple[int, ...] = ()
    paused: bool = False
    trail: tuple[Trod, ...] = ()
    facts: tuple[Fact, ...] = ()
    begun_by: str | None = None
    ring_zero: Fraction = Fraction(0)
    intervals: tuple[float, ...] = ()
    timed_from: float | None = None
    reopened: int | None = None

    @property
    def finished(self) -> bool:
        """Whether every row is done, or bad and left."""
        return self.at_row == self.rows

    @property
    def done(self) -> int:
        """How many rows are done."""
        return self.front - len(self.skipped)

    @property
    def last_done(self) -> int | None:
        """The row done last; None before the first."""
        return next((step.row for step in reversed(self.trail) if step.kind == "done"), None)

    @property
    def stands_at(self) -> int | None:
        """The row where the machine was left: the one done last, or the first after a return to it."""
        return self.last_done if self.at_first is None else 0

    def is_done(self, row: int) -> bool:
        """Return whether a row is done."""
        return row < self.front and row not in self.skipped

    def of_kind(self, kind: Kind) -> tuple[Entry, ...]:
        """Return the entries of one kind that still hold, in order."""
        return tuple(fact.entry for fact in self.facts if fact.entry.kind == kind)

    @property
    def bad(self) -> dict[int, str]:
        """The rows whose work is bad, each with what was written about it."""
        found: dict[int, str] = {}
        for fact in self.facts:
            entry = fact.entry
            if entry.row is not None and entry.kind == "bad":
                found[entry.row] = entry.note or ""
            elif entry.row is not None and entry.kind == "good":
                found.pop(entry.row, None)
        return found

    @property
    def suspect(self) -> tuple[int, ...]:
        """The rows done after a slip and before it was found, not yet looked at nor done again."""
        doubtful: set[int] = set()
        for fact in self.facts:
            doubtful.update(fact.suspect)
            if fact.entry.kind in ("good", "bad") and fact.entry.row is not None:
                doubtful.discard(fact.entry.row)
        return tuple(sorted(doubtful))

    @property
    def anchor(self) -> Anchor:
        """What has slipped, all slips that still hold together: in force for every row from now on."""
        return self.anchor_after(len(self.trail))

    def anchor_after(self, steps: int) -> Anchor:
        """Return what had slipped and been written down when so many steps of the trail were done."""
        return self._anchor(fact for fact in self.facts if fact.steps <= steps)

    @property
    def anchor_at_last(self) -> Anchor:
        """What had slipped when the row done last was set: a row passed over since moves nothing."""
        steps = reversed(range(len(self.trail)))
        return self.anchor_after(next((step for step in steps if self.trail[step].kind == "done"), -1))

    @property
    def at_first(self) -> Anchor | None:
        """What had slipped when the tool was brought to the first line or space; None where it is not there.

        The machine stands there from a return that was looked at until a row is done.
        """
        here = [
            number
            for number, (entry, steps, _, is_left) in enumerate(self.facts)
            if entry.kind == "returned"
            and not is_put_off(entry)
            and not is_left
            and all(step.kind != "done" for step in self.trail[steps:])
        ]
        return self._anchor(self.facts[: here[-1]]) if here else None

    def _anchor(self, facts: Iterable[Fact]) -> Anchor:
        work, ring = Fraction(0), self.ring_zero
        for entry, *_ in facts:
            if entry.kind == "slipped" and entry.angle is not None:
                work += entry.angle
                if entry.joint != "work":
                    ring += entry.angle
        return Anchor(work, ring)

    @property
    def overshot(self) -> bool:
        """Whether the row in hand was just overshot: back off, and come up to it again."""
        last = self.facts[-1].entry if self.facts else None
        return last is not None and (last.kind, last.row) == ("overshot", self.at_row)


def fresh_state(rows: Iterable[Row]) -> RunState:
    """Return the state of a run of these rows before its first entry."""
    gates = []
    before: Row | None = None
    count = 0
    for row in rows:
        if row.closing or (before and before.pass_number != row.pass_number and not before.closing):
            gates.append(row.index)
        before, count = row, count + 1
    return RunState(count, gates=tuple(gates))
