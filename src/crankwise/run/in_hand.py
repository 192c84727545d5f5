"""The row in hand, as things stand at the machine: after a slip, or come back to from further on."""

from dataclasses import dataclass, replace
from fractions import Fraction

from crankwise.plan.plan import Plan, ring_check
from crankwise.plan.schedule import Row
from crankwise.run.journal import Entry, after, counts
from crankwise.run.state import NO_SLIP, Anchor, RunState
from crankwise.ways.constant_move import ConstantMove
from crankwise.ways.way import Reached, ScaleWay, Way


@dataclass(frozen=True, slots=True)
class InHand:
    """The row to do now.

    row    its setting, its move from where the machine stands, its ring check; `row.reached.error` says
           how far out the work will be, a slip that cannot be made good included
    moves  how many moves of the way lead to it: more than 1, or none, only where every move is the same
    back   moves to make the other way before; more than 0 only where every move is the same and the row goes back
    """

    row: Row
    moves: int = 1
    back: int = 0


def in_hand(plan: Plan, rows: tuple[Row, ...], state: RunState) -> InHand | None:
    """Return the row in hand as it has to be set now; None when the run is finished or has not begun.

    Where the rows are done in order and nothing has slipped it is the row of the schedule. After a return
    the machine stands at the first line, and the move is made from there; the closing row is there already.
    """
    if not state.began or state.finished:
        return None
    row, last, anchor = rows[state.at_row], state.last_done, state.anchor
    in_order = last == state.at_row - 1 if last is not None else state.at_row == 0
    before_slip = state.anchor_at_last
    at_first = None if row.closing else state.at_first
    if at_first is not None:
        return set_from(plan, first_of_the_round(plan.way, rows[0], row, at_first), row, anchor)
    if in_order and anchor == before_slip == NO_SLIP:
        return InHand(row)
    stands = None if last is None else set_for(plan.way, rows[last].reached, before_slip)
    return set_from(plan, stands, row, anchor)


def next_in_hand(plan: Plan, rows: tuple[Row, ...], state: RunState) -> InHand | None:
    """Return the row that comes after the one in hand, as it will have to be set; None when there is none."""
    done = Entry("done", "next", state.last_at or 0.0, state.at_row)
    return in_hand(plan, rows, after(state, done)) if counts(state, done) else None


def as_set(plan: Plan, rows: tuple[Row, ...], anchor: Anchor) -> tuple[Row, ...]:
    """Return every row as it has to be set, one after the other, when so much has slipped."""
    if anchor == NO_SLIP:
        return rows
    found = []
    for row in rows:
        before = None if not row.index else set_for(plan.way, rows[row.index - 1].reached, anchor)
        found.append(set_from(plan, before, row, anchor).row)
    return tuple(found)


def set_from(plan: Plan, stands: Reached | None, row: Row, anchor: Anchor) -> InHand:
    """Return a row as it is set from where the head stands; None for its zero.

    Where it lies behind, it is met the next time round. Where the run does not come round, or reads otherwise the
    next time, it is gone back to: all that comes after is then read as the schedule has it.
    """
    way = plan.way
    sets = set_for(way, row.reached, anchor)
    goes_back = False
    if stands is not None and sets.achieved < stands.achieved:
        ahead = next_time_round(way, sets, stands.achieved)
        goes_back = ahead is None or not comes_to_the_same(ahead, sets)
        sets = sets if ahead is None or goes_back else ahead
    if isinstance(way, ConstantMove):
        moves = _moves_between(way, stands, sets)
        row = replace(row, move=way.one_move if moves else way.after_moves(0))
        standing = _standing(plan, row, sets, anchor, goes_back)
        # One move further back than it stands, so that the last one takes up the slack.
        return InHand(standing, 1, 1 - moves) if goes_back else InHand(standing, moves)
    moved = replace(row, move=way.move(None if goes_back else stands, sets))
    return InHand(_standing(plan, moved, sets, anchor, goes_back))


def anchored(plan: Plan, row: Row, anchor: Anchor) -> Row:
    """Return a row as it is set, and what the ring shows there, when so much has slipped.

    A way that sets each position from the start takes the slip off the setting and rounds once; any
    other is set as before, and its work stays out by the slip.
    """
    if anchor == NO_SLIP:
        return row
    return _standing(plan, row, set_for(plan.way, row.reached, anchor), anchor, row.goes_back)


def set_for(way: Way, reached: Reached, anchor: Anchor) -> Reached:
    """Return where the head is set, so that work which stands ahead of it by the slip meets the target."""
    if not anchor.work or not isinstance(way, ScaleWay):
        return reached
    target = reached.target - anchor.work
    if target < 0 and way.scale.closes and not way.divisions.is_straight:
        target += 1
    return way.reach(reached.position, target)


def first_of_the_round(way: Way, first: Row, row: Row, anchor: Anchor) -> Reached:
    """Return the first position as it is met at the start of the round in which a row lies."""
    sets = set_for(way, first.reached, anchor)
    end = way.closure()
    # Several parts at once take several turns of the spindle for one round of the run.
    once_round = end.target - next(way.reached()).target if end else Fraction(1)
    rounds = (row.reached.target - first.reached.target) // once_round
    return (way.again(sets, rounds) if rounds > 0 else None) or sets


def _standing(plan: Plan, row: Row, sets: Reached, anchor: Anchor, goes_back: bool) -> Row:
    rounds = round(sets.achieved + anchor.work - row.reached.target)
    works = sets._replace(
        position=row.reached.position,
        target=row.reached.target + rounds,
        achieved=sets.achieved + anchor.work,
    )
    ring = ring_check(plan, sets._replace(achieved=sets.achieved + anchor.ring))
    before = row.reached.setting.turns is not None and sets.setting.turns is not None
    turns = row.move.turns or 0
    passes_zero = row.passes_zero if sets.setting == row.reached.setting and not goes_back else False
    if before and not goes_back and row.move.reading is not None and sets.setting.reading is not None:
        # The crank's reading passes its zero when the part of a turn moved carries past it.
        passes_zero = turns >= 0 and sets.setting.reading < row.move.reading
    return replace(row, reached=works, ring_check=ring, goes_back=goes_back, passes_zero=passes_zero)


def next_time_round(way: Way, sets: Reached, stands: Fraction) -> Reached | None:
    """Return the setting met again, the first time it lies ahead; None where the run does not come round."""
    if way.closure() is None:
        return None
    rounds = 1
    while (again := way.again(sets, rounds)) is not None and again.achieved < stands:
        rounds += 1
    return again


def comes_to_the_same(again: Reached, sets: Reached) -> bool:
    """Return whether a setting met again puts the work where it was, and reads as it did but for whole turns.

    Where it does not, as on a head of 40.5 turns a round, every reading after it would be another too.
    """
    one, other = again.setting, sets.setting
    plain, met = other._replace(turns=None), one._replace(turns=None)
    if one.turns is None and one.steps is None:
        # Once round a notched wheel on the spindle is every notch of it.
        plain, met = plain._replace(notches=None), met._replace(notches=None)
    return plain == met and (again.achieved - sets.achieved).denominator == 1


def _moves_between(way: ConstantMove, stands: Reached | None, sets: Reached) -> int:
    ahead = sets.target - (stands.target if stands else 0)
    return int(ahead * len(way.divisions)) // way.parts_at_once
