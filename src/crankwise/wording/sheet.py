"""The words at the head of a run sheet, what is done before the first cut, and what must be seen at the end."""

from collections.abc import Sequence
from fractions import Fraction

from crankwise.exact.length import INCH
from crankwise.exact.number import as_text
from crankwise.head.head import Head
from crankwise.part.divisions import EqualDivisions, EqualSteps
from crankwise.part.part import Part, Work
from crankwise.plan.plan import Plan
from crankwise.ways.way import Setting, Way
from crankwise.wording import along
from crankwise.wording.angle import decimal_degrees, degrees_minutes_seconds
from crankwise.wording.division import no_way_text, worst_error_text
from crankwise.wording.figures import at_the_rim, decimal, short
from crankwise.wording.sheet_cells import named, set_here
from crankwise.wording.ways import method_name, setup_text

WORK_NOUNS: dict[Work, tuple[str, str]] = {
    "space": ("space", "spaces"),
    "line": ("line", "lines"),
    "hole": ("hole", "holes"),
    "flat": ("flat", "flats"),
    "position": ("position", "positions"),
}
TODO: dict[Work, str] = {
    "space": "lock, cut the space",
    "line": "lock, scribe the line",
    "hole": "lock, drill the hole",
    "flat": "lock, cut the flat",
    "position": "lock, do the work",
}
_MUST_FALL: dict[Work, str] = {
    "space": "the cutter must drop into the first space and touch neither flank",
    "line": "the tool must fall in the first line",
    "hole": "the drill must fall in the first hole",
    "flat": "the cutter must just meet the first flat",
    "position": "the tool must fall in the first line or space",
}
CODE_LEADS = "to the run"
_RHYTHM = "Each line:  unlock – move – come up – lock – cut – tick. The tick comes after the cut."
_RHYTHM_OF_HOLES = (
    "Each line:  unlock – move – come up – lock – drill – tick. The tick comes after the drill."
)
_RHYTHM_GEARED = (
    "Each line:  cutter clear – table back – move the pin – table up – cut – tick. Spindle never locked."
)
READ_HERE = "read:"
CHECKS_ON_PAPER = (
    "Where a line says “read:”, read the ring before the work, and write it down: a lost or doubled move that the ring "
    "can show stays hidden for {count} position{s} at most."
)
QUARTERS_ON_PAPER = (
    "Where a line says “read:”, read the ring before the work, and write it down. On so long a list they are its "
    "quarters and its end alone: a lost or doubled move may stay hidden from one to the next. The run on the page asks "
    "oftener."
)
FILL_IN = ("Date", "Signed", "Material", "Tool")
OWN_ROUNDING = "This is the way's own rounding; the head's own error is not known until it is measured."


def rhythm_text(part: Part) -> str:
    """Return what is done at every line, in its order."""
    if part.is_geared:
        return _RHYTHM_GEARED
    return _RHYTHM_OF_HOLES if part.work == "hole" else _RHYTHM


def counted(part: Part) -> str:
    """Return how many of what: 149 lines."""
    one, many = WORK_NOUNS[part.work]
    count = len(part.divisions)
    return f"{count} {one if count == 1 else many}"


def part_text(part: Part) -> str:
    """Return the divisions in one line: 149 lines, 2°24'57.9" (2.4161°) apart, at a rim of 150 mm (5.906 in)."""
    divisions = part.divisions
    if isinstance(divisions, EqualSteps):
        return f"{counted(part)}, {along.row_text(divisions)}"
    if isinstance(divisions, EqualDivisions):
        text = f"{counted(part)}, {_both(divisions.step)} apart"
        if len(divisions) != divisions.count:
            text += f" (of {divisions.count} parts in the circle)"
        if divisions.start:
            text += f", position 0 at {_both(divisions.start)}"
    else:
        text = f"{counted(part)} at a list of angles"
    return f"{text}; rim Ø {diameter_text(part.rim_mm)}" if part.rim_mm else text


def diameter_text(rim_mm: Fraction) -> str:
    """Return a diameter in both units: 150 mm (5.906 in)."""
    return f"{short(rim_mm, 3)} mm ({decimal(rim_mm / INCH, 3)} in)"


def head_text(plan: Plan) -> str:
    """Return the head's name, its ratio, and what one turn of its crank comes to."""
    head = plan.head
    if head.slide:
        return along.slide_text(head, head.slide)
    if head.ratio is None:
        return head.name
    return f"{head.name}, ratio {as_text(head.ratio)}:1, one turn of the crank = {_both(1 / head.ratio)}"


