"""The schedule of a plan: one row a position and pass, in the order of the run, closing rows last."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from crankwise.errors import BadDivisions
from crankwise.plan.passes import ONE_PASS, Pass, Passes
from crankwise.plan.plan import Plan, ring_check
from crankwise.ways.constant_move import ConstantMove
from crankwise.ways.way import Reached, Setting, Way


@dataclass(frozen=True, slots=True)
class Row:
    """One position of the run, in one of its passes.

    index        place in the schedule, from 0; a tap names it
    reached      the position, its target, its setting from the start, where that puts the work
    move         how far to turn from the row before; from the zero on the first row
    passes_zero  whether the crank's reading passes or comes to its zero, beside the move's whole turns
    ring_check   what the ring must show, in the units of its numerals; None without a ring
    closing      whether this is the first position of the pass met again
    pass_number  which pass this row belongs to, from 0
    work         that pass
    goes_back    whether the crank is first turned back past the start, so that `move` counts from the
                 zero: at a new circuit of a way that does not come round
    """

    index: int
    reached: Reached
    move: Setting
    passes_zero: bool
    ring_check: Fraction | None
    closing: bool = False
    pass_number: int = 0
    work: Pass = ONE_PASS[0]
    goes_back: bool = False


def schedule(plan: Plan, passes: Passes = ONE_PASS) -> tuple[Row, ...]:
    """Return every row of the plan in order: all rows of a pass, then its closing row where it goes round.

    passes  one or more, in order; by default one pass over every position

    Settings count on from the very start, however many times the run has been round; so a later pass
    meets the work exactly where an earlier one did. Raises BadDivisions when a pass has no position,
    or when the way cannot make these passes.
    """
    _check(plan, passes)
    return tuple(_rows(plan, passes))


def line_classes(plan: Plan) -> tuple[str, ...]:
    """Return the line class of each position; empty where the part does not tell lines apart."""
    return tuple(mark.line_class for mark in plan.part.marks)


def _check(plan: Plan, passes: Passes) -> None:
    if not passes:
        raise BadDivisions("passes", "none; a run goes over its positions once or more")
    count = len(plan.part.divisions)
    for number, one in enumerate(passes, 1):
        if not one.order(count, line_classes(plan)):
            which = f"each {one.each} and but not {one.but_not} leave none of {count}"
            if one.line_class:
                which = f"there is no {one.line_class} line among them"
            raise BadDivisions(f"pass {number}", f"it leaves out every position; {which}")
    if isinstance(plan.way, ConstantMove):
        if not all(one.is_plain for one in passes):
            raise BadDivisions(
                "passes",
                "this way makes the same move every time and meets every position in its own order; "
                "for line lengths or a spread order choose a way that sets each position from the start",
            )
        if len(passes) > 1 and plan.way.residue:
            raise BadDivisions(
                "passes",
                "this way does not come back exactly to its first position, so a second pass would "
                "not meet the first; make one pass, or choose a way that is exact or set from the start",
            )


def _rows(plan: Plan, passes: Passes) -> Iterator[Row]:
    way = plan.way
    positions = tuple(way.reached())
    closure = way.closure()
    before: Reached | None = None
    index = rounds = 0
    last_place = -1
    for number, one in enumerate(passes):
        order = one.order(len(positions), line_classes(plan))
        visits = [(place, False) for place in order]
        if closure is not None:
            visits.append((order[0], True))
        for place, closing in visits:
            # Round again when the place is not ahead; a pass that has closed stands at its first place.
            rounds += closing or place < last_place
            last_place = place
            reached = _met(way, positions[place], closing, rounds, closure)
            goes_back = before is not None and reached.achieved < before.achieved
            yield _row(plan, index, None if goes_back else before, reached, closing, number, one, goes_back)
            index, before = index + 1, reached


def _met(way: Way, first_met: Reached, closing: bool, rounds: int, closure: Reached | None) -> Reached:
    """Return a position as it is met after so many rounds; from the zero again where the way only goes back."""
    if closure is None or not rounds:
        return first_met
    if closing and rounds == 1 and closure.target == first_met.target + 1:
        return closure
    again = way.again(first_met, rounds) or first_met
    number = again.position + way.divisions.closing_number - way.divisions.numbers[0]
    return again._replace(position=number) if closing else again


def _row(
    plan: Plan,
    index: int,
    before: Reached | None,
    reached: Reached,
    closing: bool,
    number: int,
    work: Pass,
    goes_back: bool,
) -> Row:
    move = plan.way.move(before, reached)
    passes_zero = _passes_zero(before, reached, move)
    return Row(index, reached, move, passes_zero, ring_check(plan, reached), closing, number, work, goes_back)


def _passes_zero(before: Reached | None, reached: Reached, move: Setting) -> bool:
    if before is None or reached.setting.turns is None or before.setting.turns is None or move.turns is None:
        return False
    return reached.setting.turns - before.setting.turns > move.turns
