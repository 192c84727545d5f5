"""How the first line or space is met from where the machine stands: the move to make before it is looked at.

Where the run comes round, and the scales then show what they showed at the first, the head is turned on the usual
way until it is met again. Else it is turned back past it and comes up to it from the usual side: half a turn of the
crank past at least, which takes up the slack, and less than a whole one, so that the reading comes up once. It is
met in the round of the row in hand, whose readings go on from there. With d turns from the first to where the crank
stands, the half turns to turn back are the first whole number of them at or above 2d + 1. Source: derived.
"""

from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.run.in_hand import InHand, comes_to_the_same, first_of_the_round, set_for, set_from
from crankwise.run.state import NO_SLIP, Anchor, RunState
from crankwise.ways.constant_move import ConstantMove
from crankwise.ways.way import Reached, Setting, Way


@dataclass(frozen=True, slots=True)
class ToFirst:
    """The move that brings the tool to the first line or space.

    row       the first row as it is set now, with its move from where the machine stands; `goes_back` where
              it is turned back past it first, and then the move says nothing
    moves     how many moves of the way that are; more than 1 only where every move is the same
    back      turns of the crank to turn back first; None where it is not gone back to, or nothing is cranked
    is_known  whether it is known where the machine stands; where not, only the setting is true, and no move
    """

    row: Row
    moves: int = 1
    back: Fraction | None = None
    is_known: bool = True


def to_first(plan: Plan, rows: tuple[Row, ...], state: RunState) -> ToFirst | None:
    """Return how the first line or space is met from where the machine stands now.

    None where it stands there already, or where no row is done.
    """
    last, at = state.last_done, min(state.at_row, state.rows - 1)
    if last is None:
        return None
    if state.reopened is not None:
        return from_anywhere(plan, rows, at, state.anchor)
    if state.at_first is not None:
        stands = first_of_the_round(plan.way, rows[0], rows[at], state.at_first)
    else:
        stands = set_for(plan.way, rows[last].reached, state.anchor_at_last)
    there = _to_first_from(plan, _first_before(plan, rows, at), stands, state.anchor)
    return None if there.row.reached.achieved == stands.achieved + state.anchor.work else there


def from_anywhere(plan: Plan, rows: tuple[Row, ...], row: int, anchor: Anchor) -> ToFirst:
    """Return how it is met before a row where nobody knows where the machine stands: its setting alone."""
    return ToFirst(set_from(plan, None, _first_before(plan, rows, row), anchor).row, is_known=False)


def to_first_before(plan: Plan, rows: tuple[Row, ...], row: int, anchor: Anchor) -> ToFirst:
    """Return how it is met before a row, from the row before it; `row` is 1 or more."""
    stands = set_for(plan.way, rows[row - 1].reached, anchor)
    return _to_first_from(plan, _first_before(plan, rows, row), stands, anchor)


def from_first(plan: Plan, rows: tuple[Row, ...], row: int, anchor: Anchor) -> InHand:
    """Return a row as it is set from the first line or space, once the tool was brought to it."""
    return set_from(plan, first_of_the_round(plan.way, rows[0], rows[row], anchor), rows[row], anchor)


def _first_before(plan: Plan, rows: tuple[Row, ...], row: int) -> Row:
    """Return the first row; where its scales read otherwise each time round, as it is met in the round of a row."""
    there = first_of_the_round(plan.way, rows[0], rows[row], NO_SLIP)
    return rows[0] if comes_to_the_same(there, rows[0].reached) else replace(rows[0], reached=there)


def _to_first_from(plan: Plan, first: Row, stands: Reached, anchor: Anchor) -> ToFirst:
    """Return how the first row is met from where the head stands."""
    way = plan.way
    there = set_from(plan, stands, first, anchor)
    if not there.row.goes_back:
        return ToFirst(_moved(way, there.row), there.moves)
    sets = set_for(way, first.reached, anchor)
    row, moves = set_from(plan, None, first, anchor).row, 1
    if isinstance(way, ConstantMove):
        moves = int((stands.target - sets.target) * len(way.divisions)) // way.parts_at_once
    row = replace(_moved(way, row), goes_back=True)
    return ToFirst(row, max(1, moves), _turns_back(plan, stands, sets))


def _moved(way: Way, first: Row) -> Row:
    """A first row is told as the zero; where every move is the same that is the move which leads to it."""
    return replace(first, move=way.one_move) if isinstance(way, ConstantMove) else first


def _turns_back(plan: Plan, stands: Reached, sets: Reached) -> Fraction | None:
    if sets.setting.turns is None or isinstance(plan.way, ConstantMove):
        return None
    ahead = _of_the_crank(plan, stands.setting) - _of_the_crank(plan, sets.setting)
    return Fraction(ceil(2 * ahead + 1), 2) if ahead else None


def _of_the_crank(plan: Plan, setting: Setting) -> Fraction:
    """Return how far the crank has gone from its zero, in turns of it."""
    turns = Fraction(setting.turns or 0)
    circle = setting.circle or plan.way.setup.get("circle")
    if setting.holes is not None and isinstance(circle, int):
        turns += Fraction(setting.holes[0], circle)
    if setting.reading is not None and plan.head.dial:
        turns += setting.reading / plan.head.dial.marks
    return turns
