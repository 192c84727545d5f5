"""A drawing of a part in true size, before anyone has decided whether it goes to a screen, paper or a file.

Lengths are millimetres, y points up and x to the right, as a drawing board and a DXF have it. One drawing
serves the picture on a page, the print at full size and the file for engraving: so they cannot differ.
Floats, good to a nanometre; curves are broken into straight pieces as fine as the one who asks needs.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import cos, hypot, pi, sin
from typing import Literal, get_args

from crankwise.part.scale_direction import Sense

Point = tuple[float, float]
Layer = Literal["body", "cut", "numeral", "reference"]
LAYERS: tuple[Layer, ...] = get_args(Layer)
"""body: the outline of the work. cut: lines and holes that are made. numeral: figures. reference: circles, centres
and edges that guide the eye and are not made."""


@dataclass(frozen=True, slots=True)
class Path:
    """One stroke of straight pieces.

    points    2 or more
    layer     what it is of
    is_closed whether the last point joins the first
    width_mm  width of the line on the work; 0 where it has none of its own
    position  the position it belongs to, where it belongs to one
    """

    points: tuple[Point, ...]
    layer: Layer
    is_closed: bool = False
    width_mm: float = 0.0
    position: int | None = None


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle: its middle, its radius in mm, what it is of, and the position it belongs to.

    is_in_hand  whether the run in hand is of this circle, where a part takes several
    """

    middle: Point
    radius_mm: float
    layer: Layer
    position: int | None = None
    is_in_hand: bool = False


@dataclass(frozen=True, slots=True)
class Tool:
    """Where the tool stands: its tip, and the direction it comes from, a length of 1."""

    tip: Point
    comes_from: Point

    def outline(self, length_mm: float) -> Path:
        """Return an arrowhead so long, its point where the tool stands."""
        (x, y), (across, up) = self.tip, self.comes_from
        back, wide = (x + across * length_mm, y + up * length_mm), length_mm * 0.35
        sides = (
            (back[0] - up * wide, back[1] + across * wide),
            (back[0] + up * wide, back[1] - across * wide),
        )
        return Path(((x, y), *sides), "reference", is_closed=True)


@dataclass(frozen=True, slots=True)
class PartDrawing:
    """A part in true size.

    name   what it is, short: for the head of a print and a file's layer names
    label  what is seen, in words, for those who cannot see it
    paths, circles  all that is drawn, in the order in which it is laid down
    tool   where the tool stands; None where no position was asked
    notes  what a print must say of it, in whole sentences
    """

    name: str
    label: str
    paths: tuple[Path, ...] = ()
    circles: tuple[Circle, ...] = ()
    tool: Tool | None = None
    notes: tuple[str, ...] = ()

    def box(self) -> tuple[float, float, float, float]:
        """Return left, bottom, right, top of all that is drawn but the tool, in mm."""
        across, up = [], []
        for path in self.paths:
            across += [x for x, _ in path.points]
            up += [y for _, y in path.points]
        for circle in self.circles:
            (x, y), radius = circle.middle, circle.radius_mm
            across += [x - radius, x + radius]
            up += [y - radius, y + radius]
        return min(across), min(up), max(across), max(up)

    def noted(self, note: str) -> "PartDrawing":
        """Return the same drawing with one more note."""
        return replace(self, notes=(*self.notes, note))

    @property
    def size_mm(self) -> float:
        """The longer side of its box."""
        left, bottom, right, top = self.box()
        return max(right - left, top - bottom)


def turned(point: Point, turns: float) -> Point:
    """Return a point turned clockwise round the origin by so many turns."""
    (x, y), angle = point, 2 * pi * turns
    return x * cos(angle) + y * sin(angle), y * cos(angle) - x * sin(angle)


def at(turns: float, radius_mm: float) -> Point:
    """Return the point so many turns clockwise from the top, on a circle round the origin."""
    return radius_mm * sin(2 * pi * turns), radius_mm * cos(2 * pi * turns)


def moved(points: Iterable[Point], to: Point, lean: float) -> tuple[Point, ...]:
    """Return points turned clockwise by `lean` radians round the origin, which then goes to `to`."""
    across, up = cos(lean), sin(lean)
    return tuple((to[0] + x * across + y * up, to[1] + y * across - x * up) for x, y in points)


def cross(middle: Point, size_mm: float) -> tuple[Path, Path]:
    """Return a centre cross with arms of half that size."""
    (x, y), half = middle, size_mm / 2
    return (
        Path(((x - half, y), (x + half, y)), "reference"),
        Path(((x, y - half), (x, y + half)), "reference"),
    )


def tool_at(turns: float, radius_mm: float, inward: bool = True) -> Tool:
    """Return a tool on a circle round the origin, coming from outside it, or from inside."""
    tip = at(turns, radius_mm)
    length = hypot(*tip) or 1.0
    sign = 1 if inward else -1
    return Tool(tip, (sign * tip[0] / length, sign * tip[1] / length))


def tool_over(
    what: str,
    position: int | None,
    count: int,
    radius_mm: float,
    advances: Sense,
    first_at: float = 0.0,
) -> tuple[Tool | None, str]:
    """Return the tool over one of so many positions round a circle, and the words for that; no tool for None.

    what       a position is: space, gash, key
    radius_mm  how far out the tool's tip stands
    first_at   where position 0 is, in divisions clockwise from the top
    """
    if position is None:
        return None, ""
    sign = 1 if advances == "clockwise" else -1
    return tool_at((sign * position + first_at) / count, radius_mm), under_tool(what, position)


def under_tool(what: str, position: int | None) -> str:
    """Return what a drawing's label says of the tool: ; space 7 is under the tool; empty for no tool."""
    return "" if position is None else f"; {what} {position} is under the tool"
