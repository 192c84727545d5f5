"""The drawing of a part of any kind, from the kind's own value."""

from fractions import Fraction

from crankwise.draw.part_bevel import bevel_drawing
from crankwise.draw.part_drawing import PartDrawing
from crankwise.draw.part_flats import flats_drawing
from crankwise.draw.part_gear import gear_drawing
from crankwise.draw.part_graduated import graduated_drawing
from crankwise.draw.part_holes import holes_drawing
from crankwise.draw.part_pinion import clock_pinion_drawing
from crankwise.draw.part_positions import positions_drawing
from crankwise.draw.part_rack import rack_drawing
from crankwise.draw.part_wheels import (
    clock_wheel_drawing,
    ratchet_drawing,
    splines_drawing,
    sprocket_drawing,
)
from crankwise.draw.part_worm_wheel import worm_wheel_drawing
from crankwise.part.bevel import BevelGear
from crankwise.part.clock_pinion import ClockPinion
from crankwise.part.clock_wheel import ClockWheel
from crankwise.part.flats import Flats
from crankwise.part.gear import Gear
from crankwise.part.graduated import Graduated
from crankwise.part.hole_circle import HolePattern
from crankwise.part.kinds import PartValue
from crankwise.part.part import Part
from crankwise.part.rack import Rack
from crankwise.part.ratchet import Ratchet
from crankwise.part.scale_direction import ScaleDirection, Sense
from crankwise.part.splines import Splines
from crankwise.part.sprocket import Sprocket
from crankwise.part.worm_wheel import WormWheel


def part_drawing(
    value: PartValue | None,
    part: Part,
    chord_mm: float,
    position: int | None = None,
    advances: Sense = "clockwise",
    direction: ScaleDirection | None = None,
    run: int = 1,
) -> PartDrawing:
    """Return the part in true size.

    value     the kind's own value; of a kind that has no drawing of its own the positions on the rim are drawn
    part      the positions that are worked
    chord_mm  how far a curve may bulge out of the straight pieces that draw it, in mm, above 0
    position  the one under the tool; None for no tool
    advances  which way the positions follow one another, where the value does not say
    direction what goes which way as the reading grows, of graduated work; None where it is not to be shown
    run       which of its runs is in hand, of a part that takes several, from 1
    """
    match value:
        case Gear():
            return gear_drawing(value, chord_mm, position, advances)
        case Graduated():
            return graduated_drawing(value, advances, position, direction)
        case HolePattern():
            return holes_drawing(value, run, position)
        case Flats():
            return flats_drawing(value, chord_mm, position, advances)
        case Ratchet():
            return ratchet_drawing(value, chord_mm, position, advances)
        case Splines():
            are_floors = next(target for _, target in part.divisions.targets()) != 0
            return splines_drawing(value, chord_mm, position, advances, are_floors)
        case Sprocket():
            return sprocket_drawing(value, chord_mm, position, advances)
        case ClockWheel() if len(part.divisions) == value.teeth:
            return clock_wheel_drawing(value, chord_mm, position, advances)
        case ClockWheel():
            return clock_pinion_drawing(ClockPinion(value), chord_mm, position, advances)
        case Rack():
            return rack_drawing(value, position)
        case BevelGear():
            return bevel_drawing(value, chord_mm, position, advances)
        case WormWheel():
            return worm_wheel_drawing(value, chord_mm, position, advances)
    return positions_drawing(part, position, advances)


def across_mm(value: PartValue | None) -> Fraction | float | None:
    """Return how far a part goes across, in mm; None of a kind that is no wider than its rim, or does not say."""
    match value:
        case Gear() | BevelGear() | WormWheel() | Sprocket() | ClockWheel():
            return value.outside_diameter_mm
        case Ratchet():
            return value.outside_mm
        case Flats():
            return value.bar_mm
        case HolePattern():
            return value.blank_mm
        case Splines():
            return value.major_mm
    return None
