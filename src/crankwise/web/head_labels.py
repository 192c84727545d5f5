"""What the form of a head calls its fields, so that what is wrong is told by the name that stands over the field."""

import re

from crankwise.errors import Fault
from crankwise.wording.error_sizes import SIZE_GROUPS

_TITLES = {
    "worm": "Worm",
    "slide": "Slide",
    "dial": "Dial",
    "ring": "Ring",
    "change_gears": "Change gears",
    "stepper": "Stepper drive",
    "errors": "Its errors",
}
_LABELS = {
    "name": "Name",
    "worm.wheel_teeth": "Teeth of the worm wheel",
    "worm.starts": "Starts of the worm",
    "worm.ratio": "or the ratio",
    "worm.clockwise": "A clockwise turn of the crank",
    "slide.lead": "Lead of its screw",
    "slide.travel": "Its travel",
    "dial.marks": "Marks all round",
    "dial.read_to": "Read to",
    "dial.numbered_every": "Numbered every",
    "dial.vernier": "Vernier",
    "dial.clockwise": "A clockwise turn of the crank",
    "dial.settable": "The dial",
    "ring.graduations": "Graduations all round",
    "ring.read_to": "Read to",
    "ring.full_circle": "Numbered to",
    "ring.numbered": "Numerals rise",
    "plates": "One plate a line",
    "notched_wheels": "Notches of each wheel",
    "notched_wheels.worm": "Detent on the worm's wheel",
    "notched_wheels.wheel": "Detent on another wheel",
    "change_gears": "Teeth of each change gear",
    "change_gears.module": "Module of the gears",
    "change_gears.shaft_clearance": "Shaft clearance",
    "change_gears.least_centres_mm": "Least centres",
    "change_gears.greatest_centres_mm": "Greatest centres",
    "change_gears.idlers_with": "Idlers, plate with the crank",
    "change_gears.idlers_against": "Idlers, plate against it",
    "change_gears.cannot_drive_plate": "Why they cannot turn the plate",
    "stepper.steps": "Steps in one turn",
    "stepper.per_turn_of": "One turn of",
    **{f"errors.{one.name}": one.label for _, group in SIZE_GROUPS for one in group},
}
"""The label of each field, by its place in a head file."""


def label_of(name: str) -> str:
    """Return what stands over a field, in quotes and led by its part: Dial, “Marks all round”; empty for no field."""
    if name not in _LABELS:
        return ""
    title = _TITLES.get(name.partition(".")[0], "") if "." in name else ""
    return f"{title}, “{_LABELS[name]}”" if title else f"“{_LABELS[name]}”"


def told_at_its_field(fault: Fault) -> str:
    """Return a fault in a sentence, its place called as the form calls it.

    >>> told_at_its_field(Fault("dial.marks", "'ten'; give a whole number"))
    "Dial, “Marks all round”: 'ten'; give a whole number"
    >>> told_at_its_field(Fault("plates[0].circles[2]", "1 hole; a hole circle has 2 or more"))
    'Hole plates, plate 1, circle 3: 1 hole; a hole circle has 2 or more'
    """
    if label := label_of(fault.place):
        return f"{label}: {fault.message}"
    if found := re.fullmatch(r"plates\[(\d+)\](?:\.circles\[(\d+)\])?", fault.place):
        circle = f", circle {int(found[2]) + 1}" if found[2] else ""
        return f"Hole plates, plate {int(found[1]) + 1}{circle}: {fault.message}"
    return fault.told()
