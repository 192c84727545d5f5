"""A gear cut by a rolling rack, as points, and measured with jaws, pins and balls. No formula of an involute.

The rack's straight flank is put into each of its places as it rolls over the gear; neighbouring places cross
in the points of the gear's flank. They lie outside the true flank by far less than a millionth of a module.
Shares nothing with the package: module 1 throughout, angles in radians.
"""

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from shapely import Point, Polygon, unary_union
from shapely.affinity import rotate

Points = NDArray[np.float64]

PLACES = 24_000


def flank(teeth: int, pressure_angle: float, shift: float, outside: float) -> Points:
    """Return the right flank of a tooth that stands upright, from its foot to the outside radius."""
    radius = teeth / 2
    turns = np.linspace(-1.6, 1.6, PLACES)
    across, up = np.cos(turns), np.sin(turns)
    slope = np.tan(pressure_angle)
    normals = np.stack([across - slope * up, up + slope * across], axis=1)
    reach = np.pi / 4 + radius * turns + (radius + shift) * slope
    # Where two neighbouring places cross.
    (a, b), (c, d) = normals[:-1].T, normals[1:].T
    wide = a * d - b * c
    crossings = np.stack(
        [(reach[:-1] * d - reach[1:] * b) / wide, (a * reach[1:] - c * reach[:-1]) / wide], axis=1
    )
    radii = np.hypot(*crossings.T)
    foot = int(np.argmin(radii))
    # Below its foot the crossings turn back outwards; the flank is the side on which a tooth grows thinner.
    branches = (crossings[foot + 1 :], crossings[:foot][::-1])
    for branch in branches:
        kept: Points = branch[np.hypot(*branch.T) <= outside]
        lean = np.arctan2(kept[:, 0], kept[:, 1])
        if np.all(np.diff(lean) < 0):
            return kept
    raise AssertionError("no flank")


def tooth(teeth: int, pressure_angle: float, shift: float, outside: float) -> Polygon:
    """Return one upright tooth, from its foot to its tip."""
    right = flank(teeth, pressure_angle, shift, outside)
    left = right[::-1] * (-1, 1)
    return Polygon(np.concatenate([right, left]))


def jaws_apart(teeth: int, pressure_angle: float, shift: float, outside: float, over: int) -> float:
    """Return what a calliper reads across so many teeth standing side by side."""
    one = tooth(teeth, pressure_angle, shift, outside)
    places = [(index - (over - 1) / 2) * 360 / teeth for index in range(over)]
    block = unary_union([rotate(one, -place, origin=(0, 0)) for place in places])
    least, _, most, _ = block.bounds
    return most - least


def across_pins(teeth: int, pressure_angle: float, shift: float, outside: float, pin: float) -> float:
    """Return what a micrometer reads across two pins pushed into spaces that lie as nearly opposite as they can."""
    one = tooth(teeth, pressure_angle, shift, outside)
    half_pitch = np.pi / teeth
    pair = unary_union([rotate(one, side * half_pitch, origin=(0, 0), use_radians=True) for side in (-1, 1)])
    low, high = teeth / 2 - 2.0, outside + 2 * pin
    while high - low > 1e-12 * high:
        middle = (low + high) / 2
        if pair.distance(Point(0, middle)) < pin / 2:
            low = middle
        else:
            high = middle
    opposite = 2 * np.pi * (teeth // 2) / teeth
    first, second = Point(0, high), Point(high * np.sin(opposite), high * np.cos(opposite))
    return first.distance(second) + pin


def across_balls(
    teeth: int, pressure_angle: float, shift: float, outside: float, ball: float, helix: float
) -> float:
    """Return what is read across two balls in a helical gear of an even count: transverse module 1.

    The flank is wound up along the axis; the ball goes in until the nearest point of the flank touches it.
    """
    section = flank(teeth, pressure_angle, shift, outside)
    radii = np.hypot(*section.T)
    lean = (
        np.arctan2(section[:, 0], section[:, 1]) - np.pi / teeth
    )  # right flank of the tooth left of the space
    twist = 2 * np.tan(helix) / teeth  # radians for each module along the axis

    def nearest(centre: float) -> float:
        at, along = (0.0, len(radii) - 1.0), (-2.0 * ball, 2.0 * ball)
        best = np.inf
        for _ in range(12):
            places, lengths = np.linspace(*at, 61), np.linspace(*along, 61)
            radius = np.interp(places, np.arange(len(radii)), radii)[:, None]
            angle = np.interp(places, np.arange(len(radii)), lean)[:, None] + twist * lengths[None, :]
            apart = np.sqrt(
                radius**2 + centre**2 - 2 * radius * centre * np.cos(angle) + lengths[None, :] ** 2
            )
            where = np.unravel_index(int(np.argmin(apart)), apart.shape)
            best = float(apart[where])
            at = _closer(at, float(places[where[0]]), 0.0, len(radii) - 1.0)
            along = _closer(along, float(lengths[where[1]]), -2.0 * ball, 2.0 * ball)
        return best

    low, high = teeth / 2 - 2.0, outside + 2 * ball
    while high - low > 1e-10 * high:
        middle = (low + high) / 2
        low, high = (middle, high) if nearest(middle) < ball / 2 else (low, middle)
    return 2 * high + ball


def _closer(limits: tuple[float, float], about: float, least: float, most: float) -> tuple[float, float]:
    reach = (limits[1] - limits[0]) / 8
    return max(least, about - reach), min(most, about + reach)


def thickness(teeth: int, pressure_angle: float, shift: float, outside: float, radius: float) -> float:
    """Return the arc thickness of a tooth at a radius, from the points on either side of it."""
    section = flank(teeth, pressure_angle, shift, outside)
    for (x, y), (next_x, next_y) in pairwise(section):
        near, far = np.hypot(x, y), np.hypot(next_x, next_y)
        if near <= radius <= far:
            part = (radius - near) / (far - near)
            return float(2 * radius * np.arctan2(x + part * (next_x - x), y + part * (next_y - y)))
    raise AssertionError("the flank does not reach there")
