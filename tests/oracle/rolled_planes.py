"""A helical gear as the planes that roll over it: the flank of a slanting rack, put into each of its places.

No involute, no base circle and no transverse section: a tooth is what lies behind all places of one plane. A jaw
is such a plane too, so that a span is read between two parallel ones; a ball touches the nearest place. Shares
nothing with the package. Lengths in mm, angles in radians; the tooth stands upright, on the +y axis.
"""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclass(frozen=True)
class RolledGear:
    """A gear told in its normal section; thinning is what a tooth is thinner at its reference circle."""

    teeth: int
    module: float
    pressure_angle: float
    shift: float = 0.0
    helix: float = 0.0
    thinning: float = 0.0

    @property
    def radius(self) -> float:
        """Of the circle that rolls on the rack."""
        return float(self.teeth * self.module / np.cos(self.helix) / 2)

    @property
    def half(self) -> float:
        """Half the tooth, measured along that circle."""
        square = np.pi * self.module / 2 + 2 * self.shift * self.module * np.tan(self.pressure_angle)
        return float((square - self.thinning) / 2 / np.cos(self.helix))

    def places(self, turned: Array, left: bool = False) -> tuple[Array, Array]:
        """Return the normals, outwards, and the distances from the axis of the right flank's planes, or of the left's.

        turned  how far the gear has turned, each
        """
        along = np.array([np.sin(self.helix), 0, np.cos(self.helix)])
        square = np.array([np.cos(self.helix), 0, -np.sin(self.helix)])
        normal = np.cross(-np.tan(self.pressure_angle) * square + np.array([0, 1, 0]), along)
        normal /= np.linalg.norm(normal) * np.sign(normal @ square)
        away = normal[0] * (self.half - self.radius * turned) + normal[1] * self.radius
        cosine, sine = np.cos(turned), np.sin(turned)
        normals = np.stack(
            [
                cosine * normal[0] + sine * normal[1],
                cosine * normal[1] - sine * normal[0],
                np.full_like(turned, normal[2]),
            ],
            axis=1,
        )
        # Half a turn about the tooth's own middle line makes the one flank the other, of the same hand.
        return (normals * (-1, 1, -1) if left else normals), away


def jaws_apart(gear: RolledGear, over: int) -> float:
    """Return what is read over so many teeth: between a right plane and a left one that lie parallel."""
    across = 2 * np.pi * (over - 1) / gear.teeth

    def pair(turned: float) -> tuple[Array, Array, float]:
        (right, away), (left, reach) = (gear.places(np.array([turned]), left=side) for side in (False, True))
        cosine, sine = np.cos(across), np.sin(across)
        x, y, z = left[0]
        return (
            right[0],
            np.array([cosine * x - sine * y, sine * x + cosine * y, z]),
            float(away[0] + reach[0]),
        )

    def askew(turned: float) -> float:
        one, other, _ = pair(turned)
        return float(one[0] * other[1] - one[1] * other[0])

    tried = np.linspace(-1.6, 1.6, 801)  # a jaw stands within a quarter turn of the tooth that it touches
    for low, high in pairwise(tried):
        if askew(low) * askew(high) < 0:
            one, other, apart = pair(_crossing(askew, float(low), float(high)))
            if one @ other < 0:
                return apart
    raise AssertionError("no parallel planes")


def clearances(gear: RolledGear, centre: float) -> Array:
    """Return how far a point in the middle of a space, `centre` from the axis, is from the flank beside it.

    One distance for each place of the plane at which the point is square to the flank; a ball that rests there has
    one of them for its radius.
    """
    at = np.array([centre * np.sin(np.pi / gear.teeth), centre * np.cos(np.pi / gear.teeth), 0.0])

    def away(turned: Array) -> Array:
        normals, reach = gear.places(turned)
        found: Array = normals @ at - reach
        return found

    def slope(turned: float) -> float:
        low, high = away(np.array([turned - 1e-6, turned + 1e-6]))
        return float(high - low)

    tried = np.linspace(-1.4, 1.4, 701)
    slopes = [slope(float(turned)) for turned in tried]
    square = [
        _crossing(slope, float(tried[place]), float(tried[place + 1]))
        for place in range(len(tried) - 1)
        if slopes[place] * slopes[place + 1] < 0
    ]
    return away(np.array(square))


def section(gear: RolledGear, outside: float) -> tuple[Array, Array]:
    """Return the flank across the axis, from its foot to the outside: radii rising, and angles from the middle."""
    turned = np.linspace(-1.6, 1.6, 40_000)
    normals, away = gear.places(turned)
    (a, b), (c, d) = normals[:-1, :2].T, normals[1:, :2].T
    wide = a * d - b * c
    x, y = (away[:-1] * d - away[1:] * b) / wide, (a * away[1:] - c * away[:-1]) / wide
    radii, angles = np.hypot(x, y), np.arctan2(x, y)
    foot = int(np.argmin(radii))
    for branch in (slice(foot + 1, None), slice(foot - 1, None, -1)):
        kept = radii[branch] <= outside
        if np.all(np.diff(angles[branch][kept]) < 0):
            return radii[branch][kept], angles[branch][kept]
    raise AssertionError("no flank")


def play(first: RolledGear, second: RolledGear, outsides: tuple[float, float], centres: float) -> float:
    """Return the angle that the second gear can be rocked through while a tooth of the first points at its axis.

    outsides  the outside radii
    """
    radii, angles = section(first, outsides[0])
    others, leans = section(second, outsides[1])

    def overlap(turned: float) -> float:
        """How deep the second's tooth, that much above the line of centres, stands in the first's; below 0, clear."""
        at = turned - leans
        x, y = centres - others * np.cos(at), others * np.sin(at)
        far = np.hypot(x, y)
        meets = (far < outsides[0]) & (far > radii[0])
        return float(np.max(np.interp(far, radii, angles) - np.arctan2(y, x), where=meets, initial=-1.0))

    clear = 3 * np.pi / second.teeth
    while overlap(clear - 1e-3) < 0:
        clear -= 1e-3
    return 2 * (np.pi / second.teeth - _crossing(overlap, clear - 1e-3, clear))


def _crossing(law: Callable[[float], float], low: float, high: float) -> float:
    rises = law(high) > 0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (low, middle) if (law(middle) > 0) == rises else (middle, high)
    return (low + high) / 2
