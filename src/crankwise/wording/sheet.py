"""The words of a run sheet: what stands at its head, what is done before the first cut, each line's cells."""

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal

from crankwise.exact.angle import ARCSECONDS
from crankwise.exact.length import INCH, rim_length
from crankwise.exact.number import as_text
from crankwise.head.head import Head
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Mark, Part, Work
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row
from crankwise.ways.ranking import is_within
from crankwise.ways.way import Setting, Way
from crankwise.wording.angle import decimal_degrees, degrees_minutes_seconds
from crankwise.wording.division import refusal_text, worst_error_text
from crankwise.wording.figures import at_the_rim, decimal, short
from crankwise.wording.settings import reading_text, whole_turns
from crankwise.wording.ways import method_name, setup_text

SetBy = Literal["dial", "holes", "notches", "ring"]

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
RHYTHM = "Each line:  unlock – move – come up – lock – cut – tick. The tick comes after the cut."
READ_HERE = "read:"
FILL_IN = ("Date", "Hand", "Material", "Tool")
OWN_ROUNDING = "This is the way's own rounding; the head's own error is not known until it is measured."


def set_by(setting: Setting) -> SetBy:
    """Return which scale a setting is made on. A reading without turns is the ring's."""
    if setting.holes is not None:
        return "holes"
    if setting.notches is not None:
        return "notches"
    return "ring" if setting.turns is None else "dial"


def counted(part: Part) -> str:
    """Return how many of what: 149 lines."""
    one, many = WORK_NOUNS[part.work]
    count = len(part.divisions)
    return f"{count} {one if count == 1 else many}"


def part_text(part: Part) -> str:
    """Return the divisions in one line: 149 lines, 2°24'57.9" (2.4161°) apart, at a rim of 150 mm (5.906 in)."""
    divisions = part.divisions
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
    if head.ratio is None:
        return head.name
    return f"{head.name}, ratio {as_text(head.ratio)}:1, one turn of the crank = {_both(1 / head.ratio)}"


def scale_text(plan: Plan, by: SetBy) -> str:
    """Return the scale that is set: the dial's marks, the plate with its circle, the wheel or the ring."""
    head = plan.head
    if by == "dial" and head.dial and head.ratio:
        places = head.dial.places_per_mark
        finest = "read to the mark" if places == 1 else f"read to 1/{places} of a mark"
        if head.dial.vernier == places:
            finest += " by its vernier"
        mark = degrees_minutes_seconds(1 / (head.ratio * head.dial.marks))
        numbered = f", numbered every {head.dial.numbered_every}" if head.dial.numbered_every else ""
        return f"dial of {head.dial.marks} marks{numbered}, {finest}; one mark = {mark}"
    if by == "holes":
        circles = circles_of(plan.way)
        plate = next((plate for plate in head.plates if set(circles) <= set(plate.circles)), None)
        counts = "" if plate is None else ", on the plate " + " ".join(map(str, plate.circles))
        which = " and ".join(f"circle of {circle} holes" for circle in circles)
        return f"{which}{counts}; count spaces: the hole that a pin stands in is nought"
    if by == "notches":
        return f"notched wheel of {plan.way.setup['wheel']} notches on the spindle"
    ring = head.ring
    if ring is None:
        return ""
    return f"ring of {ring.graduations} graduations, read to {as_text(ring.read_to)} of one"


def circles_of(way: Way) -> tuple[int, ...]:
    """Return the hole circles that a way is set on: the index pin's, then that of the pin at the back."""
    circles = way.setup.get("circles", way.setup.get("circle", ()))
    return circles if isinstance(circles, tuple) else (int(str(circles)),)


def way_text(plan: Plan) -> str:
    """Return the method and its set-up."""
    return f"{method_name(plan.way)}: {setup_text(plan.way)}"


def worst_text(plan: Plan) -> str:
    """Return the worst error as an angle and, where there is a rim, as a length in both units."""
    rim = plan.part.rim_mm
    if plan.way.exact:
        return "none: every position is met exactly"
    at_rim = f" = {at_the_rim(plan.way.worst_error, rim)} at the rim" if rim else ""
    return f"{worst_error_text(plan.way)} (seconds of arc){at_rim}"