def scales_text(plan: Plan, setting: Setting) -> str:
    """Return every scale that is set, in the order in which it is done.

    setting  any of the way's, to see what is set
    """
    told = {
        "notches": _wheels_text,
        "hole": _circles_text,
        "dial": _dial_text,
        "ring": _ring_text,
        "steps": _drive_text,
    }
    text = "; ".join(told[name](plan) for name in set_here(setting) if name in told)
    return text[:1].upper() + text[1:]


def _wheels_text(plan: Plan) -> str:
    wheels = " and ".join(f"notched wheel of {notches}" for notches in named(plan.way, "wheel"))
    return f"{wheels}; count spaces: the notch that the detent stands in is nought"


def _circles_text(plan: Plan) -> str:
    circles = named(plan.way, "circle")
    plate = next((plate for plate in plan.head.plates if set(circles) <= set(plate.circles)), None)
    counts = "" if plate is None else ", on the plate " + " ".join(map(str, plate.circles))
    which = " and ".join(f"circle of {circle} holes" for circle in circles)
    return f"{which}{counts}; count spaces: the hole that a pin stands in is nought"


def _dial_text(plan: Plan) -> str:
    dial, ratio = plan.head.dial, plan.head.ratio
    assert dial is not None
    assert ratio is not None
    places = dial.places_per_mark
    finest = "read to the mark" if places == 1 else f"read to 1/{places} of a mark"
    if dial.vernier == places:
        finest += " by its vernier"
    numbered = f", numbered every {dial.numbered_every}" if dial.numbered_every else ""
    slide = plan.head.slide
    mark = along.mark_text(slide, dial.marks) if slide else degrees_minutes_seconds(1 / (ratio * dial.marks))
    return f"dial of {dial.marks} marks{numbered}, {finest}; one mark = {mark}"


def _ring_text(plan: Plan) -> str:
    ring = plan.head.ring
    assert ring is not None
    return f"ring of {ring.graduations} graduations, read to {as_text(ring.read_to)} of one"


def _drive_text(plan: Plan) -> str:
    return (
        f"stepper drive of {plan.way.setup['steps']} steps to a turn of the {plan.way.setup['per_turn_of']}"
    )


def way_text(plan: Plan) -> str:
    """Return the method and its set-up."""
    return f"{method_name(plan.way)}: {setup_text(plan.way)}"


def worst_text(plan: Plan) -> str:
    """Return the worst error as an angle and, where there is a rim, as a length in both units."""
    rim = plan.part.rim_mm
    if plan.way.exact:
        return "none: every position is met exactly"
    if plan.part.is_straight:
        return f"{worst_error_text(plan.way)} along the slide"
    at_rim = f" = {at_the_rim(plan.way.worst_error, rim)} at the rim" if rim else ""
    return f"{worst_error_text(plan.way)} (seconds of arc){at_rim}"


def handle_word(head: Head) -> str:
    """Return what is turned: the crank of a head, the handle of a slide's screw."""
    return "handle" if head.slide else "crank"


def turn_word(plan: Plan) -> str:
    """Return the way the crank is turned all through, from the operator's side."""
    return "clockwise" if plan.head.advance_is_clockwise else "anticlockwise"


def turn_text(plan: Plan, setting: Setting) -> str:
    """Return which way to turn, the same for every line, and what is seen to grow."""
    head = plan.head
    if setting.steps is not None:
        return "The drive turns one way all through."
    if not _is_cranked(plan, setting):
        grows = ", so that the ring's numbers grow" if head.ring else ""
        return f"Turn the spindle one way all through{grows}."
    arrow = "↻" if head.advance_is_clockwise else "↺"
    watched = _watched(head)
    seen = f", the way the {watched}'s numbers grow" if watched else ""
    falls = "; the ring's numbers fall" if head.ring and not head.ring_grows else ""
    return f"{arrow} Turn the {handle_word(head)} {turn_word(plan).upper()} all through{seen}{falls}."


def backlash_text(plan: Plan, setting: Setting) -> str:
    """Return the rule that keeps the slack on one side. Source: common practice."""
    if setting.steps is not None:
        return "After any move back, send the drive well past and let it come up again from the same side."
    if not _is_cranked(plan, setting) and setting.notches is not None:
        return "Detent fully home each time, and the work brought against it from the same side."
    what = "hole for the pin" if setting.holes is not None else "reading"
    back = "at least half a turn of the crank" if plan.head.worm else "well"
    if plan.head.slide:
        back = "at least half a turn of the screw, or further where its slack is more"
    return f"Gone past the {what}? Never turn straight back to it: go back {back}, and come up again."


