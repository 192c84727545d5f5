"""Where the run asks for a reading, so that no fault stays hidden for long, at the fewest questions.

The questions are as few as they can be for the promise that is made; among all ways to place so few,
those fall where they are easiest: at quarters, before a numeral is stamped, where the reading is on
a numeral. A slip too small for the ring shows only at an existing line or space, so the run also goes
back to its first one, in the middle and at the end. Where every move is the same, going back in the middle
costs as many moves as a whole round, and each of them may be lost: there it goes back at the end alone.
Source: common practice for where to check; what a reading proves is derived in run/proof.py.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from crankwise.exact.length import STRAIGHT_MM
from crankwise.exact.number import PI
from crankwise.head.head import Head
from crankwise.part.part import Part
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.run.evidence import RING, Evidence
from crankwise.run.journal import Entry, RunState
from crankwise.run.proof import Proof, Slipup, possible, proofs, surely_seen_slip
from crankwise.ways.constant_move import ConstantMove

MOST_BETWEEN = 25
"""Positions from one check to the next, when nobody asks for other: some twenty minutes of work."""

LEAST_ROWS_TO_RETURN = 20
"""Rows below which the end of the run is soon enough to go back to the first line."""

BY_LOUPE_MM, BY_INDICATOR_MM = Fraction(1, 50), Fraction(1, 200)
"""How near an existing line is found with a loupe, a flank with an indicator; common practice."""

EASILY_FOUND = 5
"""Every fifth row is set off on the sheet."""

Why = Literal["end", "quarter", "numeral", "on a numeral", "on a graduation", "distance"]

_WORTH: dict[Why, int] = {
    "end": 8,
    "quarter": 8,
    "numeral": 5,
    "on a numeral": 4,
    "on a graduation": 3,
    "distance": 0,
}

WitnessJoint = Literal[
    "wheel and spindle", "work and arbor", "dial and shaft", "head and table", "work and table"
]


@dataclass(frozen=True, slots=True)
class CheckPoint:
    """A row at which readings are asked for, before its work is done.

    row   the row
    asks  the scales to read, in order
    why   why just there
    """

    row: int
    asks: tuple[str, ...]
    why: Why


@dataclass(frozen=True, slots=True)
class Promise:
    """What the checks promise.

    positions      rows that may be worked, at most, from a fault to the question that shows it, that
                   row counted; None when no scale can show any
    watched_to     the last row at which a question is asked: what comes after is shown by no reading
    unproved       slip-ups of counting that no scale of this head can show for this number of parts
    smallest_slip  a slip above this is surely seen at the next question, in turns of the spindle; None
                   without a ring
    """

    positions: int | None
    watched_to: int | None
    unproved: tuple[Slipup, ...]
    smallest_slip: Fraction | None


@dataclass(frozen=True, slots=True)
class Return:
    """Going back to the first line or space with the tool, the machine off.

    row       before this row is worked
    smallest  a slip above this is surely seen there, in turns of the spindle; None when the rim is not known
    """

    row: int
    smallest: Fraction | None


@dataclass(frozen=True, slots=True)
class Checks:
    """All checks of a run."""

    points: tuple[CheckPoint, ...]
    returns: tuple[Return, ...]
    promise: Promise
    witness_marks: tuple[WitnessJoint, ...]

    def at(self, row: int) -> CheckPoint | None:
        """Return the check at a row, if there is one."""
        return next((point for point in self.points if point.row == row), None)


def checks(
    evidence: Evidence, most_between: int | None = None, before_numerals: Collection[int] | None = None
) -> Checks:
    """Return the checks of a run.

    most_between     rows from one question to the next, at most, 1 or more; None for what is usual
    before_numerals  positions at which a numeral is stamped: it is a pity to find the fault after it; None
                     for those of the part
    """
    if before_numerals is None:
        before_numerals = _numerals(evidence.plan.part)
    rows = evidence.rows
    usual = min(MOST_BETWEEN, max(3, -(-len(rows) // 4)))
    between = max(1, usual if most_between is None else most_between)
    proved = proofs(evidence)
    can_be_proved: frozenset[Slipup] = frozenset().union(*(proof.shows for proof in proved))
    fit = [proof for proof in proved if proof.shows and proof.proves >= can_be_proved]
    why = {proof.row: _why(evidence, rows[proof.row], before_numerals) for proof in fit}
    # A run that starts at its zero is set there, and nothing can be lost before the first move.
    start = 0 if rows[0].reached.achieved == 0 else -1
    worth = [
        (proof, 2 * _WORTH[why[proof.row]] + (rows[proof.row].reached.position % EASILY_FOUND == 0))
        for proof in fit
        if proof.row > start
    ]
    chosen = _fewest(worth, between, start)
    points = tuple(CheckPoint(proof.row, proof.asks, why[proof.row]) for proof in chosen)
    ring = next((scale for scale in evidence.scales if scale.name == RING), None)
    gaps = [after - before for before, after in pairwise((start, *(point.row for point in points)))]
    promise = Promise(
        positions=max(gaps) if gaps and can_be_proved else None,
        watched_to=points[-1].row if points else None,
        unproved=tuple(slip for slip in possible(evidence) if slip not in can_be_proved),
        smallest_slip=surely_seen_slip(ring) if ring else None,
    )
    return Checks(points, returns(evidence.plan, rows), promise, witness_marks(evidence.plan.head))


def due(plan: Checks, state: RunState) -> CheckPoint | None:
    """Return the check that is to be answered before the row in hand is worked; None when none is.

    A reading of the ring is journalled and answers it. Where other scales alone are asked, the operator
    compares them, and the row done is the answer.
    """
    point = plan.at(state.at_row) if state.began else None
    if point is None or point.asks[:1] != (RING,):
        return point
    answered = any(
        fact.entry.kind == "ring" and fact.entry.row == point.row and fact.steps == len(state.trail)
        for fact in state.facts
    )
    return None if answered else point


def answer(evidence: Evidence, entry: Entry) -> tuple[bool, Fraction] | None:
    """Return whether a ring reading of the journal agrees with its row, and how far it is off, in turns.

    None when the entry is no reading of the ring. Positive the way the work advances.
    """
    if entry.kind != "ring" or entry.reading is None or entry.row is None:
        return None
    scale = evidence.scale(RING)
    off = scale.apart(entry.reading, evidence.shown[entry.row][RING])
    grows = 1 if evidence.plan.head.ring_grows else -1
    return abs(off) <= scale.within, grows * off / scale.full


def returns(plan: Plan, rows: Sequence[Row]) -> tuple[Return, ...]:
    """Return when to go back to the first line or space: half way through each pass, and where it closes."""
    smallest = _smallest_at_the_rim(plan.part)
    costs_a_round = isinstance(plan.way, ConstantMove)
    found = []
    by_pass: dict[int, list[Row]] = {}
    for row in rows:
        by_pass.setdefault(row.pass_number, []).append(row)
    for those in by_pass.values():
        if len(those) >= LEAST_ROWS_TO_RETURN and not costs_a_round:
            found.append(Return(those[len(those) // 2].index, smallest))
        if those[-1].closing:
            found.append(Return(those[-1].index, smallest))
    return tuple(found)


def witness_marks(head: Head) -> tuple[WitnessJoint, ...]:
    """Return the joints that can slip on this head: each wants a mark scribed across it before the start."""
    if head.slide:
        return ("work and table", "dial and shaft")
    joints: list[WitnessJoint] = []
    if head.worm or head.notched_wheels:
        joints.append("wheel and spindle")
    joints.append("work and arbor")
    if head.dial:
        joints.append("dial and shaft")
    return (*joints, "head and table")


def _why(evidence: Evidence, row: Row, before_numerals: Collection[int]) -> Why:
    if row.closing or row.index == len(evidence.rows) - 1:
        return "end"
    if _is_nearest_quarter(evidence, row):
        return "quarter"
    if row.reached.position in before_numerals:
        return "numeral"
    shown = evidence.shown[row.index]
    for scale in evidence.scales:
        value = shown.get(scale.name)
        if value is not None and scale.numbered_every and value % scale.numbered_every == 0:
            return "on a numeral"
    ring = evidence.plan.head.ring
    if (
        ring
        and row.ring_check is not None
        and (row.ring_check * ring.graduations / ring.full_circle) % 1 == 0
    ):
        return "on a graduation"
    return "distance"


def _is_nearest_quarter(evidence: Evidence, row: Row) -> bool:
    """Return whether no other position lies nearer to the same quarter of the circle, before or after it."""
    quarters = row.reached.target * 4
    off = abs(quarters - round(quarters))
    rows = evidence.rows
    for other in (row.index - 1, row.index + 1):
        if 0 <= other < len(rows) and rows[other].pass_number == row.pass_number:
            beside = rows[other].reached.target * 4
            if abs(beside - round(quarters)) < off:
                return False
    return 4 * off <= 1


def _fewest(fit: Sequence[tuple[Proof, int]], between: int, start: int) -> list[Proof]:
    """Return the rows to ask at: the fewest scales in all, then the most worth, no gap above `between`.

    Dynamic programming from the end, over rows that can prove: the best from a row on is the row with
    the best of all rows within reach. A gap that no row can close is left as short as it can be.
    """
    best: list[tuple[int, int, int | None]] = [(0, 0, None)] * len(fit)
    for here in range(len(fit) - 1, -1, -1):
        proof, worth = fit[here]
        cost, gain, after = _best_within(fit, best, proof.row, here + 1, between)
        best[here] = (cost + len(proof.asks), gain - worth, after)
    chosen = []
    _, _, at = _best_within(fit, best, start, 0, between)
    while at is not None:
        chosen.append(fit[at][0])
        at = best[at][2]
    return chosen


def _best_within(
    fit: Sequence[tuple[Proof, int]],
    best: Sequence[tuple[int, int, int | None]],
    row: int,
    first: int,
    between: int,
) -> tuple[int, int, int | None]:
    options: list[tuple[int, int, int | None]] = []
    for ahead in range(first, len(fit)):
        if fit[ahead][0].row > row + between and options:
            break
        options.append((best[ahead][0], best[ahead][1], ahead))
    return min(options) if options else (0, 0, None)


def _numerals(part: Part) -> frozenset[int]:
    numbers = (number for number, _ in part.divisions.targets())
    return frozenset(number for number, mark in zip(numbers, part.marks, strict=False) if mark.numeral)


def _smallest_at_the_rim(part: Part) -> Fraction | None:
    near = BY_INDICATOR_MM if part.work in ("space", "hole") else BY_LOUPE_MM
    if part.is_straight:
        return 2 * near / STRAIGHT_MM
    if part.rim_mm is None:
        return None
    return 2 * near / (PI * part.rim_mm)
