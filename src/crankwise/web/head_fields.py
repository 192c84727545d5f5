"""The form of a head: each field is named after its place in a head file, and says what a file would.

What is typed becomes the text of a head file, and is read by the file's own rules: so a form and a
file that are wrong in the same way get the same sentence.
"""

import json
import re
from collections.abc import Mapping

from crankwise.errors import Fault, FaultsFound
from crankwise.exact.number import as_text
from crankwise.files.head_toml import read_head
from crankwise.head.head import Head

_TRIGGERS = {
    "worm": ("worm.wheel_teeth", "worm.starts", "worm.ratio"),
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
)
_WHEELS = {"notched_wheels": "bed", "notched_wheels.worm": "worm", "notched_wheels.wheel": "wheel"}
"""The fields of the notched wheels, and what the detents of each stand on."""
FIELDS = (
    "name",
    *(f"worm.{key}" for key in ("wheel_teeth", "starts", "ratio", "clockwise")),
    *(f"dial.{key}" for key in ("marks", "read_to", "numbered_every", "vernier", "clockwise", "settable")),
    *(f"ring.{key}" for key in ("graduations", "read_to", "full_circle", "numbered")),
    "plates",
    *_WHEELS,
    "change_gears",
    "change_gears.cannot_drive_plate",
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
        cannot = f"\ncannot_drive_plate = {_text(why)}" if why else ""
        blocks["change_gears"] = f"[change_gears]\nteeth = {_list(form['change_gears'])}{cannot}"
    return blocks


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
    return {"worm": "worm.wheel_teeth", "dial": "dial.marks", "ring": "ring.graduations"}.get(first, first)


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
        filled["change_gears.cannot_drive_plate"] = head.change_gears.cannot_drive_plate
    if head.stepper:
        filled["stepper.steps"] = str(head.stepper.steps)
        filled["stepper.per_turn_of"] = head.stepper.per_turn_of
    return filled


def form_holds(head: Head) -> bool:
    """Return whether the form can hold all of a head; what it does not know would be lost by it."""
    try:
        return read_head(head_toml(filled_fields(head))) == head
    except FaultsFound:
        return False
