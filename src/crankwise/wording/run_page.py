"""The words of the run page beyond the row itself: what to do at a check, after a slip, after a break."""

from collections.abc import Sequence
from fractions import Fraction

from crankwise.exact.number import as_text
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.run.check_points import Why
from crankwise.run.entry import Entry, Joint
from crankwise.run.evidence import MEASURED, RING, STEP, Evidence, Readable
from crankwise.run.in_hand import InHand
from crankwise.wording.figures import decimal
from crankwise.wording.run_first import return_entry_text
from crankwise.wording.run_where import angle_text, listed_text, size_text
from crankwise.wording.settings import reading_text

WHY_HERE: dict[Why, str] = {
    "end": "Asked here because it is the end of the pass.",
    "quarter": "Asked here because it is a quarter of the circle.",
    "numeral": "Asked here because a numeral is stamped next, and cannot be unstamped.",
    "on a numeral": "Asked here because the reading is on a numeral.",
    "on a graduation": "Asked here because the ring stands on a line.",
    "distance": "Asked here so that nothing stays hidden for long.",
}
JOINTS: dict[Joint, str] = {
    "spindle": "the wheel or the ring on its spindle",
    "work": "the work on its arbor",
    "dial": "the dial or the plate on its shaft",
}
JOINTS_OF_A_SLIDE: dict[Joint, str] = {
    "work": "the work on the table",
    "dial": "the dial on its shaft",
}
OVERSHOT = (
    "Gone past: turn back half a turn or more, to take up the slack, and come up again {turn} to {reading}."
)
OVERSHOT_BY_HAND = "Gone past: go well back, and come up again {turn} to {reading}."
CAME_BACK = "Passed over earlier, and come back to now."
GO_BACK_FIRST = "First go back past the zero, and come up to it again: this move counts from there."
MOVES_BACK_FIRST = (
    "First make the move the other way {moves} times, which goes past it; then this move once, the usual way."
)
FROM_FIRST = "Counted from the first {first}, where the tool was just brought."
REOPENED = (
    "Reopened: the machine may stand there already, or further on. Go by the setting since zero, {since_zero}, and "
    "not by the move."
)
FIRST_THE_CHECK = "First the check"
RESUME = (
    "Never trust memory after a break. Read every scale, go back, come up again, and compare: the machine was left at "
    "position {position}."
)
NOT_LEFT = "Nothing was done yet: the machine stands at its zero."


def joints_of(plan: Plan) -> dict[Joint, str]:
    """Return what can have slipped, by its name in the journal."""
    return JOINTS_OF_A_SLIDE if plan.part.is_straight else JOINTS


def repeat_text(now: InHand) -> str:
    """Return how often the move is made, where it is more than once, or what is gone back first; empty else."""
    if now.back:
        return MOVES_BACK_FIRST.format(moves=now.back)
    if now.row.goes_back:
        return GO_BACK_FIRST
    if now.moves <= 1:
        return ""
    return f"Make this move {now.moves} times: no work is done between."


def shows_text(scale: str, value: Fraction) -> str:
    """Return what a scale shows, as it is read."""
    return decimal(value, 2) if scale == RING else reading_text(value)


def left_at(evidence: Evidence, row: int) -> str:
    """Return what every scale shows at the row where the machine was left: dial 33.5, ring 252.43."""
    shown = evidence.shown[row]
    return ", ".join(
        f"{scale.name} {shows_text(scale.name, shown[scale.name])}"
        for scale in evidence.scales
        if scale.name in shown
    )


def scale_asks(scale: Readable) -> str:
    """Return what a scale is asked for by."""
    if scale.name == MEASURED:
        return "From the first space it is"
    return "The drive's count shows" if scale.name == STEP else f"The {scale.name} shows"


def scale_hint(scale: Readable) -> str:
    """Return how near a scale is read, and in what."""
    if scale.name == MEASURED:
        return (
            "Machine off: from the middle of the first space to where the cutter stands, by rule or callipers; bare in "
            f"mm, or as 3 1/2in; to {as_text(2 * scale.within)} mm."
        )
    if scale.name == STEP:
        return "What the drive shows, counted from the start: a whole number."
    if not scale.within:
        against = f"; counted against, down to {scale.least}" if scale.least else ""
        return f"Counted: a whole number from 0 to {scale.full - 1}{against}."
    return f"From 0 to below {scale.full}; read to {as_text(2 * scale.within)}."


def worse_off(off: Fraction) -> str:
    """Return how far a ring reading is off, and which way."""
    return f"The ring stands {angle_text(off)} {'ahead of' if off > 0 else 'behind'} what it should show."


def entry_text(entry: Entry, rows: Sequence[Row], plan: Plan) -> str:
    """Return one line of the journal in words; what a person wrote stands as it was written."""
    number = "" if entry.row is None else str(rows[entry.row].reached.position)
    at = f"Position {number}: " if number else ""
    note = f": {entry.note}" if entry.note else ""
    match entry.kind:
        case "began":
            return "Begun; the direction was tested."
        case "done":
            return f"{at}done."
        case "back":
            return f"{at}reopened."
        case "skipped":
            return f"{at}passed over, to come back to."
        case "bad":
            return f"{at}bad{note}"
        case "good":
            return f"{at}looked at, and good{note}"
        case "paused":
            return "Paused."
        case "resumed":
            return "Gone on."
        case "overshot":
            return f"{at}gone past, and come up to again."
        case "ring":
            return f"{at}the ring showed {decimal(entry.reading or Fraction(0), 2)}."
        case "returned":
            return return_entry_text(plan, entry, number)
        case "slipped":
            angle = entry.angle or Fraction(0)
            where = (JOINTS | joints_of(plan))[entry.joint] if entry.joint else "something"
            side = "ahead" if angle > 0 else "behind"
            far = size_text(plan, angle)
            return f"From position {number} on: {where} has slipped, and the work stands {far} {side}."
        case "undone":
            return "Something written before was taken back."
        case _:
            return f"{at}{entry.note or ''}"


def bring_text(row: int, at_row: int, rows: Sequence[Row]) -> str:
    """Return what it takes for the run to stand at the row where the machine stands."""
    number = rows[row].reached.position
    if row == at_row + 1:
        return (
            f"If position {rows[at_row].reached.position} is done, tick it: the run then stands at {number}."
        )
    if row > at_row:
        span, count = listed_text(range(at_row, row), rows)
        return f"If positions {span} are done{count}, tick them: the run then stands at {number}. Look at each first."
    return (
        f"The run is further on than the machine. Come up to the position in hand; or reopen those from {number} on, "
        "if they are not done."
    )
