"""Checks, promise, passes, pace and two journals in words."""

from collections.abc import Sequence

from crankwise.plan.passes import Pass, PassName
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.run.check_points import (
    LEAST_ROWS_TO_RETURN,
    CheckPoint,
    Checks,
    Promise,
    Return,
    WitnessJoint,
)
from crankwise.run.evidence import MEASURED, RING, STEP, Evidence
from crankwise.run.merge import Conflict, Reason
from crankwise.run.pace import Pace
from crankwise.run.proof import Slipup
from crankwise.ways.constant_move import ConstantMove
from crankwise.wording import along
from crankwise.wording.card import length_text
from crankwise.wording.figures import decimal
from crankwise.wording.run_first import first_name
from crankwise.wording.run_where import angle_text, size_text
from crankwise.wording.settings import reading_text
from crankwise.wording.sheet_cells import row_label

PASSES: dict[PassName, str] = {
    "work": "",
    "trace": "Trace",
    "rough": "Roughing",
    "finish": "Finishing",
}
ONCE_ROUND = "There and on again is once round each time, {turns} turns of the crank."
NOT_HALF_WAY = (
    "Half way it is not asked: there and on again would be {count} more moves, and each may be lost."
)
LAST_READING = (
    "The last reading is asked before position {position}: after it no scale shows for sure what goes wrong, so count "
    "what is left, and look at the last one well."
)
HIDDEN_TILL_THEN = "So a slip too small for every scale may stay hidden until the end of the pass."

UNPROVED: dict[Slipup, str] = {
    "one short": "a lost move",
    "one over": "a move made twice",
    "turn short": "a whole turn too few",
    "turn over": "a whole turn too many",
}
WITNESS: dict[WitnessJoint, str] = {
    "wheel and spindle": "across the wheel and its spindle",
    "work and arbor": "across the work and its arbor",
    "dial and shaft": "across the dial and its shaft",
    "head and table": "across the head and the table",
    "work and table": "across the work and the table",
}
REASONS: dict[Reason, str] = {
    "direction": "The test of the direction came out one way here and the other way on the phone.",
    "zero": "What the ring shows at zero was read one way here and another way on the phone.",
    "order": "The phone went on from another row than the one where this run stands.",
    "reopened": "A row was done on one side, and reopened, passed over or done otherwise on the other.",
    "judged": "A row is bad on one side and good on the other.",
    "slipped": "A slip was written down on one side while the other went on without it.",
    "read": "The ring was read at one row on both sides, and not the same.",
    "returned": "The tool met the first line on one side and not on the other, or not by as much.",
    "undone": "The phone took back what this run does not hold.",
}


def pass_text(one: Pass, number: int, of: int) -> str:
    """Return which pass a row belongs to: Roughing, pass 1 of 2, 1.5 mm deep; long lines, pass 1 of 3.

    >>> pass_text(Pass(each=10, but_not=0), 0, 3), pass_text(Pass(each=5, but_not=10, spread=3), 1, 3)
    ('Every 10th, pass 1 of 3', 'Every 5th but not every 10th, 3 circuits, pass 2 of 3')
    """
    pieces = [PASSES[one.name]] if PASSES[one.name] else []
    if one.line_class:
        pieces.append(f"{one.line_class} lines")
    if one.each > 1:
        pieces.append(f"every {ordinal(one.each)}")
    if one.but_not:
        left_out = f"every {ordinal(one.but_not)}"
        pieces.append(f"all but {left_out}" if one.each == 1 else f"{pieces.pop()} but not {left_out}")
    if one.spread > 1:
        pieces.append(f"{one.spread} circuits")
    if of > 1:
        pieces.append(f"pass {number + 1} of {of}")
    if one.depth_mm is not None:
        pieces.append(f"{decimal(one.depth_mm, 2)} mm deep")
    told = ", ".join(pieces)
    return told[:1].upper() + told[1:]


def ordinal(number: int) -> str:
    """Return 10th, 22nd, 3rd.

    >>> [ordinal(number) for number in (1, 2, 3, 4, 11, 12, 13, 21, 22, 111)]
    ['1st', '2nd', '3rd', '4th', '11th', '12th', '13th', '21st', '22nd', '111th']
    """
    if number % 100 in (11, 12, 13):
        return f"{number}th"
    return f"{number}{('th', 'st', 'nd', 'rd')[number % 10] if number % 10 < 4 else 'th'}"


def check_question(point: CheckPoint, evidence: Evidence) -> tuple[str, ...]:
    """Return what to read at a check before the work, and what it should show, a scale each."""
    shown = evidence.shown[point.row]
    lines = []
    for name in point.asks:
        value = shown.get(name)
        if value is not None:
            reads = decimal(value, 2) if name == RING else reading_text(value)
            read = "drive's count" if name == STEP else name
            lines.append(f"Read the {read} before you work: it should show {reads}.")
    if MEASURED in shown:
        lines.append(
            f"In doubt of the turns? From the first space it should be {length_text(shown[MEASURED])}."
        )
    return tuple(lines)


def checks_text(plan: Plan, found: Checks, rows: tuple[Row, ...]) -> tuple[str, ...]:
    """Return what the checks of a run promise, the returns to the first line or space included."""
    asked = returns_text(plan, found.returns, rows, "you are asked to bring")
    after = last_reading_text(plan, found.promise, rows)
    cost = _cost_of_returns(plan, found.returns, rows)
    return (*promise_text(found.promise), *filter(None, [after, asked, cost]))


