"""A wheel that is one piece of outline repeated round its axis, and the arcs that such pieces are made of."""

from collections.abc import Sequence
from math import atan2, ceil, cos, dist, pi, sin, sqrt

from crankwise.draw.part_drawing import Circle, PartDrawing, Path, Point, cross, tool_over, turned
from crankwise.part.scale_direction import Sense

_ONE_POINT_MM = 1e-7
"""Points nearer than this are one: a tooth without a land ends where the next one begins."""


def wheel_of(
    name: str,
    piece: Sequence[Point],
    count: int,
    what: str,
    position: int | None,
    advances: Sense,
    reach_mm: float,
    *circles: Circle,
    first_at: float = 0.0,
) -> PartDrawing:
    """Return a wheel of one piece repeated clockwise.

    what      what a position is: space, key, gap
    reach_mm  how far out the tool's tip stands
    first_at  where position 0 is, in divisions clockwise from the top
    """
    apart = [point for place, point in enumerate(piece) if dist(point, piece[place - 1]) > _ONE_POINT_MM]
    if dist(apart[-1], turned(apart[0], 1 / count)) < _ONE_POINT_MM:
        apart.pop()
    outline = [turned(point, number / count) for number in range(count) for point in apart]
    tool, under = tool_over(what, position, count, reach_mm, advances, first_at)
    paths = (Path(tuple(outline), "body", is_closed=True), *cross((0.0, 0.0), min(10.0, reach_mm / 2)))
    return PartDrawing(name, f"{name[0].upper()}{name[1:]}, to scale{under}", paths, circles, tool)


def polar(radius: float, angle: float) -> Point:
    """Return the point at this radius, so many radians clockwise from the top."""
    return radius * sin(angle), radius * cos(angle)


def arc_between(start: Point, end: Point, radius: float, chord_mm: float) -> list[Point]:
    """Return the shorter arc round the origin with both its ends, which decide which way round it goes."""
    first, last = atan2(*start), atan2(*end)
    sweep = (last - first + pi) % (2 * pi) - pi
    pieces = max(1, ceil(abs(sweep) / sqrt(8 * chord_mm / radius)))
    return [start, *(polar(radius, first + sweep * piece / pieces) for piece in range(1, pieces)), end]
