"""Positions on a rim, to scale, where nothing more is known of the part: position 0 at the top."""

from crankwise.draw.part_drawing import Circle, PartDrawing, Path, at, cross, tool_at, under_tool
from crankwise.part.part import Part
from crankwise.part.scale_direction import Sense
from crankwise.wording.card import length_text

UNTOLD_MM = 150.0
"""Across, where no rim was told."""
_LONG = 0.06
"""Length of the line at a position, as a share of the diameter."""


def positions_drawing(
    part: Part, position: int | None = None, advances: Sense = "clockwise", outside_mm: float | None = None
) -> PartDrawing:
    """Return the rim with a line at each position, inward from it.

    position    the one under the tool; None for no tool
    outside_mm  outside diameter of the work, where it is more than the rim
    """
    sign = 1 if advances == "clockwise" else -1
    across = UNTOLD_MM if part.rim_mm is None else float(part.rim_mm)
    outer, inner = across / 2, across * (0.5 - _LONG)
    paths, tool, under = [*cross((0.0, 0.0), min(10.0, inner))], None, ""
    for number, target in part.divisions.targets():
        turns = sign * float(target % 1)
        paths.append(Path((at(turns, outer), at(turns, inner)), "cut", position=number))
        if number == position:
            tool = tool_at(turns, outer)
            under = under_tool("position", number)
    name = f"{len(part.divisions)} positions on {length_text(across)}"
    circles = [Circle((0.0, 0.0), outer, "body" if outside_mm is None else "reference")]
    if outside_mm is not None:
        circles.insert(0, Circle((0.0, 0.0), outside_mm / 2, "body"))
    return PartDrawing(name, f"{name}, to scale{under}", tuple(paths), tuple(circles), tool)
