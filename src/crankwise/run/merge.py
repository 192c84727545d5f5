"""Two journals of one run made one: the server's, and that of a phone that was away.

The phone's new entries are added to the end of the server's, in their order. What both say is not
doubled. Where they contradict each other nothing is guessed: the server's stays, and the phone's is
handed back as a conflict, with all that rests on it, for a person to decide.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from crankwise.run.entry import is_put_off
from crankwise.run.journal import STEPS, Entry, RunState, after, counts, replayed

Reason = Literal["direction", "zero", "order", "reopened", "judged", "slipped", "read", "returned", "undone"]
"""Why two journals contradict each other.

direction  the test of the direction came out differently
zero       what the ring shows at zero was read differently
order      the phone's next step does not follow on where the server's run stands
reopened   the one did a row again that the other had reopened, passed over or already done
judged     a row is bad to the one and good to the other
slipped    a slip was written down on one side while the other went on, or on both
read       the ring was read at the same row on both, and not the same
returned   the tool met the first line on one side and not on the other, or not by as much
undone     the phone took back what the server does not hold
"""


@dataclass(frozen=True, slots=True)
class Conflict:
    """Something the two journals do not agree on.

    reason  why
    row     the row that it is about, where it is about one
    ours    what the server's journal says against it
    theirs  the phone's entries that were not taken, in order
    """

    reason: Reason
    row: int | None
    ours: tuple[Entry, ...]
    theirs: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class Merged:
    """What came of two journals.

    added      the phone's entries to add to the end of the server's journal, in order
    said_twice the phone's entries that say what the server's journal says already, or matter no more
    conflicts  what they do not agree on; empty when the journals go together
    """

    added: tuple[Entry, ...]
    said_twice: tuple[Entry, ...]
    conflicts: tuple[Conflict, ...]


def merged(start: RunState, ours: Sequence[Entry], theirs: Sequence[Entry]) -> Merged:
    """Return how the phone's journal goes together with the server's.

    start   the run before its first entry, as `fresh_state` gives it
    ours    the server's journal, every entry counted
    theirs  the phone's whole journal, begun from the server's as it then was

    Merging once more changes nothing. No row is completed twice, whichever side did it.
    """
    merging = _Merging(start, ours, theirs)
    for entry in theirs:
        if entry.tap not in merging.known:
            merging.take(entry)
    return Merged(tuple(merging.added), tuple(merging.said_twice), tuple(merging.conflicts))


class _Merging:
    """The work of one merge: the state so far, and what became of each entry."""

    def __init__(self, start: RunState, ours: Sequence[Entry], theirs: Sequence[Entry]) -> None:
        self.known = {entry.tap for entry in ours}
        taken = {entry.tap for entry in theirs}
        # What the server wrote after the phone left, and the phone never saw.
        self.unseen = [entry for entry in ours if entry.tap not in taken]
        self.state = replayed(start, ours)
        self.added: list[Entry] = []
        self.said_twice: list[Entry] = []
        self.conflicts: list[Conflict] = []
        self.broken: int | None = None  # the conflict on which the phone's further steps rest

    def take(self, entry: Entry) -> None:
        if self.broken is not None and (entry.kind in STEPS or entry.kind in ("slipped", "began")):
            conflict = self.conflicts[self.broken]
            self.conflicts[self.broken] = replace(conflict, theirs=(*conflict.theirs, entry))
            return
        against = self._against(entry)
        if against:
            self._refuse(*against, entry)
        elif self._is_said(entry):
            self.said_twice.append(entry)
        else:
            self._add(entry)

    def _add(self, entry: Entry) -> None:
        late = replace(entry, seen=None)
        if entry.kind in ("paused", "resumed") and self._unseen_of("paused", "resumed"):
            self.said_twice.append(entry)  # the server's own breaks say whether it rests now
            return
        if entry.kind in STEPS and self.state.paused:
            self._refuse("order", self._unseen_of("paused"), entry)
        elif counts(self.state, late):
            self.added.append(late)
            self.state = after(self.state, late)
        elif entry.kind == "undone":
            self._refuse("undone", [], entry)
        else:
            self._refuse("order", self.unseen[-1:], entry)

    def _refuse(self, reason: Reason, ours: Sequence[Entry], entry: Entry) -> None:
        if entry.kind in STEPS or entry.kind in ("began", "slipped"):
            self.broken = len(self.conflicts)
        self.conflicts.append(Conflict(reason, entry.row, tuple(ours), (entry,)))

    def _unseen_of(self, *kinds: str, row: int | None = None) -> list[Entry]:
        return [entry for entry in self.unseen if entry.kind in kinds and (row is None or entry.row == row)]

    def _against(self, entry: Entry) -> tuple[Reason, list[Entry]] | None:
        """Return what the server wrote meanwhile that cannot be true beside this entry."""
        row = entry.row
        reason: Reason
        match entry.kind:
            case "began":
                begun = self._unseen_of("began")
                reason, found = "direction", [one for one in begun if one.numbers_grow != entry.numbers_grow]
                if not found:
                    zero = entry.angle or 0
                    reason, found = "zero", [one for one in begun if (one.angle or 0) != zero]
            case "done" | "skipped":
                opposite = ("back", "skipped") if entry.kind == "done" else ("back", "done")
                reason, found = "reopened", self._unseen_of(*opposite, row=row)
                if not found and not self._is_said(entry):
                    reason, found = "slipped", self._unseen_of("slipped")
            case "back":
                reason, found = "reopened", self._unseen_of(*STEPS)
                if any(step.kind in ("done", "skipped") and step.row == row for step in self.added):
                    found = []  # the phone's own step, taken in just now
            case "bad" | "good":
                reason = "judged"
                found = self._unseen_of("good" if entry.kind == "bad" else "bad", row=row)
            case "slipped":
                said = {(other.kind, other.row) for other in self.said_twice}
                steps = [one for one in self._unseen_of(*STEPS) if (one.kind, one.row) not in said]
                reason, found = "slipped", self._unseen_of("slipped") + steps
            case "ring":
                reason = "read"
                found = [
                    other for other in self._unseen_of("ring", row=row) if other.reading != entry.reading
                ]
            case "returned":
                reason = "returned"
                found = [] if is_put_off(entry) else self._other_returns(entry)
            case _:
                return None
        return (reason, found) if found else None

    def _other_returns(self, entry: Entry) -> list[Entry]:
        """Return the server's own returns at the same row that did not find the same."""
        return [
            other
            for other in self._unseen_of("returned", row=entry.row)
            if not is_put_off(other) and _found_off(other) != _found_off(entry)
        ]

    def _is_said(self, entry: Entry) -> bool:
        """Return whether the server's journal says the same already."""
        if entry.kind == "began":
            return self.state.began
        if entry.kind == "done":
            return entry.row is not None and self.state.is_done(entry.row)
        if entry.kind == "skipped":
            return bool(self._unseen_of("skipped", row=entry.row))
        if entry.kind in ("bad", "good"):
            return any(other.note == entry.note for other in self._unseen_of(entry.kind, row=entry.row))
        if entry.kind == "ring":
            return bool(self._unseen_of("ring", row=entry.row))
        if entry.kind == "returned":
            # A return put off says nothing beside any other of that row.
            others = self._unseen_of("returned", row=entry.row)
            return any(is_put_off(entry) or not is_put_off(other) for other in others)
        if entry.kind == "undone":
            return any(other.of == entry.of for other in self._unseen_of("undone"))
        return False


def _found_off(entry: Entry) -> tuple[Fraction, Fraction]:
    return entry.angle or Fraction(0), entry.off_mm or Fraction(0)
