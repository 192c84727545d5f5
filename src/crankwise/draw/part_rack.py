"""A straight rack to scale: its spaces from the left, the first one position 0."""

from math import pi, tan

from crankwise.draw.part_drawing import PartDrawing, Path, Point, Tool, under_tool
from crankwise.part.rack import Rack
from crankwise.wording.gear import drawn_size_text


def rack_drawing(rack: Rack, position: int | None = None) -> PartDrawing:
    """Return the rack with sharp corners, half a tooth on either side of its spaces, its top at y = 0.

    position  the space under the tool; None for no tool
    """
    pitch, depth = float(rack.pitch_mm), float(rack.whole_depth_mm)
    slope = tan(2 * pi * float(rack.pressure_angle))
    bottom = max(float(rack.bottom_width_mm), 0.0) / 2
    top = pitch / 4 + float(rack.addendum_mm) * slope
    outline: list[Point] = [(-pitch / 2, 0.0)]
    for space in range(rack.teeth):
        x = space * pitch
        outline += [(x - top, 0.0), (x - bottom, -depth), (x + bottom, -depth), (x + top, 0.0)]
    end = (rack.teeth - 0.5) * pitch
    outline += [(end, 0.0), (end, -3 * depth), (-pitch / 2, -3 * depth)]
    line = -float(rack.addendum_mm)
    tool = None if position is None else Tool((position * pitch, -depth), (0.0, 1.0))
    under = under_tool("space", position)
    name = f"rack of {rack.teeth} spaces, {drawn_size_text(rack.module_mm)}"
    paths = (
        Path(tuple(outline), "body", is_closed=True),
        Path(((-pitch / 2, line), (end, line)), "reference"),
    )
    return PartDrawing(name, f"Rack{name[4:]}, to scale{under}", paths, (), tool)
