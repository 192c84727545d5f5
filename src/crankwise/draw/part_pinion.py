"""A clock pinion to scale: its leaves with their radial flanks and rounded tops, a space at the top."""

from math import ceil, pi, sqrt

from crankwise.draw.part_drawing import Circle, PartDrawing, turned
from crankwise.draw.part_repeated import arc_between, wheel_of
from crankwise.part.clock_pinion import ClockPinion
from crankwise.part.scale_direction import Sense
from crankwise.wording.gear import drawn_size_text


def clock_pinion_drawing(
    pinion: ClockPinion, chord_mm: float, position: int | None = None, advances: Sense = "clockwise"
) -> PartDrawing:
    """Return the pinion.

    chord_mm  how far a curve may bulge out of the straight pieces that draw it, in mm, above 0
    position  the space under the tool; None for no tool
    advances  which way the positions follow one another on the drawing
    """
    wheel, root = pinion.wheel, pinion.root_diameter_mm / 2
    height = float(pinion.addendum_mm)
    right = pinion.half_leaf(
        max(6, ceil(pi / 2 / sqrt(8 * chord_mm / (height + float(pinion.top_radius_mm)))))
    )
    left = [(-x, y) for x, y in right]
    leaf = [turned(point, 0.5 / wheel.leaves) for point in (*left, *reversed(right[:-1]))]
    before = turned(leaf[-1], -1 / wheel.leaves)
    piece = [*arc_between(before, leaf[0], root, chord_mm), *leaf[1:]]
    name = f"clock pinion of {wheel.leaves} leaves, {drawn_size_text(wheel.module_mm)}, for a wheel of {wheel.teeth}"
    pitch = Circle((0.0, 0.0), float(wheel.pinion_pitch_diameter_mm) / 2, "reference")
    drawing = wheel_of(name, piece, wheel.leaves, "space", position, advances, root, pitch)
    return drawing.noted(
        "Flanks are radial; thickness, height and rounding of the leaves are a usual form, recalled and not checked: "
        "do not work to them, the form of your pinion cutter goes first."
    )