def turn_word(plan: Plan) -> str:
    """Return the way the crank is turned all through, from the operator's side."""
    return "clockwise" if plan.head.advance_is_clockwise else "anticlockwise"


def turn_text(plan: Plan, by: SetBy) -> str:
    """Return which way to turn, the same for every line, and what is seen to grow."""
    head = plan.head
    if head.worm is None or by == "notches":
        grows = ", so that the ring's numbers grow" if head.ring else ""
        return f"Turn the spindle one way all through{grows}."
    arrow = "↻" if head.advance_is_clockwise else "↺"
    if head.dial:
        seen = ", the way the dial's numbers grow"
    elif head.ring:
        seen = ", the way the ring's numbers grow"
    else:
        seen = ""
    falls = "; the ring's numbers fall" if head.ring and not head.ring_grows else ""
    return f"{arrow} Turn the crank {turn_word(plan).upper()} all through{seen}{falls}."


def backlash_text(plan: Plan, by: SetBy) -> str:
    """Return the rule that keeps the slack on one side. Source: common practice."""
    if by == "notches":
        return "Detent fully home each time, and the work brought against it from the same side."
    what = "hole for the pin" if by == "holes" else "reading"
    back = "at least half a turn of the crank" if plan.head.worm else "well"
    return f"Gone past the {what}? Never turn straight back to it: go back {back}, and come up again."


def zero_text(plan: Plan, by: SetBy) -> str:
    """Return what zero is, and how it is set, before anything is counted."""
    head = plan.head
    ring = ""
    if head.ring and by != "ring":
        ring = (
            ", ring at 0. A ring that cannot be set: write what it shows here ______ and add it to each check"
        )
    if by == "dial":
        how = "set to 0" if head.dial and head.dial.settable else "brought to 0 by the crank"
        return f"crank come up {turn_word(plan)}, dial {how}{ring}."
    if by == "holes":
        return f"crank come up {turn_word(plan)}, pin in a hole that you mark as 0{ring}."
    if by == "notches":
        return f"detent in a notch that you mark as 0{ring}."
    return "ring at 0."


def before_the_first_cut(plan: Plan, by: SetBy) -> tuple[str, ...]:
    """Return what is done and ticked before the first cut. Source: common practice."""
    head = plan.head
    watched = "dial" if head.dial else "ring" if head.ring else ""
    todo = []
    if head.worm and watched and by != "notches":
        todo.append(
            f"Direction tested: crank turned {turn_word(plan)}, and the {watched}'s numbers grew. "
            "If they fell, stop: the head is described the wrong way round."
        )
    on_dial = ", dial and shaft" if by == "dial" else ""
    todo.append(
        f"Witness marks scribed across wheel and spindle, blank and arbor{on_dial}: a slip will show there."
    )
    todo.append(
        f"Trace pass: a faint mark at every position, all round. Counted: ________ (wanted: {counted(plan.part)})"
    )
    return tuple(todo)


def ending_text(plan: Plan, closes: bool) -> str:
    """Return the check at the end: the first position met again."""
    must = _MUST_FALL[plan.part.work]
    if closes:
        return f"Back at the beginning: {must}. If not, stop and find out why before any deeper cut."
    return (
        f"The run does not go round. At the end go back to the first line above, coming up as always: {must}."
    )


def setting_heading(way: Way, by: SetBy, unit: str) -> tuple[str, str]:
    """Return what the column of the setting is headed, in two lines."""
    if by == "holes":
        return "pin in hole", f"{circles_of(way)[0]} circle"
    return {
        "dial": ("come up to", "dial reading"),
        "notches": ("detent in", "notch"),
        "ring": ("come up to", f"ring, {unit}"),
    }[by]


def setting_cell(setting: Setting) -> str:
    """Return the figure that is set: 56.5; the hole of the index pin, or the notch."""
    if setting.holes is not None:
        return str(setting.holes[0])
    if setting.notches is not None:
        return str(setting.notches)
    return "" if setting.reading is None else reading_text(setting.reading)


def back_pin_cell(setting: Setting) -> str:
    """Return the hole of the pin at the back, counted from zero: +9 on with the crank, −4 against it."""
    hole = (setting.holes or (0, 0))[1]
    return f"+{hole}" if hole > 0 else f"−{-hole}" if hole else "0"


