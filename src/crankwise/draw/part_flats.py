"""Flats on a bar, to scale, seen from its end: the flat of position 0 faces up."""

from math import ceil, pi, sqrt

from crankwise.draw.part_drawing import Circle, PartDrawing, Path, Point, at, cross, tool_at, under_tool
from crankwise.part.flats import Flats
from crankwise.part.scale_direction import Sense
from crankwise.wording.card import length_text


def flats_drawing(
    flats: Flats, chord_mm: float, position: int | None = None, advances: Sense = "clockwise"
) -> PartDrawing:
    """Return the bar with its flats cut, and the round of the bar before.

    chord_mm  how far what is left of the round may bulge out of the straight pieces that draw it, in mm
    position  the flat under the tool; None for no tool
    """
    sign = 1 if advances == "clockwise" else -1
    radius = float(flats.bar_mm) / 2
    pieces = max(24, ceil(2 * pi / sqrt(8 * chord_mm / radius)))
    outline = [at(piece / pieces, radius) for piece in range(pieces)]
    for flat in flats.flats:
        outline = _cut(outline, at(sign * float(flat.angle), 1.0), float(flat.height_mm))
    count = len(flats.flats)
    name = f"{count} flat{'' if count == 1 else 's'} on a bar of {length_text(flats.bar_mm)}"
    tool, under = None, ""
    if position is not None and position < count:
        flat = flats.flats[position]
        tool = tool_at(sign * float(flat.angle), float(flat.height_mm))
        under = under_tool("flat", position)
    paths = (Path(tuple(outline), "body", is_closed=True), *cross((0.0, 0.0), min(10.0, radius)))
    return PartDrawing(
        name, f"{name}, to scale{under}", paths, (Circle((0.0, 0.0), radius, "reference"),), tool
    )


def _cut(outline: list[Point], faces: Point, height: float) -> list[Point]:
    """Return what is left of a convex outline below a straight cut: corners inside, and where its sides cross it."""
    left: list[Point] = []
    for place, (x, y) in enumerate(outline):
        before = outline[place - 1]
        over, over_before = (point[0] * faces[0] + point[1] * faces[1] - height for point in ((x, y), before))
        if (over > 0) != (over_before > 0):
            share = over_before / (over_before - over)
            left.append((before[0] + share * (x - before[0]), before[1] + share * (y - before[1])))
        if over <= 0:
            left.append((x, y))
    return left
