"""A fault in words: what it is, why it must be that, and what to do."""

from collections.abc import Sequence
from dataclasses import replace

from crankwise.part.part import Part
from crankwise.plan.schedule import Row
from crankwise.run.faults import Explanation, Kind, Remedy
from crankwise.run.set_on import set_on
from crankwise.wording.along import place_text
from crankwise.wording.run_checks import pass_text
from crankwise.wording.run_where import angle_text
from crankwise.wording.sheet_cells import row_label

WHAT: dict[Kind, str] = {
    "miscount": "The count is out by {times}.",
    "miscount of moves": "The count of moves is out by {times}.",
    "whole turn": "The crank is out by {times}.",
    "misread numeral": "The {scale} was read wrong by {times}.",
    "miscount of holes": "The holes are miscounted by {times}.",
    "miscount of notches": "The notches are miscounted by {times}.",
    "read backwards": "The {scale} was read backwards, from the wrong one of its two numerals.",
    "wrong approach": "It was come up to from the wrong side, or turned straight back after going past.",
    "slip": "Something has slipped, by {size}.",
    "off centre": "The work runs off centre: {size} either way, once in a turn.",
    "wrong arms": "The sector arms span {times}.",
    "wrong step": "A rounded step was added again and again: {size} too {much} at every position.",
}

WHY: dict[Kind, str] = {
    "miscount": "What is left over, {size}, is just that many parts of the circle.",
    "miscount of moves": "What is left over, {size}, is just what that many moves of this run make.",
    "whole turn": "What is left over, {size}, is just what that many turns of the crank make.",
    "misread numeral": "What is left over, {size}, is just what so many numbered intervals of the {scale} make.",
    "miscount of holes": "What is left over, {size}, is just what that many holes make.",
    "miscount of notches": "What is left over, {size}, is just what that many notches make.",
    "read backwards": "What is left over is what its reading gives when counted down from the upper numeral.",
    "wrong approach": "What is left over, {size}, is the backlash.",
    "slip": "What is left over stays the same from there on.",
    "off centre": "What is left over rises and falls once in a turn.",
    "wrong arms": "What is left over grows by {size} at every move, which is just what that many holes make.",
    "wrong step": "What is left over grows evenly from the start.",
}

DO: dict[Remedy, str] = {
    "find the row and go on from it": (
        "Ask where you are, and go on from that position; mark as bad what was worked in the wrong place."
    ),
    "go back past it and come up again": (
        "Unlock, go back half a turn or more past the setting, and come up to it the right way."
    ),
    "read again and come up again": "Read it between its two numerals, go back past it, and come up again.",
    "count again from the start": (
        "Mark as bad what was worked in the wrong place. Count this position afresh, to where it is told to stand "
        "since zero, and come up to it the right way."
    ),
    "re-anchor from here on": (
        "Bring the tool, machine off, into the last good line or space, and take the difference as an offset "
        "for every position from now on. Find what slipped and make it fast first."
    ),
    "true the work on its own arbor": (
        "Going on makes it no better. True the work, or turn the blank on the arbor it is cut on."
    ),
    "set the arms again": (
        "Set the arms to the holes told, the hole that the pin stands in not counted, and lock them. Mark as bad what "
        "was worked in the wrong place, and count this position afresh, to where it is told to stand since zero."
    ),
    "set every position from the start": (
        "Set each position to its reading counted from the start; never add a rounded step to the last reading."
    ),
}

BY_HOLES = (
    "Every move is out by the same, {size} too {much}.",
    (
        "See that the pin is on the circle told, and that the arms span the holes told. Count this position afresh, to "
        "where it is told to stand since zero."
    ),
)
"""What a wrong step is, and what to do, where holes are counted: there is no rounded step of a reading."""

ALONG_A_SLIDE: dict[Kind, tuple[str, str]] = {
    "miscount": (WHAT["miscount"], "What is left over, {size}, is just that many steps of the row."),
    "whole turn": (
        "The screw is out by {times}.",
        "What is left over, {size}, is just what that many turns of the screw make.",
    ),
}
"""What stands in the place of the sentences above where nothing turns."""

UNITS: dict[Kind, tuple[str, str]] = {
    "miscount": ("position", "positions"),
    "miscount of moves": ("move", "moves"),
    "whole turn": ("whole turn", "whole turns"),
    "misread numeral": ("numbered interval", "numbered intervals"),
    "miscount of holes": ("hole", "holes"),
    "miscount of notches": ("notch", "notches"),
    "wrong arms": ("hole", "holes"),
}


def fault_text(fault: Explanation, rows: Sequence[Row], part: Part) -> tuple[str, str, str]:
    """Return three sentences or more: what it is and since when, why, and what to do.

    rows  of the run
    part  what is made; along a slide sizes are lengths
    """
    by = set_on(rows[fault.since].reached.setting)
    sized = place_text(abs(fault.size)) if part.is_straight else angle_text(fault.size)
    values = {
        "size": f"{sized}{_side(fault)}",
        "times": _times(fault),
        "much": "much" if fault.size > 0 else "little",
        "scale": "ring" if by == "ring" else "dial",
    }
    if fault.kind in ("off centre", "wrong arms", "wrong step"):
        values["size"] = sized
    told, why, do = WHAT[fault.kind], WHY[fault.kind], DO[fault.remedy]
    if fault.kind == "wrong step" and by == "holes":
        told, do = BY_HOLES
    if part.is_straight:
        told, why = ALONG_A_SLIDE.get(fault.kind, (told, why))
    what = f"{told.format(**values)} {_since(fault, rows, part)}".strip()
    return what, why.format(**values), do


def _side(fault: Explanation) -> str:
    return " ahead" if fault.size > 0 else " behind" if fault.size < 0 else ""


def _times(fault: Explanation) -> str:
    one, more = UNITS.get(fault.kind, ("", ""))
    count = abs(fault.times)
    return f"{count} {one if count == 1 else more} too {'many' if fault.times > 0 else 'few'}"


def _since(fault: Explanation, rows: Sequence[Row], part: Part) -> str:
    """Return since when, told by positions, with their pass where the run has several."""
    if fault.kind in ("off centre", "wrong arms", "wrong step"):
        return ""
    since = _place(fault.since, None, rows, part)
    seen = f"Seen from {since} on" if fault.until is None else f"Seen at {since}"
    if fault.until is not None and fault.until != fault.since:
        seen = f"Seen from {since} to {_place(fault.until, fault.since, rows, part)}"
    if fault.clear is None:
        return f"{seen}."
    clear, first = rows[fault.clear], rows[fault.since]
    # In a spread order the position before may have a higher number.
    is_spread = clear.pass_number == first.pass_number and clear.reached.position > first.reached.position
    order = ", in the order worked" if is_spread else ""
    return f"{seen}, and not yet at {_place(fault.clear, fault.since, rows, part)}{order}."


def _place(row: int, beside: int | None, rows: Sequence[Row], part: Part) -> str:
    """A position by its number; with its pass where the run has several and the row told before was of another."""
    here, position = rows[row], f"position {row_label(part, rows[row])}"
    is_of_same = beside is not None and rows[beside].pass_number == here.pass_number
    return position if is_of_same else f"{position}{pass_name(here, rows)}"


def pass_name(row: Row, rows: Sequence[Row]) -> str:
    """Return what tells a row's pass behind its position: " of pass 2 (finishing)"; empty where there is but one."""
    if rows[-1].pass_number == 0:
        return ""
    name = pass_text(replace(row.work, depth_mm=None), 0, 1)
    return f" of pass {row.pass_number + 1}{f' ({name[:1].lower()}{name[1:]})' if name else ''}"
