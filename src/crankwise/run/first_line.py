"""Going back to the first line or space: when it is asked for, what it found, and what has slipped.

A slip too small for the ring shows only where the tool is brought to what it has cut already. The ring
stays with the spindle, so that it cannot show work that has turned on its arbor at all: only a return
that met the first line clears the rows before it.
Source: common practice; how near a line or a flank is found is said in run/check_points.py.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from crankwise.exact.length import STRAIGHT_MM
from crankwise.exact.number import PI
from crankwise.part.part import Part
from crankwise.plan.schedule import Row
from crankwise.run.check_points import BY_INDICATOR_MM, BY_LOUPE_MM, Checks
from crankwise.run.entry import Entry, Means, is_put_off
from crankwise.run.faults import Explanation, Residue, explain
from crankwise.run.gear_at_hand import gear_at
from crankwise.run.slips import Slip
from crankwise.run.state import Fact, RunState
from crankwise.run.watch import Watch

NEAR_MM: Mapping[Means, Fraction] = {"loupe": BY_LOUPE_MM, "indicator": BY_INDICATOR_MM}

NEAR_TURNS: Mapping[Means, Fraction] = {"loupe": Fraction(7, 108_000), "indicator": Fraction(1, 64_800)}
"""The same where the rim is not known, 1.4 minutes and 20 seconds: as at a radius of 50 mm. Judgement."""

_FINEST = 10**9
"""Bottoms of the angles that lengths at a rim come to: nearer than a millionth of a second, and short to write."""


@dataclass(frozen=True, slots=True)
class MissedFirst:
    """A return on which the tool did not meet the first line, not yet resolved.

    entry    the return, as it was tapped
    off      how far the first line stands ahead of the tool, in turns of the spindle; behind: negative. None where
             it was told as a length and the rim is not known
    faults   everything that this may be, the plainest first; empty where `off` is None
    slip     the slip that it may be, as an entry of the journal wants it; None where `off` is None
    """

    entry: Entry
    off: Fraction | None
    faults: tuple[Explanation, ...]
    slip: Slip | None


def usual_means(part: Part) -> Means:
    """Return what the first line or space of a part is usually looked at with."""
    return "indicator" if part.work in ("space", "hole") else "loupe"


def near_turns(part: Part, means: Means | None) -> Fraction:
    """Return how near the first line is found, either way, in turns of the spindle."""
    near = means or usual_means(part)
    found = _turns(part, NEAR_MM[near])
    return NEAR_TURNS[near] if found is None else found


def turns_off(part: Part, entry: Entry) -> Fraction | None:
    """Return how far the first line stands ahead of the tool, in turns of the spindle; behind: negative.

    None for a return that was put off, and for a length where the rim is not known.
    """
    if entry.angle is not None or entry.off_mm is None:
        return entry.angle
    return _turns(part, entry.off_mm)


def meets(part: Part, entry: Entry) -> bool:
    """Return whether the tool met the first line, as near as that can be seen."""
    if entry.off_mm is not None:
        return abs(entry.off_mm) <= NEAR_MM[entry.means or usual_means(part)]
    return entry.angle is not None and abs(entry.angle) <= near_turns(part, entry.means)


def return_due(plan: Checks, state: RunState) -> int | None:
    """Return the row before which the tool is to be brought to the first line now; None when it is not.

    At its own row, until it is answered or put off; what was put off is asked again in a break and at the end.
    There must be a first line, and it must be good.
    """
    if not state.began or not state.is_done(0) or 0 in state.bad:
        return None
    returns = state.of_kind("returned")
    if state.paused or state.finished:
        put_off = bool(returns) and is_put_off(returns[-1])
        return min(state.at_row, state.rows - 1) if put_off else None
    if all(back.row != state.at_row for back in plan.returns):
        return None
    return None if any(entry.row == state.at_row for entry in returns) else state.at_row


def return_that_closed(part: Part, rows: Sequence[Row], state: RunState) -> Entry | None:
    """Return the return that ended a closing row, where that row is the last that was done; None else.

    The two are one tap: reopening the row takes back what was found there too.
    """
    last = state.trail[-1] if state.trail else None
    if last is None or last.kind != "done" or not rows[last.row].closing:
        return None
    before = len(state.trail) - 1
    there = (
        fact.entry
        for fact in reversed(state.facts)
        if fact.entry.kind == "returned" and (fact.entry.row, fact.steps) == (last.row, before)
    )
    return next((entry for entry in there if meets(part, entry)), None)


def last_return(state: RunState) -> Entry | None:
    """Return the last return that was looked at; None when a step was made since, or a slip taken in."""
    last = next((fact for fact in reversed(state.facts) if _says_where_it_stands(fact)), None)
    if last is None or last.entry.kind != "returned" or last.steps != len(state.trail):
        return None
    return last.entry


def missed_first(watch: Watch, state: RunState) -> MissedFirst | None:
    """Return the last return when the tool did not meet the first line; None when it did.

    Another return, a slip that was taken in, or a step made since settles it.
    """
    last, part = last_return(state), watch.plan.part
    if last is None or meets(part, last):
        return None
    off = turns_off(part, last)
    if off is None:
        return MissedFirst(last, None, (), None)
    residues = return_residues(watch, state)
    gear = gear_at(watch.plan, watch.rows, 0)
    faults = explain(residues, gear) or explain(residues[-1:], gear)
    suspect = worked_since_met(part, state)
    slip = Slip(
        "work",
        min(state.at_row, state.rows - 1),
        off,
        near_turns(part, last.means),
        suspect[0] if suspect else None,
        suspect,
        Fraction(1),
    )
    return MissedFirst(last, off, faults, slip)


def return_residues(watch: Watch, state: RunState) -> tuple[Residue, ...]:
    """Return what each return since the last slip leaves over, the last one of each row, in their order."""
    part, first = watch.plan.part, watch.rows[0]
    reading = watch.evidence(state.anchor).set_reading(0)
    found: dict[int, Residue] = {}
    for fact in state.facts:
        entry = fact.entry
        if entry.kind == "slipped":
            found.clear()
        off = turns_off(part, entry) if entry.kind == "returned" else None
        if off is not None and entry.row is not None:
            left_over = Fraction(0) if meets(part, entry) else off
            near = near_turns(part, entry.means)
            found.pop(entry.row, None)
            found[entry.row] = Residue(entry.row, first.reached.target, left_over, near, reading)
    last = next(reversed(found), -1)
    return tuple(found[row] for row in sorted(found) if row <= last)


def worked_since_met(part: Part, state: RunState) -> tuple[int, ...]:
    """Return the rows worked since the first line was last met, in order: all of them when it never was.

    Where a return found it off and the slip was taken in, it is met from there on.
    """
    steps, is_off = 0, False
    for fact in state.facts:
        entry = fact.entry
        if entry.kind == "slipped" and is_off:
            steps, is_off = fact.steps, False
        elif entry.kind == "returned" and not is_put_off(entry):
            is_off = not meets(part, entry)
            steps = steps if is_off else fact.steps
    return tuple(step.row for step in state.trail[steps:] if step.kind == "done")


def _says_where_it_stands(fact: Fact) -> bool:
    return fact.entry.kind == "slipped" or (fact.entry.kind == "returned" and not is_put_off(fact.entry))


def _turns(part: Part, length_mm: Fraction) -> Fraction | None:
    if part.is_straight:
        return length_mm / STRAIGHT_MM
    if part.rim_mm is None:
        return None
    return (length_mm / (PI * part.rim_mm)).limit_denominator(_FINEST)