def last_reading_text(plan: Plan, promise: Promise, rows: Sequence[Row]) -> str:
    """Return from where on no reading is asked any more; empty where the last row has one, or no row."""
    last = promise.watched_to
    if promise.positions is None or last is None or last >= len(rows) - 1:
        return ""
    return LAST_READING.format(position=row_label(plan.part, rows[last]))


def _cost_of_returns(plan: Plan, returns: Sequence[Return], rows: Sequence[Row]) -> str:
    """Return what going back on the way costs, or why it is not asked; empty where it costs next to nothing."""
    way, ratio = plan.way, plan.head.ratio
    if isinstance(way, ConstantMove):
        count = len(way.divisions)
        if count < LEAST_ROWS_TO_RETURN:
            return ""
        return f"{NOT_HALF_WAY.format(count=count)} {HIDDEN_TILL_THEN}"
    on_the_way = any(not rows[back.row].closing for back in returns)
    cranked = rows[0].reached.setting.turns is not None and rows[0].reached.setting.notches is None
    if not on_the_way or not cranked or ratio is None or way.closure() is None:
        return ""
    return ONCE_ROUND.format(turns=decimal(ratio, 2).removesuffix(".00"))


def promise_text(promise: Promise) -> tuple[str, ...]:
    """Return what the questions for readings promise, and what no scale of this head can show."""
    lines = []
    if promise.positions is not None:
        count = promise.positions
        lines.append(
            "A lost or doubled move that the scales can show stays hidden for "
            f"{count} position{'' if count == 1 else 's'} at most."
        )
    if promise.smallest_slip is not None:
        lines.append(f"A slip of more than {angle_text(promise.smallest_slip)} shows on the ring.")
    if promise.unproved:
        told = ", ".join(UNPROVED[slip] for slip in promise.unproved)
        lines.append(f"No scale that is read here can show {told}: count aloud, and mark each position.")
    return tuple(lines)


def returns_text(plan: Plan, returns: Sequence[Return], rows: Sequence[Row], bring: str = "bring") -> str:
    """Return when the run goes back to the first line or space, and what shows there; empty where it never does."""
    if not returns:
        return ""
    smallest = returns[0].smallest
    seen = "A slip" if smallest is None else f"A slip of more than {size_text(plan, smallest)}"
    back = f"{bring} the tool to the first {first_name(plan.part)}, machine off."
    return f"{_when(plan, returns, rows)} {back} {seen} shows there, even one too small for every scale."


def _when(plan: Plan, returns: Sequence[Return], rows: Sequence[Row]) -> str:
    if not rows[-1].pass_number:
        labels = [row_label(plan.part, rows[back.row]) for back in returns]
        return f"Before position{'s' if labels[1:] else ''} {' and '.join(labels)}"
    times = []
    if any(not rows[back.row].closing for back in returns):
        times.append(f"half way through each pass of {LEAST_ROWS_TO_RETURN} positions or more")
    if any(rows[back.row].closing for back in returns):
        times.append("where a pass comes round to its first")
    told = ", and ".join(times)
    return f"{told[0].upper()}{told[1:]}"


def return_text(back: Return, plan: Plan) -> str:
    """Return why and how to go back to the first line or space."""
    if plan.part.is_straight:
        return along.RETURN
    what = {"space": "space", "line": "line", "hole": "hole", "flat": "flat", "position": "position"}[
        plan.part.work
    ]
    seen = "" if back.smallest is None else f" A slip of more than {angle_text(back.smallest)} shows there."
    goes = "Go back to" if plan.way.closure() is None else "Go round to"
    return (
        f"{goes} the first {what}, machine off, and bring the tool to it: it must meet it.{seen} "
        "The ring is too coarse for a small slip."
    )


def witness_text(joints: tuple[WitnessJoint, ...]) -> str:
    """Return where to scribe witness marks before the start."""
    return f"Before you start, scribe or pencil a mark {', '.join(WITNESS[joint] for joint in joints)}."


def pace_text(pace: Pace | None) -> str:
    """Return the time left at the operator's own pace, told no nearer than it is known.

    >>> pace_text(Pace(40, 3700.0)), pace_text(Pace(40, 80.0)), pace_text(None)
    ('about 1 h 2 min left', 'about 2 min left', '')
    """
    if pace is None:
        return ""
    minutes = max(1, -(-int(pace.left) // 60))
    hours, rest = divmod(minutes, 60)
    told = f"{hours} h {rest} min" if hours and rest else f"{hours} h" if hours else f"{rest} min"
    return f"about {told} left"


def conflict_text(conflict: Conflict, rows: tuple[Row, ...]) -> str:
    """Return what two journals do not agree on, and how much of the phone's hangs on it."""
    at = "" if conflict.row is None else f" It is about position {rows[conflict.row].reached.position}."
    steps = len(conflict.theirs)
    held = f" {steps} entr{'y' if steps == 1 else 'ies'} of the phone {'is' if steps == 1 else 'are'} not taken in."
    return f"{REASONS[conflict.reason]}{at}{held} Look at the work, and say which is right."
