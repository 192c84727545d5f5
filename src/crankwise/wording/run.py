"""What the operator is told at the machine: one row of the run, in words that cannot be misread."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from crankwise.exact.number import as_text
from crankwise.part.divisions import AngleList
from crankwise.part.part import Part, Work
from crankwise.plan.passes import PassName
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.run.guide import DirectionTest
from crankwise.ways.way import Setting
from crankwise.wording import along
from crankwise.wording.figures import decimal
from crankwise.wording.settings import between_numerals, reading_text
from crankwise.wording.sheet import WORK_NOUNS
from crankwise.wording.sheet_cells import in_its_notch, place_text, ring_check_text, row_label

WORK_THERE: dict[Work, str] = {
    "space": "cut the space",
    "line": "scribe the line",
    "hole": "drill the hole",
    "flat": "mill the flat",
    "position": "do the work",
}
WORK_IN_PASS: dict[PassName, str] = {
    "work": "{}.",
    "trace": "a faint mark only.",
    "rough": "rough: {}.",
    "finish": "finish: {}.",
}
CLOSING: dict[Work, str] = {
    "space": "Machine off: the cutter must fall into the first space and touch neither flank.",
    "line": "Motor isolated: the tool must fall in the first line.",
    "hole": "Machine off: the drill must fall into the first hole.",
    "flat": "Machine off: the cutter must lie flush on the first flat.",
    "position": "Machine off: this must be the first position again.",
}
_RHYTHM: tuple[str, ...] = ("unlock", "turn", "come up", "lock", "work", "tap Done")
_RHYTHM_GEARED: tuple[str, ...] = (
    "clear",
    "table back",
    "move pin",
    "table up",
    "cut",
    "tap Done",
)
"""Of work that turns with the table: the spindle stays free, and the table takes up the backlash of its gears."""
MINUS = "\N{MINUS SIGN}"
OVERSHOOT = "Gone past? Back half a turn or more, and up again."
OVERSHOOT_BY_HAND = "Gone past? Well back, and up again the same way."
WITNESS_MARKS = (
    "Scribe or pencil a witness mark across every joint that could slip: wheel and spindle, blank and "
    "arbor, dial and shaft, head and table. A slip under a quarter of a degree cannot be seen on a ring."
)
TRACE_FIRST = (
    "Go once round with a faint mark at every position and count the marks, before the first real cut."
)


def rhythm(part: Part) -> tuple[str, ...]:
    """Return what is done at every position, in its order."""
    return _RHYTHM_GEARED if part.is_geared else _RHYTHM


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure to show large: what leads up to it, the figure, and what it counts."""

    lead: str
    value: str
    unit: str


@dataclass(frozen=True, slots=True)
class Told:
    """All that is told at one row.

    position    its number; "0 = 127" on the closing row
    turns       whole turns to make first; None where nothing is cranked in turns
    come_up_to  the reading, holes or notches to end on
    detail      the two numerals it lies between, or the hole it ends in
    ring_check  what the ring must then show; empty without a ring
    since_zero  the setting counted from the start
    work        what is done there, as an order
    """

    position: str
    turns: Figure | None
    come_up_to: Figure
    detail: str
    ring_check: str
    since_zero: str
    work: str


def trace_text(plan: Plan) -> str:
    """Return what a trace pass is, before the first real cut: once round, or once along."""
    return along.TRACE if plan.part.is_straight else TRACE_FIRST


def told(plan: Plan, row: Row) -> Told:
    """Return what is told at one row of a run."""
    setting = row.reached.setting
    at_zero = row.index == 0 and row.reached.achieved == 0
    turns = None if at_zero else _turns_to_make(row.move)
    return Told(
        position=row_label(plan.part, row),
        turns=turns,
        come_up_to=_come_up_to(plan, row, at_zero),
        detail=_detail(plan, row),
        ring_check=ring_check_text(plan.head, row.ring_check),
        since_zero="zero" if row.reached.achieved == 0 else place_text(in_its_notch(plan.way, setting)),
        work=_work(plan, row),
    )


