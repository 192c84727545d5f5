"""What the ring readings of a journal leave over, and the faults that this names."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from crankwise.exact.angle import ARCSECONDS
from crankwise.head.head import Head
from crankwise.part.divisions import EqualDivisions, EqualSteps
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.run.evidence import DIAL, RING
from crankwise.run.faults import Explanation, Gear, Residue, explain, gear_of
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
    gear = replace(part_and_gear(watch.plan), move=usual_move(watch.rows, here.row))
    # Older readings may be of another fault, since mended: when all together fit nothing, this one alone does.
    faults = explain(residues, gear) or explain(residues[-1:], gear)
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
            target = watch.rows[row].reached.target
            found.append(Residue(row, target, off, scale.within / scale.full, shown.get(DIAL)))
    return tuple(found)


def usual_move(rows: Sequence[Row], row: int) -> Fraction | None:
    """Return the move from one row to the next that most moves of a row's pass are, in turns of the spindle.

    None where there is none: a list of angles. In a pass over every 10th position it is ten parts of the circle.
    """
    targets = [one.reached.target for one in rows if one.pass_number == rows[row].pass_number]
    moves = Counter(after - before for before, after in pairwise(targets))
    most = moves.most_common(1)
    return most[0][0] if most and 2 * most[0][1] > len(targets) - 1 else None


def part_and_gear(plan: Plan) -> Gear:
    """Return what the faults of a run of this plan are measured by."""
    divisions = plan.part.divisions
    count = divisions.count if isinstance(divisions, EqualDivisions) else None
    gear = gear_of(plan.head, count, _backlash(plan.head))
    return replace(gear, part=divisions.step) if isinstance(divisions, EqualSteps) else gear


def _backlash(head: Head) -> Fraction | None:
    """Return the backlash where its owner has measured it."""
    size = head.error_sizes.of("backlash_arcsec") if head.error_sizes else None
    return size.high / ARCSECONDS if size is not None and size.is_known and size.high else None
