"""The outline of a straight bevel gear's teeth at its large end, seen along the axis.

The back cone is unrolled: on it the tooth is that of a spur gear with the virtual teeth (Tredgold). Its flank is
that gear's involute; where the space goes below the base circle the flank runs on straight to the centre,
as that of a form cutter does. Rolled up again and seen along the axis, a point of the back cone keeps its
place round the pitch circle, so its angle grows by 1 / cos pitch angle, and its radius shrinks by cos pitch angle.
The small end is the same outline, smaller: every line of a straight tooth runs to the apex.
The rounding of the root is the cutter's; it is drawn sharp.
Floats, good to about 1e-12 mm. Source: Tredgold, every handbook, from memory; the projection, derived here.
"""

from math import acos, ceil, cos, pi, sin, sqrt

from crankwise.part.bevel import BevelGear
from crankwise.part.involute import involute

Point = tuple[float, float]


def bevel_outline(gear: BevelGear, chord_mm: float) -> tuple[Point, ...]:
    """Return the large end as x, y in mm round the axis, the middle of a space at the top, clockwise; it is closed.

    chord_mm  how far a curve may bulge out of the straight lines between its points, in mm, above 0
    """
    half = half_space(gear, chord_mm)
    space = [(radius, -angle) for radius, angle in reversed(half[1:])] + half
    outline = []
    for number in range(gear.teeth):
        at = 2 * pi * number / gear.teeth
        outline += [(radius * sin(at + angle), radius * cos(at + angle)) for radius, angle in space[:-1]]
    return tuple(outline)


def half_space(gear: BevelGear, chord_mm: float) -> list[Point]:
    """Return half a space, from the middle of its bottom to the middle of the next tooth's top.

    The points are radius in mm and angle from the middle of the space in radians, as seen along the axis.
    """
    across, pressure = cos(gear.pitch_angle), float(gear.pressure_angle) * 2 * pi
    pitch = float(gear.pitch_diameter_mm) / 2 / across
    base, virtual = pitch * cos(pressure), gear.virtual_teeth
    root, tip = pitch - float(gear.dedendum_mm), pitch + float(gear.addendum_mm)
    start = max(root, base)
    # By equal steps of the involute's roll, as many as its sharpest end needs.
    first, last = (sqrt(max(radius * radius / (base * base) - 1, 0.0)) for radius in (start, tip))
    count = max(3, ceil((last - first) / sqrt(8 * chord_mm / (base * max(last, 0.1)))))
    flank = []
    for step in range(count + 1):
        roll = first + (last - first) * step / count
        radius = base * sqrt(1 + roll * roll)
        half_tooth = pi / (2 * virtual) + involute(pressure) - involute(acos(base / radius))
        flank.append((radius, pi / virtual - half_tooth))
    points = [(root, flank[0][1]), *flank] if root < base else flank
    rounded = [*_arc(root, 0.0, points[0][1], chord_mm), *points]
    rounded += [*_arc(tip, points[-1][1], pi / virtual, chord_mm)[1:], (tip, pi / virtual)]
    return [(radius * across, angle / across) for radius, angle in rounded]


def _arc(radius: float, start: float, end: float, chord_mm: float) -> list[Point]:
    """Return an arc without its last point."""
    count = max(1, ceil((end - start) / sqrt(8 * chord_mm / radius)))
    return [(radius, start + (end - start) * step / count) for step in range(count)]