SAME_ZEROS = (
    "The settings are corrected: every zero must be the one that the head was measured from, the dial not set anew "
    "since, or the errors add up instead of going away"
)


def zero_text(plan: Plan, setting: Setting, on_paper: bool = True) -> str:
    """Return what zero is, and how it is set, before anything is counted.

    on_paper  whether there is a pen to write with what a ring shows that cannot be set
    """
    head, figures = plan.head, set_here(setting)
    settable, corrects = head.dial is not None and head.dial.settable, plan.way.corrects
    told = {
        "notches": "detent in a notch that you mark as 0",
        "hole": "pin in the hole that was 0 then" if corrects else "pin in a hole that you mark as 0",
        "dial": "dial set to 0" if settable and not corrects else "dial brought to 0 by the crank",
        "steps": "drive's count at the 0 of then" if corrects else "drive's count at 0",
    }
    cranked = _is_cranked(plan, setting) and "ring" not in figures
    begins = [f"{handle_word(head)} come up {turn_word(plan)}"] if cranked else []
    pieces = begins + [text for name, text in told.items() if name in figures]
    if head.ring:
        pieces.append("ring at 0")
    text = ", ".join(pieces)
    if corrects:
        text += f". {SAME_ZEROS}"
    elif on_paper and head.ring and "ring" not in figures:
        text += ". A ring that cannot be set: write what it shows here ______ and add it to each check"
    return f"{text[:1].upper()}{text[1:]}."


def before_the_first_cut(plan: Plan, setting: Setting, has_trace_pass: bool = False) -> tuple[str, ...]:
    """Return what is done and ticked before the first cut. Source: common practice.

    has_trace_pass  whether the trace is a pass of the run, with ticks of its own
    """
    watched = _watched(plan.head)
    todo = [_GEARED_TODO] if plan.part.is_geared else []
    if watched and _is_cranked(plan, setting):
        todo.append(
            f"Direction tested: {handle_word(plan.head)} turned {turn_word(plan)}, and the {watched}'s numbers grew. "
            "If they fell, stop: the head is described the wrong way round."
        )
    on_dial = ", dial and shaft" if "dial" in set_here(setting) else ""
    joints = "work and table" if plan.head.slide else "wheel and spindle, blank and arbor"
    todo.append(f"Witness marks scribed across {joints}{on_dial}: a slip will show there.")
    if has_trace_pass:
        return tuple(todo)
    over = "from the first to the last" if plan.part.is_straight else "all round"
    todo.append(
        f"Trace pass: a faint mark at every position, {over}. Counted: ________ (wanted: {counted(plan.part)})"
    )
    return tuple(todo)


_GEARED_TODO = (
    "Change gears in mesh, plate's stop out, spindle not locked; tried with the cutter clear: the work turns with the "
    "table, the right way round."
)


def _is_cranked(plan: Plan, setting: Setting) -> bool:
    """Whether the crank turns the work; a wheel alone or a drive is not cranked."""
    has_crank = plan.head.worm is not None or plan.head.slide is not None
    return has_crank and (setting.turns is not None or "ring" in set_here(setting))


def _watched(head: Head) -> str:
    return "dial" if head.dial else "ring" if head.ring else ""


def ending_text(plan: Plan, closes: bool) -> str:
    """Return the check at the end: the first position met again."""
    must = _MUST_FALL[plan.part.work]
    if closes:
        more = "any more is drilled" if plan.part.work == "hole" else "any deeper cut"
        return f"Back at the beginning: {must}. If not, stop and find out why before {more}."
    if plan.part.is_straight:
        return f"At the end go back to the first line above, coming up as always: {must}."
    return (
        f"The run does not go round. At the end go back to the first line above, coming up as always: {must}."
    )


def no_sheet_text(
    head: Head, ways: Sequence[Way], named: str | None, part: Part, tolerance: Fraction | None, why: str = ""
) -> str:
    """Return why no sheet was written: no way, none within the tolerance, or not the one that was named.

    why  why the work leaves none of the head's ways, where it is the work that does
    """
    return f"{no_way_text(head, ways, named, part, tolerance, why)}; nothing was written"


def _both(turns: Fraction) -> str:
    """An angle in degrees-minutes-seconds and in decimal degrees."""
    degrees = short(turns * 360, 4)
    tail = f"{degrees}°" if not degrees.startswith("about") else decimal_degrees(turns)
    return f"{degrees_minutes_seconds(turns)} ({tail})"
