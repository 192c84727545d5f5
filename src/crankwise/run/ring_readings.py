"""What the ring readings of a journal leave over, and the faults that this names."""

from dataclasses import dataclass
from fractions import Fraction

from crankwise.run.evidence import RING
from crankwise.run.faults import Explanation, Residue, explain
from crankwise.run.gear_at_hand import gear_at
from crankwise.run.journal import Entry, RunState
from crankwise.run.watch import Watch


@dataclass(frozen=True, slots=True)
class Disagreement:
    """A ring reading that does not agree with the row in hand, not yet resolved.

    entry   the reading, as it was tapped
    shows   what the ring should have shown
    off     how far it is off, in turns of the spindle, positive the way the work advances
    faults  everything that this may be, the plainest first; never empty
    """

    entry: Entry
    shows: Fraction
    off: Fraction
    faults: tuple[Explanation, ...]


def disagreement(watch: Watch, state: RunState) -> Disagreement | None:
    """Return what the last reading of the ring at the row in hand leaves over; None when it agrees.

    A slip that was made good since, or a step made since, settles it.
    """
    last = next((fact for fact in reversed(state.facts) if fact.entry.kind in ("ring", "slipped")), None)
    if last is None or last.entry.kind != "ring" or last.steps != len(state.trail):
        return None
    entry = last.entry
    if entry.row != state.at_row or entry.reading is None:
        return None
    residues = ring_residues(watch, state)
    here = residues[-1]
    if here.is_nothing:
        return None
    shows = watch.evidence(state.anchor).shown[here.row][RING]
    gear = gear_at(watch.plan, watch.rows, here.row)
    # Older readings may be of another fault, since mended: when all together fit nothing, this one alone does.
    true_at_start = not state.of_kind("slipped")
    faults = explain(residues, gear, true_at_start) or explain(residues[-1:], gear, true_at_start)
    return Disagreement(entry, shows, here.found, faults)


def ring_residues(watch: Watch, state: RunState) -> tuple[Residue, ...]:
    """Return what each ring reading since the last slip leaves over, the last one of each row, in their order.

    The row in hand comes last.
    """
    evidence = watch.evidence(state.anchor)
    scale = evidence.scale(RING)
    grows = 1 if watch.plan.head.ring_grows else -1
    readings: dict[int, Fraction] = {}
    for fact in state.facts:
        entry = fact.entry
        if entry.kind == "slipped":
            readings.clear()
        elif entry.kind == "ring" and entry.row is not None and entry.reading is not None:
            readings.pop(entry.row, None)
            readings[entry.row] = entry.reading
    last = next(reversed(readings), -1)
    found = []
    for row in sorted(readings):
        if row <= last:
            shown = evidence.shown[row]
            off = grows * scale.apart(readings[row], shown[RING]) / scale.full
            target, reading = watch.rows[row].reached.target, evidence.set_reading(row)
            found.append(Residue(row, target, off, scale.within / scale.full, reading))
    return tuple(found)
