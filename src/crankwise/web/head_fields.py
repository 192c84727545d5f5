"""The form of a head: each field is named after its place in a head file, and says what a file would.

What is typed becomes the text of a head file, and is read by the file's own rules: so a form and a
file that are wrong in the same way get the same sentence.
"""

import json
import re
from collections.abc import Iterator, Mapping

from crankwise.errors import Fault, FaultsFound, Mendable
from crankwise.exact.listed import range_ends
from crankwise.exact.number import as_text
from crankwise.files.error_size_text import read_size_end
from crankwise.files.error_sizes_toml import sources_block
from crankwise.files.head_toml import read_head
from crankwise.files.known_errors_toml import known_errors_block
from crankwise.head.change_gears import ChangeGears
from crankwise.head.error_sizes import MOST
from crankwise.head.head import Head

_TRIGGERS = {
    "worm": ("worm.wheel_teeth", "worm.starts", "worm.ratio"),
    "slide": ("slide.lead", "slide.travel"),
    "dial": ("dial.marks", "dial.read_to", "dial.numbered_every", "dial.vernier"),
    "ring": ("ring.graduations", "ring.read_to", "ring.full_circle"),
    "stepper": ("stepper.steps",),
}
"""A part is there when one of these is filled; a choice always is, and says nothing."""

_WHOLE = (
    "wheel_teeth",
    "starts",
    "marks",
    "numbered_every",
    "vernier",
    "graduations",
    "full_circle",
    "steps",
    "shaft_clearance",
)
_WHEELS = {"notched_wheels": "bed", "notched_wheels.worm": "worm", "notched_wheels.wheel": "wheel"}
"""The fields of the notched wheels, and what the detents of each stand on."""
_GEAR_KEYS = (
    "module",
    "shaft_clearance",
    "least_centres_mm",
    "greatest_centres_mm",
    "idlers_with",
    "idlers_against",
)
FIELDS = (
    "name",
    *(f"worm.{key}" for key in ("wheel_teeth", "starts", "ratio", "clockwise")),
    "slide.lead",
    "slide.travel",
    *(f"dial.{key}" for key in ("marks", "read_to", "numbered_every", "vernier", "clockwise", "settable")),
    *(f"ring.{key}" for key in ("graduations", "read_to", "full_circle", "numbered")),
    "plates",
    *_WHEELS,
    "change_gears",
    *(f"change_gears.{key}" for key in _GEAR_KEYS),
    "change_gears.cannot_drive_plate",
    *(f"errors.{name}" for name in MOST),
    *(f"stepper.{key}" for key in ("steps", "per_turn_of")),
)


def toml_blocks(form: Mapping[str, str]) -> dict[str, str]:
    """Return the text of a head file part by part, from what was typed."""
    blocks = {"name": f"name = {_text(form.get('name', '').strip())}"}
    for part, triggers in _TRIGGERS.items():
        if any(form.get(name, "").strip() for name in triggers):
            blocks[part] = "\n".join([f"[{part}]", *_keys(form, part)])
    plates = [line for line in form.get("plates", "").splitlines() if line.strip()]
    if plates:
        blocks["plates"] = "\n".join(f"[[plates]]\ncircles = {_list(line)}" for line in plates)
    if wheels := [_wheel(one, on) for field, on in _WHEELS.items() for one in _items(form.get(field, ""))]:
        blocks["notched_wheels"] = "\n".join(wheels)
    if form.get("change_gears", "").strip():
        why = form.get("change_gears.cannot_drive_plate", "").strip()
        cannot = [f"cannot_drive_plate = {_text(why)}"] if why else []
        rows = ["[change_gears]", f"teeth = {_list(form['change_gears'])}", *_gear_keys(form), *cannot]
        blocks["change_gears"] = "\n".join(rows)
    if sizes := [
        f"{name} = {_range(name, typed)}"
        for name in MOST
        if (typed := form.get(f"errors.{name}", "").strip())
    ]:
        blocks["errors"] = "\n".join(["[errors]", *sizes])
    return blocks


def _gear_keys(form: Mapping[str, str]) -> Iterator[str]:
    for key in _GEAR_KEYS:
        if typed := form.get(f"change_gears.{key}", "").strip():
            listed = key.startswith("idlers")
            yield f"{key} = {_list(typed) if listed else _value(typed) if key in _WHOLE else _text(typed)}"


def _range(name: str, typed: str) -> str:
    """One size, or the smaller and the larger of a range: 20, or 10 to 60; a length may name its unit, 0.5 thou."""
    ends = [_text(_end(name, end)) for end in range_ends(typed)]
    return ends[0] if len(ends) == 1 else f"[{', '.join(ends)}]"


def _end(name: str, typed: str) -> str:
    """One figure in the unit of its size; what cannot be read stays as typed, and is refused where files are read."""
    try:
        return as_text(read_size_end(name, typed, name))
    except Mendable:
        return typed


def head_toml(form: Mapping[str, str]) -> str:
    """Return the text of a head file from what was typed."""
    return "\n\n".join(toml_blocks(form).values()) + "\n"


def _keys(form: Mapping[str, str], part: str) -> list[str]:
    lines = []
    for field in FIELDS:
        key = field.removeprefix(f"{part}.")
        typed = form.get(field, "").strip()
        if key == field or not typed:
            continue
        if key == "settable":
            lines.append(f"settable = {'false' if typed == 'no' else 'true'}")
        else:
            lines.append(f"{key} = {_value(typed) if key in _WHOLE else _text(typed)}")
    return lines


def _wheel(notches: str, detent_on: str) -> str:
    on = "" if detent_on == "bed" else f'\ndetent_on = "{detent_on}"'
    return f"[[notched_wheels]]\nnotches = {_value(notches)}{on}"


