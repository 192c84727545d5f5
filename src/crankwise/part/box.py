"""Rectangles in the plane, turned any way: how far apart two are, or how deep one lies in the other."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, hypot, sin

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle.

    x, y    its middle, in mm
    width   across, in mm, 0 or more
    height  along, in mm, 0 or more
    lean    turned clockwise by so much, in radians
    """

    x: float
    y: float
    width: float
    height: float
    lean: float = 0.0

    @property
    def reach(self) -> float:
        """From its middle to a corner."""
        return hypot(self.width, self.height) / 2

    def corners(self) -> tuple[Point, ...]:
        """Return its corners, one after the other round it."""
        across, along = self.axes()
        halves = ((-1, -1), (1, -1), (1, 1), (-1, 1))
        return tuple(
            (
                self.x + (a * self.width * across[0] + b * self.height * along[0]) / 2,
                self.y + (a * self.width * across[1] + b * self.height * along[1]) / 2,
            )
            for a, b in halves
        )

    def axes(self) -> tuple[Point, Point]:
        """Return its two directions, across and along, each of length 1."""
        return (cos(self.lean), -sin(self.lean)), (sin(self.lean), cos(self.lean))


def gap(first: Box, second: Box) -> float:
    """Return the distance of two rectangles in mm; below 0 by how far they must part, where they overlap.

    Two convex shapes are apart exactly when one of their sides shows a gap between their shadows; where no
    side does, the smallest overlap of shadows is how far they must be moved. Apart, the nearest spots are a
    corner of one and a side of the other. Source: the separating axis theorem.
    """
    corners = first.corners(), second.corners()
    apart = max(_shadow_gap(corners[0], corners[1], axis) for axis in (*first.axes(), *second.axes()))
    if apart <= 0:
        return apart
    return min(
        _from_side(corner, side, other[place - 1])
        for own, other in (corners, corners[::-1])
        for corner in own
        for place, side in enumerate(other)
    )


def _shadow_gap(first: Sequence[Point], second: Sequence[Point], axis: Point) -> float:
    one = [x * axis[0] + y * axis[1] for x, y in first]
    other = [x * axis[0] + y * axis[1] for x, y in second]
    return max(min(one) - max(other), min(other) - max(one))


def _from_side(corner: Point, start: Point, end: Point) -> float:
    along = (end[0] - start[0], end[1] - start[1])
    length = along[0] ** 2 + along[1] ** 2
    share = 0.0
    if length:
        share = ((corner[0] - start[0]) * along[0] + (corner[1] - start[1]) * along[1]) / length
    share = min(max(share, 0.0), 1.0)
    return hypot(corner[0] - start[0] - share * along[0], corner[1] - start[1] - share * along[1])
