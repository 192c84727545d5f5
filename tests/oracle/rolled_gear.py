"""A gear cut by a rack of polygons that rolls round it, taken away place by place. Module 1 throughout.

Shares nothing with the package: no involute, no trochoid, no envelope. The rack's corner is rounded by shrinking
and growing its polygon. The ridges between two places, and the straight pieces of the rack's corner, are less
than a ten-thousandth of a millimetre.
"""

from math import cos, pi, sin, tan

import numpy as np
from shapely import LineString, MultiPolygon, Polygon, unary_union
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

PLACES = 1500
REACH = 5.0
_OUT = 3.0


def rack_tooth(pressure_angle: float, dedendum: float, rounding: float) -> Polygon:
    """Return the rack's tooth that cuts one space, pointing down, its reference line at y = 0."""
    slope = tan(pressure_angle)
    wide, narrow = pi / 4 + 2 * _OUT * slope, pi / 4 - dedendum * slope
    sharp = Polygon([(-wide, 2 * _OUT), (-narrow, -dedendum), (narrow, -dedendum), (wide, 2 * _OUT)])
    if not rounding:
        return sharp
    rounded = sharp.buffer(-rounding, join_style="mitre", mitre_limit=50).buffer(rounding, quad_segs=60)
    # Growing rounds the upper corners too, far outside the gear.
    return _largest(rounded.intersection(Polygon([(-9, _OUT), (-9, -9), (9, -9), (9, _OUT)])))


def half_tooth(
    teeth: int, pressure_angle: float, shift: float, dedendum: float, rounding: float, outside: float
) -> Polygon:
    """Return the right half of a tooth that stands upright, from the axis to the outside radius."""
    radius, half = teeth / 2, pi / teeth
    edge = np.linspace(0, half, 2000)
    blank = Polygon([(0.0, 0.0), *zip(outside * np.sin(edge), outside * np.cos(edge), strict=True)])
    tooth = rack_tooth(pressure_angle, dedendum, rounding)
    cuts = []
    for along in np.linspace(-REACH, REACH, PLACES):
        # The rack goes right by `along` and the gear turns clockwise by as much on its pitch circle. Seen from
        # the gear the rack is turned back, then on to the space on the right of the tooth.
        turned = along / radius - half
        a, b = cos(turned), sin(turned)
        x, y = along, radius + shift
        cuts.append(affine_transform(tooth, [a, -b, b, a, a * x - b * y, b * x + a * y]))
    return _largest(blank.difference(unary_union(cuts)))


def _largest(shape: BaseGeometry) -> Polygon:
    pieces = shape.geoms if isinstance(shape, MultiPolygon) else [shape]
    largest = max(pieces, key=lambda piece: float(piece.area))
    assert isinstance(largest, Polygon)
    return largest


def arc_inside(shape: Polygon, radius: float, half_pitch: float) -> float:
    """Return how long an arc round the axis lies in the shape, to half a pitch to the right."""
    angles = np.linspace(0, half_pitch, 40_001)
    arc = LineString(np.stack([radius * np.sin(angles), radius * np.cos(angles)], axis=1))
    return float(arc.intersection(shape).length)
