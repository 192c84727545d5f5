"""Parts cut from a disc as a workshop cuts them, as polygons, sharing no formula with the package.

A disc is a polygon of very many sides; a cutter is a polygon that is taken away at each position.
"""

from collections.abc import Iterable
from math import cos, pi, sin

from shapely import LineString, Point, Polygon, affinity
from shapely.geometry.base import BaseGeometry

SIDES_OF_A_QUARTER = 20_000
CENTRE = (0.0, 0.0)


def disc(diameter: float) -> Polygon:
    """A round of this diameter; its sides fall short of the true round by under a millionth of it."""
    return Point(CENTRE).buffer(diameter / 2, quad_segs=SIDES_OF_A_QUARTER)


def turned(shape: BaseGeometry, turns: float) -> BaseGeometry:
    """The shape turned anticlockwise about the centre."""
    return affinity.rotate(shape, 360 * turns, origin=CENTRE)


def milled(work: BaseGeometry, cutter: BaseGeometry, turns: Iterable[float]) -> BaseGeometry:
    """The work after the cutter has been through it at each of these angles."""
    for turn in turns:
        work = work.difference(turned(cutter, turn))
    return work


def above(height: float, reach: float = 1e3) -> Polygon:
    """A face mill that takes away all that stands higher than this over the centre."""
    return Polygon([(-reach, height), (reach, height), (reach, reach), (-reach, reach)])


def single_angle_cutter(tip: tuple[float, float], angle: float, reach: float = 1e3) -> Polygon:
    """A cutter with its straight side upright over its tip, and its slant to the right of it.

    angle  between the two, in turns
    """
    x, y = tip
    slant = (x + reach * sin(2 * pi * angle), y + reach * cos(2 * pi * angle))
    return Polygon([tip, slant, (slant[0], y + reach), (x, y + reach)])


def slot_cutter(left: float, right: float, bottom: float, reach: float = 1e3) -> Polygon:
    """A square cutter between two heights of its sides, down to its bottom."""
    return Polygon([(left, bottom), (right, bottom), (right, reach), (left, reach)])


def on_ray(work: BaseGeometry, turns: float, reach: float = 1e3) -> float:
    """How far from the centre the work still reaches in a direction, anticlockwise from the +X side."""
    ray = LineString([CENTRE, (reach * cos(2 * pi * turns), reach * sin(2 * pi * turns))])
    return float(work.intersection(ray).length)


def width_at(work: BaseGeometry, height: float, reach: float = 1e3) -> float:
    """How wide the work is on a level line so high over the centre."""
    return float(work.intersection(LineString([(-reach, height), (reach, height)])).length)