def place_text(setting: Setting) -> str:
    """Return a setting in the shortest words, for the end of a page: 31 turns + 56.5."""
    cell = setting_cell(setting)
    if setting.holes is not None:
        back = f", back pin {back_pin_cell(setting)}" if len(setting.holes) > 1 else ""
        return f"{whole_turns(setting.turns or 0)}, hole {cell}{back}"
    if setting.notches is not None:
        return f"notch {cell}"
    return f"ring {cell}" if setting.turns is None else f"{whole_turns(setting.turns)} + {cell}"


def page_ends_at(last: str, last_place: str, following: str, following_place: str) -> str:
    """Return where a page ends and what comes next, in the words of its last line."""
    return f"Page ends at position {last}: {last_place}.   Next: position {following}: {following_place}."


def page_follows(before: str, before_place: str, first: str, first_place: str) -> str:
    """Return where the page before ended and what comes first here."""
    return f"Page before ended at position {before}: {before_place}.   Here first: position {first}: {first_place}."


def past_numeral(head: Head, reading: Fraction) -> str:
    """Return a dial reading as the numeral last passed and the marks past it: 50 + 6.5; empty without numerals."""
    numerals = head.dial.between(reading) if head.dial else None
    if numerals is None:
        return ""
    lower, _ = numerals
    return f"on {lower}" if reading == lower else f"{lower} + {reading_text(reading - lower)}"


def position_label(row: Row, first: int) -> str:
    """Return a position's number; the first one met again as 0 = 149."""
    number = row.reached.position
    return f"{first} = {number}" if row.closing else str(number)


def beyond_the_cut(part: Part) -> dict[int, str]:
    """Return what is done at each position beyond the cut: long line, numeral 12, and any note."""
    numbers = (number for number, _ in part.divisions.targets())
    return {number: _mark_text(mark) for number, mark in zip(numbers, part.marks, strict=False)}


def _mark_text(mark: Mark) -> str:
    line = f"{mark.line_class} line" if mark.line_class else ""
    numeral = f"numeral {mark.numeral}" if mark.numeral else ""
    return ", ".join(filter(None, (line, numeral, mark.note)))


def signed_arcseconds(error: Fraction) -> str:
    """Return an error with its sign, positive the way the work advances: +20.3", -34.7", 0."""
    return _signed(error * ARCSECONDS, 1, '"')


def signed_rim(error: Fraction, rim_mm: Fraction) -> tuple[str, str]:
    """Return an error at the rim in micrometres and in thousandths of an inch, with its sign."""
    length = rim_length(error, rim_mm)
    return _signed(length * 1000, 1, " µm"), _signed(length / INCH * 1000, 2, " thou")


def ring_sign(head: Head) -> str:
    """Return what follows a ring's reading: ° where its numerals come to 360."""
    return "°" if head.ring and head.ring.full_circle == 360 else ""


def ring_unit(head: Head) -> str:
    """Return the unit of the ring's numerals in words, for a heading."""
    full_circle = head.ring.full_circle if head.ring else 360
    return {360: "degrees", 400: "gon"}.get(full_circle, f"{full_circle} to the circle")


def _signed(value: Fraction, places: int, unit: str) -> str:
    if value == 0:
        return "0"
    text = decimal(abs(value), places)
    if not text.strip("0."):
        return f"under {decimal(Fraction(1, 10**places), places)}{unit}"
    return f"{'+' if value > 0 else '−'}{text}{unit}"


def _both(turns: Fraction) -> str:
    """An angle in degrees-minutes-seconds and in decimal degrees."""
    degrees = short(turns * 360, 4)
    tail = f"{degrees}°" if not degrees.startswith("about") else decimal_degrees(turns)
    return f"{degrees_minutes_seconds(turns)} ({tail})"


def no_sheet_text(ways: Sequence[Way], named: str | None, part: Part, tolerance: Fraction | None) -> str:
    """Return why no sheet was written: no way, none within the tolerance, or not the one that was named."""
    if named and any(is_within(way, tolerance) for way in ways):
        ways = [way for way in ways if named in (way.key, way.method)]
    return f"{refusal_text(ways, part, tolerance)}; nothing was written"