def _items(typed: str) -> list[str]:
    return [piece for piece in re.split(r"[\s,;]+", typed) if piece]


def _list(typed: str) -> str:
    return f"[{', '.join(map(_value, _items(typed)))}]"


def _value(typed: str) -> str:
    """A whole number as one; anything else as the text it is, so that the file's rules say what is wrong."""
    return str(int(typed)) if re.fullmatch(r"[+-]?[0-9]{1,15}", typed) else _text(typed)


def _text(typed: str) -> str:
    """A TOML text: it escapes as JSON does, but for the delete character."""
    return json.dumps(typed, ensure_ascii=False).replace("\x7f", "\\u007f")


def field_of(place: str) -> str:
    """Return the field that holds a place of a head file: `plates` for `plates[0].circles[3]`."""
    if place in FIELDS:
        return place
    first = re.split(r"[.\[]", place, maxsplit=1)[0]
    return {
        "worm": "worm.wheel_teeth",
        "dial": "dial.marks",
        "ring": "ring.graduations",
        "slide": "slide.lead",
    }.get(first, first)


def without_lines(error: FaultsFound) -> FaultsFound:
    """Return the faults without the lines of a file that nobody wrote."""
    return FaultsFound([Fault(fault.place, fault.message) for fault in error.faults])


def filled_fields(head: Head) -> dict[str, str]:
    """Return what the form holds for a head; submitting it unchanged gives the same head."""
    filled = dict.fromkeys(FIELDS, "") | {"name": head.name}
    if worm := head.worm:
        filled["worm.clockwise"] = worm.clockwise
        if worm.wheel_teeth:
            filled["worm.wheel_teeth"], filled["worm.starts"] = str(worm.wheel_teeth), str(worm.starts)
        else:
            filled["worm.ratio"] = as_text(worm.ratio)
    if slide := head.slide:
        filled["slide.lead"] = f"{as_text(slide.lead_mm)}mm"
        filled["slide.travel"] = "" if slide.travel_mm is None else f"{as_text(slide.travel_mm)}mm"
    if dial := head.dial:
        filled |= {
            "dial.marks": str(dial.marks),
            "dial.read_to": str(dial.read_to),
            "dial.numbered_every": str(dial.numbered_every),
            "dial.vernier": str(dial.vernier or ""),
            "dial.clockwise": dial.clockwise,
            "dial.settable": "yes" if dial.settable else "no",
        }
    if ring := head.ring:
        filled |= {
            "ring.graduations": str(ring.graduations),
            "ring.read_to": str(ring.read_to),
            "ring.full_circle": str(ring.full_circle),
            "ring.numbered": ring.numbered,
        }
    filled["plates"] = "\n".join(" ".join(map(str, plate.circles)) for plate in head.plates)
    for field, detent_on in _WHEELS.items():
        wheels = (wheel for wheel in head.notched_wheels if wheel.detent_on == detent_on)
        filled[field] = " ".join(str(wheel.notches) for wheel in wheels)
    if head.change_gears:
        filled["change_gears"] = " ".join(map(str, head.change_gears.teeth))
        filled |= _filled_gears(head.change_gears)
    for name, size in head.error_sizes.sizes if head.error_sizes else ():
        low, high = as_text(size.low), as_text(size.high)
        filled[f"errors.{name}"] = low if size.is_known else f"{low} to {high}"
    if head.stepper:
        filled["stepper.steps"] = str(head.stepper.steps)
        filled["stepper.per_turn_of"] = head.stepper.per_turn_of
    return filled


def _filled_gears(gears: ChangeGears) -> dict[str, str]:
    """What was said of the change gears beside their teeth; what is as usual stays empty."""
    usual = ChangeGears(gears.teeth)
    filled = {"change_gears.cannot_drive_plate": gears.cannot_drive_plate}
    for key, length in (
        ("module", gears.module_mm),
        ("least_centres_mm", gears.least_centres_mm),
        ("greatest_centres_mm", gears.greatest_centres_mm),
    ):
        filled[f"change_gears.{key}"] = "" if length is None else as_text(length)
    if gears.shaft_clearance != usual.shaft_clearance:
        filled["change_gears.shaft_clearance"] = str(gears.shaft_clearance)
    for key, idlers, as_usual in (
        ("idlers_with", gears.idlers_with, usual.idlers_with),
        ("idlers_against", gears.idlers_against, usual.idlers_against),
    ):
        filled[f"change_gears.{key}"] = "" if idlers == as_usual else " ".join(map(str, idlers))
    return filled


def with_calibrations(toml: str, head: Head | None) -> str:
    """Return the text of a head file with what a head was measured to be out: no form asks for that.

    head  the head that the text takes the place of; None for a new one

    Where a size is from is carried on too, as long as the size stays what it was.
    """
    if head is None:
        return toml
    sources = _sources_left(toml, head)
    blocks = [sources_block(sources)] if sources else []
    blocks += map(known_errors_block, head.calibrations)
    return "\n\n".join([toml.rstrip(), *blocks]) + "\n" if blocks else toml


def _sources_left(toml: str, head: Head) -> list[tuple[str, str]]:
    if head.error_sizes is None or not head.error_sizes.sources:
        return []
    try:
        now = read_head(toml).error_sizes
    except FaultsFound:
        return []
    return [
        (name, text)
        for name, text in head.error_sizes.sources
        if now and now.of(name) == head.error_sizes.of(name)
    ]


def form_holds(head: Head) -> bool:
    """Return whether the form can hold all of a head; what it does not know would be lost by it."""
    try:
        return read_head(with_calibrations(head_toml(filled_fields(head)), head)) == head
    except FaultsFound:
        return False