def _turns_to_make(move: Setting) -> Figure | None:
    """Whole turns to make first; back where the way goes back, which takes up the slack afresh."""
    if move.turns is None or _by_notches_alone(move):
        return None
    unit = f"whole turn{'' if abs(move.turns) == 1 else 's'}"
    if move.turns < 0:
        return Figure("Turn back", str(-move.turns), f"{unit} back first")
    return Figure("Turn", str(move.turns), unit)


def _by_notches_alone(move: Setting) -> bool:
    """Whether the wheel moves and the worm, which has one too, stands still."""
    return bool(move.notches) and not (move.turns or move.reading or any(move.holes or ()))


def _work(plan: Plan, row: Row) -> str:
    if row.closing:
        return CLOSING[plan.part.work]
    return WORK_IN_PASS[row.work.name].format(WORK_THERE[plan.part.work]).capitalize()


def next_text(plan: Plan, row: Row) -> str:
    """Return the row after this one in one short phrase."""
    move = told(plan, row)
    figure, turns = move.come_up_to, move.turns
    position = f"{move.position}: first go back, then" if row.goes_back else f"{move.position}:"
    if turns is None:
        return f"{position} {figure.lead.lower()} {figure.value} {figure.unit}"
    if turns.value == "0":
        return f"{position} {figure.lead.removeprefix('then ')} {figure.value}"
    return f"{position} {turns.value} {turns.unit}, {figure.lead} {figure.value}"


def _come_up_to(plan: Plan, row: Row, at_zero: bool) -> Figure:
    setting, move = row.reached.setting, row.move
    on_ring = "on the ring" if setting.turns is None else "on the dial"
    if at_zero:
        return Figure("Start at", "0", _zero_of(setting, on_ring))
    if _by_notches_alone(move):
        return _notches_to_move(plan.way.setup.get("wheel"), move)
    circle = setting.circle or plan.way.setup.get("circle", "same")
    if setting.holes is not None and (setting.circle or setting.reading is not None):
        return Figure("then to hole", str(setting.holes[0]), f"of the {circle} circle")
    if move.holes is not None:
        return _holes_to_move(plan.way.setup.get("circles"), circle, move.holes)
    if setting.reading is not None and setting.turns is not None:
        # Where the zero is the reading itself, "past 0" would send the crank once round too far.
        lead = "then past 0, come up to" if row.passes_zero and setting.reading else "then come up to"
        return Figure(lead, reading_text(setting.reading), on_ring)
    if setting.reading is not None:
        sign = "°" if plan.head.ring and plan.head.ring.full_circle == 360 else ""
        return Figure("Come up to", reading_text(setting.reading) + sign, on_ring)
    if setting.steps is not None:
        return Figure("Send the drive to", str(setting.steps), "steps from the start")
    return _notches_to_move(plan.way.setup.get("wheel"), move)


def _zero_of(setting: Setting, on_scale: str) -> str:
    if setting.reading is not None:
        return on_scale
    if setting.steps is not None:
        return "steps"
    return "the first hole" if setting.holes else "the first notch"


def _notches_to_move(wheel: object, move: Setting) -> Figure:
    count, second = move.notches or 0, move.second_notches
    if second is not None:
        return Figure(
            "Move on by", _two_moves(count, second), "notches of the first wheel, then of the second"
        )
    which = f" of the {wheel}" if wheel else ""
    return Figure("Move on by", str(count), f"notch{'' if count == 1 else 'es'}{which}")


def _two_moves(first: int, second: int) -> str:
    return f"{MINUS if first < 0 else ''}{abs(first)} {'+' if second >= 0 else MINUS} {abs(second)}"


