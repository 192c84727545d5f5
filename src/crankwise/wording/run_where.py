"""Where am I, in words: which position, how surely, what has slipped, what to do now."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from crankwise.exact.angle import ARCSECONDS
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.run.entry import Joint
from crankwise.run.evidence import DIAL, RING
from crankwise.run.set_on import SetOn, set_on
from crankwise.run.slips import OffARow, Slip
from crankwise.run.weighing import Misread
from crankwise.run.where_am_i import SLIP_WORTH_TELLING, Beside, Candidate, WhereAmI
from crankwise.wording.along import place_text
from crankwise.wording.angle import degrees_minutes_seconds
from crankwise.wording.figures import decimal
from crankwise.wording.settings import reading_text

STOP = "Do not move the crank. Read every scale once more, and write the readings down."
STOP_THE_SLIDE = "Do not move the slide. Read its dial once more, and write down what it shows."
RE_ANCHOR = (
    "Bring the tool by hand, machine off, into the last good line or space. If it is off as said here, "
    "take this in as an offset for every position from now on; trace the next one faintly and look before cutting."
)
START_OVER = (
    "Or set up afresh: bring the tool into the first line or space, set the scales to zero, and start over."
)
PUT_BACK: dict[Joint, str] = {
    "spindle": (
        "Do not cut. Machine off, set the last good position again, and bring the tool to its line or space. If it "
        "meets it, only the ring has moved: set the ring back. If it is off as said here, hold the crank still, loosen "
        "what has slipped, turn the work until the tool meets it, and make it fast: the ring must then show what is "
        "told for that position."
    ),
    "dial": (
        "Do not cut. If it shows the same when read again: machine off, crank held still, set back what has slipped "
        "until it shows {shows}, and make it fast. Then set the last good position again: the tool must meet its line "
        "or space."
    ),
}
"""What to do about a slip with no workshop in reach: made good at the machine, every setting holds as it is told."""
IF_AGAIN = "If all shows the same once more, take it that this has slipped."
OR_AT_THE_WORKSHOP = (
    "If it cannot be put back, stop here: the workshop takes a slip in as an offset for every position from now on, "
    "and gives a fresh card. Write this down, and bring the journal home."
)
READ_THE_TURN = (
    "What was read does not show which turn of the crank this is: it holds if the whole turns were right."
)
MEASURE_THE_TURN = (
    "What was read does not show which turn of the screw this is: it holds if the whole turns were right. Measure from "
    "the first space to be sure: {places}."
)
RE_READ = "Read it again between its two numerals before you go on."
COUNT_AGAIN = "Count it again before you go on."
LOST_STEPS = ", or the drive has lost steps"
SET_BY: dict[SetOn, str] = {
    "holes": "The plate has turned, or the holes were miscounted: count them again first",
    "steps": "The drive does not count from this start, or was misread: look again first",
}
SET_BY_A_DIAL = "The dial has slipped on its shaft, or was misread: read it again first"
"""What has slipped where the ring agrees, by what is set."""


def angle_text(turns: Fraction) -> str:
    """Return an angle both ways, its sign left to the words around it: 0.31 degrees (0° 18' 36.0")."""
    return f"{decimal(abs(turns) * 360, 2)} degrees ({degrees_minutes_seconds(abs(turns))})"


def size_text(plan: Plan, turns: Fraction) -> str:
    """Return how far something is off: an angle on a head, a length along a slide; its sign left to the words."""
    return place_text(abs(turns)) if plan.part.is_straight else angle_text(turns)


def surely_text(odds: Fraction) -> str:
    """Return odds as a share of a hundred that never says certain, nor impossible.

    >>> surely_text(Fraction(99995, 100000)), surely_text(Fraction(1, 3)), surely_text(Fraction(1, 5000))
    ('over 99 in 100', '33 in 100', 'under 1 in 100')
    """
    if odds > Fraction(99, 100):
        return "over 99 in 100"
    if odds < Fraction(1, 100):
        return "under 1 in 100"
    return f"{decimal(odds * 100, 0)} in 100"


def where_text(found: WhereAmI, rows: Sequence[Row], along_a_slide: bool = False) -> tuple[str, ...]:
    """Return the answer in sentences, the plainest first.

    rows           the schedule of the run
    along_a_slide  whether the work lies along a slide, where any position can be measured from the first
    """
    match found.verdict:
        case "here":
            said = [f"You are at position {_number(rows, found.row)}."]
        case "misread":
            misread = found.candidates[0].misread
            said = [f"You are at position {_number(rows, found.row)}, if one reading was wrong."]
            said += [f"{misread_text(one)} {again_text(one)}" for one in misread]
        case "off a row" if found.off_a_row:
            said = [off_a_row_text(found.off_a_row, rows, along_a_slide)]
        case "slipped":
            said = [
                slip_text(found.slips[0], rows),
                suspect_text(found.slips[0], rows),
                RE_ANCHOR,
                START_OVER,
            ]
        case _:
            said = _undecided(found, rows, along_a_slide)
    if along_a_slide and not found.turn_shown and found.candidates:
        told = [
            f"position {_number(rows, one.row)} is {_from_the_first(rows, one.row)}" for one in _first(found)
        ]
        said.append(MEASURE_THE_TURN.format(places=", ".join(told)))
    elif not found.turn_shown and found.row is not None:
        said.append(READ_THE_TURN)
    return tuple(line for line in said if line)


def _undecided(found: WhereAmI, rows: Sequence[Row], along_a_slide: bool) -> list[str]:
    lines = [candidate_text(candidate, rows) for candidate in found.candidates[:MOST_TOLD]]
    more = found.candidates[MOST_TOLD:]
    if more:
        together = sum((one.odds for one in more), Fraction(0))
        lines.append(f"And {len(more)} more: {surely_text(together)} for all of them.")
    off = found.off_a_row
    off_told = off is not None and off.odds >= SLIP_WORTH_TELLING
    if off and off_told:
        lines.append(perhaps_off_a_row_text(off, rows, along_a_slide))
    lines += [slip_text(slip, rows) for slip in found.slips[:MOST_TOLD]]
    told = [one.odds for one in found.candidates] + [slip.odds for slip in found.slips[:MOST_TOLD]]
    if off and off_told:
        told.append(off.odds)
    rest = 1 - sum(told, Fraction(0))
    if rest >= SLIP_WORTH_TELLING:
        lines.append(rest_text(rest, off_told))
    lines += [beside_text(one, rows) for one in found.beside]
    if found.none_agrees:
        return ["No position agrees with what was read.", STOP_THE_SLIDE if along_a_slide else STOP, *lines]
    return ["These readings do not decide it.", *lines, "Read one more scale, or read these more nearly."]


REST_BETWEEN = "on the way between positions, or at one with something slipped or read wrongly."
REST_TOLD = "at a position with something slipped or read wrongly."
"""What is left of the odds, where standing between positions is not told by itself, and where it is."""

MOST_TOLD = 6
"""Candidates told by name; more would not be read at the machine."""


def _first(found: WhereAmI) -> Sequence[Candidate]:
    """The position that it surely is; else those that are told by name."""
    return found.candidates[:MOST_TOLD] if found.row is None else found.candidates[:1]


def _from_the_first(rows: Sequence[Row], row: int) -> str:
    first = min(rows, key=lambda one: one.reached.target).reached.target
    return place_text(rows[row].reached.target - first)


def candidate_text(candidate: Candidate, rows: Sequence[Row]) -> str:
    """Return one position that agrees, and how surely."""
    told = f"Position {_number(rows, candidate.row)}: {surely_text(candidate.odds)}"
    misread = " ".join(misread_text(one) for one in candidate.misread)
    return f"{told}, if misread. {misread}" if misread else f"{told}."


def rest_text(rest: Fraction, off_told: bool) -> str:
    """Return what the odds that are told leave over, so that all of them come to a hundred.

    off_told  whether standing between positions has been told
    """
    return f"The rest, {surely_text(rest)}: {REST_TOLD if off_told else REST_BETWEEN}"


def beside_text(beside: Beside, rows: Sequence[Row]) -> str:
    """Return a position near the one in hand, and what to read again to see whether it is that."""
    return (
        f"Position {_number(rows, beside.row)}, near where the journal stands, shows {reading_text(beside.shows)} on "
        "the dial, about a mark from what was read: it is not among these. Read the dial again."
    )


def misread_text(misread: Misread) -> str:
    """Return what would have been read wrongly, and what it should have been."""
    shows = decimal(misread.shows, 2) if misread.scale == RING else reading_text(misread.shows)
    how = "by one numbered interval" if misread.how == "interval" else "backwards, from the wrong numeral"
    if not _is_by_eye(misread):
        how = "by one in counting"
    return f"The {misread.scale} would show {shows}, and was read wrongly {how}."


def again_text(misread: Misread) -> str:
    """Return how what was read wrongly is made sure of."""
    return RE_READ if _is_by_eye(misread) else COUNT_AGAIN


def _is_by_eye(misread: Misread) -> bool:
    return misread.scale.startswith((RING, DIAL))


def off_a_row_text(off: OffARow, rows: Sequence[Row], along_a_slide: bool = False) -> str:
    """Return where the machine stands between positions."""
    back = "Go back past it, half a turn or more, and come up" if off.ahead > 0 else "Go on"
    return (
        f"You are {_off_text(off, rows, along_a_slide)}, at no position. Nothing has slipped: the scales agree with "
        f"each other. {back} to the reading of the position you want."
    )


def perhaps_off_a_row_text(off: OffARow, rows: Sequence[Row], along_a_slide: bool = False) -> str:
    """Return where the machine may stand between positions, and how surely."""
    told = _off_text(off, rows, along_a_slide)
    return f"At no position, {told}, and nothing has slipped: {surely_text(off.odds)}."


def _off_text(off: OffARow, rows: Sequence[Row], along_a_slide: bool) -> str:
    side = "past" if off.ahead > 0 else "short of"
    far = place_text(abs(off.ahead)) if along_a_slide else angle_text(off.ahead)
    if off.turns:
        count = abs(off.turns)
        far = f"{count} whole turn{'' if count == 1 else 's'} of the {'screw' if along_a_slide else 'crank'}"
    return f"{far} {side} position {_number(rows, off.row)}"


def slip_text(slip: Slip, rows: Sequence[Row]) -> str:
    """Return what slipped, by how much, which way."""
    size = angle_text(slip.angle)
    minutes = slip.within * ARCSECONDS / 60
    near = (
        f"give or take {decimal(minutes, 0)} minutes of arc"
        if minutes >= 2
        else "to 2 minutes of arc or less"
    )
    setting = rows[slip.row].reached.setting
    by = set_on(setting)
    if slip.joint == "spindle":
        drive = LOST_STEPS if by == "steps" else ""
        side = "ahead of" if slip.angle > 0 else "behind"
        return (
            f"The setting agrees with position {_number(rows, slip.row)} and the ring does not: the work stands "
            f"{size} {side} its setting, {near}. The wheel has slipped on its spindle, or "
            f"the ring on it{drive}; {surely_text(slip.odds)}."
        )
    side = "less" if slip.angle > 0 else "more"
    what = SET_BY_A_DIAL if setting.reading is not None else SET_BY.get(by, SET_BY_A_DIAL)
    return (
        f"The ring agrees with position {_number(rows, slip.row)} and the setting does not: it shows {size} {side} "
        f"than it should. {what}; {surely_text(slip.odds)}."
    )


def suspect_text(slip: Slip, rows: Sequence[Row]) -> str:
    """Return which positions were worked since, and need looking at."""
    if not slip.suspect:
        return "Nothing was worked since the ring last agreed."
    numbers = [_number(rows, row) for row in slip.suspect]
    if len(numbers) == 1:
        return f"It slipped at position {numbers[0]} at the earliest: look at it."
    span, count = listed_text(slip.suspect, rows)
    return f"It slipped at position {numbers[0]} at the earliest: look at positions {span}{count}."


def listed_text(several: Sequence[int], rows: Sequence[Row]) -> tuple[str, str]:
    """Return the positions of two rows or more in their order, and how many where they are not all told.

    "4 to 6" and ", 3 of them"; where the work went in another order, "8, 1, 6" and nothing.
    """
    numbers = [rows[row].reached.position for row in several]
    in_turn = all(after - before == 1 for before, after in pairwise(numbers))
    if not in_turn and len(numbers) <= MOST_TOLD:
        return ", ".join(map(str, numbers)), ""
    order = "" if in_turn else " in the order worked"
    return f"{numbers[0]} to {numbers[-1]}{order}", f", {len(numbers)} of them"


def _number(rows: Sequence[Row], row: int | None) -> str:
    return "" if row is None else str(rows[row].reached.position)
