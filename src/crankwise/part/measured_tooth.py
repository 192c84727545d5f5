"""The thickness of a tooth, from whichever of its sizes was measured."""

from crankwise.part.card import ToothSize
from crankwise.part.chordal import thickness_from_chord
from crankwise.part.gear import Gear
from crankwise.part.over_pins import thickness_from_pins
from crankwise.part.span import thickness_from_span


def measured_thickness_mm(gear: Gear, size: ToothSize, read_mm: float) -> float | None:
    """Return the tooth thickness at the reference circle, normal section, in mm, that a reading means.

    read_mm  what the instrument showed

    None where the reading belongs to no thickness at all.
    """
    match size.kind:
        case "span":
            return thickness_from_span(gear, size.teeth, read_mm)
        case "pins":
            return thickness_from_pins(gear, size.pin_mm, read_mm)
        case "chord":
            return thickness_from_chord(gear, read_mm)