def _holes_to_move(circles: object, circle: object, holes: tuple[int, ...]) -> Figure:
    if isinstance(circles, tuple) and len(holes) == 2:
        how = "with" if holes[1] >= 0 else "against"
        unit = f"holes: crank on {circles[0]}, plate {how} it on {circles[1]}"
        return Figure("then on by", _two_moves(*holes), unit)
    return Figure("then on by", str(holes[0]), f"hole{'' if holes == (1,) else 's'} on the {circle} circle")


def _detail(plan: Plan, row: Row) -> str:
    setting = in_its_notch(plan.way, row.reached.setting)
    cranked = setting.turns is not None
    pieces = []
    if cranked and setting.notches is not None:
        pieces.append(f"detent in notch {setting.notches}")
    if setting.holes is not None:
        holes = " and ".join(str(hole).replace("-", MINUS) for hole in setting.holes)
        circle = f" of the {setting.circle} circle" if setting.circle else ""
        pieces.append(
            f"ends in hole{'' if len(setting.holes) == 1 else 's'} {holes}{circle} (the first is 0)"
        )
        if setting.reading is not None:
            pieces.append(f"dial to 0 there, then on by {reading_text(setting.reading)} marks")
    elif cranked and setting.reading is not None:
        pieces.append(between_numerals(plan.head, setting.reading))
    return "; ".join(pieces)


def direction_question(test: DirectionTest) -> str:
    """Return the direction test as a question about the machine; what to do where nothing can be read."""
    turned = f"Turn the {test.by} clockwise, as you stand at it."
    if test.watched == "work":
        return f"{turned} Watch which way the work goes, and mark it with an arrow."
    return f"{turned} Does the number under the index line of the {test.watched} grow?"


def disagreement(test: DirectionTest) -> str:
    """Return what it means that the answer goes against the head's description."""
    said = "grow" if test.expected else "fall"
    return (
        f"The description of this head says that a clockwise turn makes the numbers of the {test.watched} "
        f"{said}; you saw the opposite. Try it once more. If you are right, go on, and mend the description: "
        "the ring checks follow it and may run the wrong way."
    )


def rows_text(rows: Sequence[Row]) -> str:
    """Return what the rows of a run are: 127 positions and the closing row; 254 in 2 passes and 2 closing rows."""
    closing = sum(row.closing for row in rows)
    count, passes = len(rows) - closing, rows[-1].pass_number + 1
    positions = f"{count} position{'' if count == 1 else 's'}"
    if passes > 1:
        positions = f"{count} in {passes} passes"
    if not closing:
        return positions
    return f"{positions} and {'the closing row' if closing == 1 else f'{closing} closing rows'}"


def finished_text(plan: Plan, rows: int, went_round: bool) -> str:
    """Return the last word of a finished run."""
    count = rows - 1 if went_round else rows
    done = f"All {count} {WORK_NOUNS[plan.part.work][1]} are done"
    if count == 1:
        done = "The one position is done"
    return f"{done}, and the last move came back to the first." if went_round else f"{done}."


def asked_text(plan: Plan) -> str:
    """Return what the job asks, in one phrase: 149 lines, 12 of 60 holes, 5 angles."""
    divisions = plan.part.divisions
    name = WORK_NOUNS[plan.part.work][1]
    if isinstance(divisions, AngleList):
        return f"{len(divisions)} {name} at angles of your own"
    if len(divisions) != divisions.count:
        return f"{len(divisions)} of {divisions.count} {name}"
    return f"{divisions.count} {name}"


def diameter_text(rim_mm: Fraction, inch_first: bool) -> str:
    """Return a rim's diameter in both units: 200 mm (7.874 in)."""
    metric, inch = f"{_trimmed(rim_mm)} mm", f"{_trimmed(rim_mm * 5 / 127)} in"
    return f"{inch} ({metric})" if inch_first else f"{metric} ({inch})"


def _trimmed(value: Fraction) -> str:
    exact = as_text(value)
    return exact if "/" not in exact and len(exact.partition(".")[2]) <= 3 else decimal(value, 3)
