"""The outline of a gear's tooth as a rolling rack leaves it: root, fillet, flank and tip.

A rack is rolled round the gear without slip. Where it touches the finished tooth, its normal passes through
the pitch point; that alone gives every point, of the flank (an involute) and of the fillet (a trochoid), in
closed form. With the pitch point at 0, 0, a point of the rack at (x, y) with normal (a, b) touches when the rack
has gone s = y a / b - x, and the gear has then turned by s / pitch radius. Where the rack cuts under the
flank, fillet and flank cross, and the tooth ends there.

The rack's corner is rounded as large as its straight side to one addendum leaves room for:
clearance / (1 - sin pressure angle), which for 0.25 modules at 20 degrees is the 0.38 modules of ISO 53.
A form cutter leaves the root a little otherwise. A helical gear is drawn in its transverse section.
Floats: every point lies on its curve to about 1e-12 mm at module 1; between points the outline is straight.
Source: derived, the law of gearing; ISO 53:1998 for the rack, from memory.
"""

from dataclasses import dataclass
from math import acos, atan2, ceil, cos, hypot, pi, sin, sqrt, tan

from crankwise.part.gear import Gear
from crankwise.part.involute import involute

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class ToothForm:
    """Half of one space, from the middle of its bottom to the middle of the tooth's tip.

    points   radius in mm and angle from the middle of the space in radians, angles from 0 to half a pitch
    """

    points: tuple[Point, ...]
    teeth: int

    def outline(self) -> tuple[Point, ...]:
        """Return the whole gear as x, y in mm round its axis, the middle of a space at the top, clockwise.

        The outline is closed: its last point joins its first.
        """
        half = self.points
        pitch = [(radius, -angle) for radius, angle in reversed(half[1:])] + [*half[:-1]]
        outline = []
        for space in range(self.teeth):
            at = 2 * pi * space / self.teeth
            outline += [(radius * sin(at + angle), radius * cos(at + angle)) for radius, angle in pitch]
        return tuple(outline)


def tooth_form(gear: Gear, chord_mm: float) -> ToothForm:
    """Return the form of the spaces.

    chord_mm  how far a curve may bulge out of the straight lines between its points, in mm, above 0
    """
    tip = float(gear.outside_diameter_mm) / 2
    rack = _Rack.of(gear)
    fillet = rack.fillet(chord_mm)
    flank_from = gear.form_diameter_mm / 2
    if gear.is_undercut or rack.is_pointed:
        fillet, flank_from = _cut_where_they_cross(gear, rack, fillet)
    flank = _flank(gear, flank_from, tip, chord_mm)
    half_pitch = pi / gear.teeth
    floor, land = fillet[0][1], half_pitch - flank[-1][1]
    points = [*_round(fillet[0][0], 0.0, floor, chord_mm), *fillet, *flank[1:]]
    points += _round(tip, half_pitch - land, half_pitch, chord_mm)[1:]
    points.append((tip, half_pitch))
    return ToothForm(tuple(points), gear.teeth)


@dataclass(frozen=True, slots=True)
class _Rack:
    """The rack's tooth that cuts one space, in the transverse section; lengths in mm, from the middle of the tooth.

    radius    pitch radius of the gear
    floor     y of the rack's tip, below 0: how far it reaches inside the pitch circle
    centre    x, y of the rounding's middle
    rounding  its radius in the normal section; across it is stretched to rounding x stretch
    angle     transverse pressure angle
    """

    radius: float
    floor: float
    centre: Point
    rounding: float
    stretch: float
    angle: float
    is_pointed: bool

    @classmethod
    def of(cls, gear: Gear) -> "_Rack":
        angle, stretch = gear.transverse_pressure_angle, 1 / cos(gear.helix_radians)
        shift = float(gear.shift_mm) - float(gear.thinning_infeed_mm)
        half_width = float(gear.transverse_module_mm) * pi / 4 - shift * tan(angle)  # at the pitch line
        radius = float(gear.pitch_diameter_mm) / 2
        floor = float(gear.root_diameter_mm) / 2 - radius
        point = -half_width / tan(angle)
        is_pointed = floor <= point
        floor = max(floor, point)
        # The corner where the straight side meets the tip, and the largest rounding that both have room for.
        corner = half_width + floor * tan(angle)
        normal = gear.normal_pressure_angle
        clearance = float(gear.whole_depth_mm) - 2 * float(gear.system.addendum * gear.module_mm)
        rounding = min(clearance / (1 - sin(normal)), corner / stretch / tan(pi / 4 - normal / 2))
        rounding = max(rounding, 0.0)
        centre = (corner - rounding * stretch * tan(pi / 4 - normal / 2), floor + rounding)
        return cls(radius, floor, centre, rounding, stretch, angle, is_pointed)

    def touches(self, share: float) -> Point:
        """Return radius and angle of the fillet's point that one point of the rounding leaves.

        share  0 where the rounding leaves the tip, 1 where it joins the straight side
        """
        normal = _normal_angle(self.angle, self.stretch)
        turned = pi / 2 - share * (pi / 2 - normal)
        across, down = cos(turned), -sin(turned)
        x, y = (
            self.centre[0] + self.rounding * self.stretch * across,
            self.centre[1] + self.rounding * down,
        )
        # The normal of the stretched rounding; on a circle it is (across, down) itself.
        travel = y * (across / self.stretch) / down - x
        return hypot(x + travel, self.radius + y), atan2(x + travel, self.radius + y) - travel / self.radius

    def fillet(self, chord_mm: float) -> list[Point]:
        """Return the fillet from the root outward."""
        # A trochoid turns by less than a right angle; its radius of curvature is of the order of its own length.
        length = self.rounding * self.stretch + abs(self.floor)
        count = max(4, ceil(pi / 2 / sqrt(8 * chord_mm / length)) if chord_mm < length else 4)
        return [self.touches(step / count) for step in range(count + 1)]


def _normal_angle(transverse: float, stretch: float) -> float:
    """The pressure angle in the normal section, from that in the transverse one."""
    slope = tan(transverse) / stretch
    return acos(1 / sqrt(1 + slope * slope))


def _cut_where_they_cross(gear: Gear, rack: _Rack, fillet: list[Point]) -> tuple[list[Point], float]:
    """Return the fillet as far as its crossing with the flank, and the radius of that."""
    half_pitch, base = pi / gear.teeth, gear.base_diameter_mm / 2

    def proud(point: Point) -> float:
        """How far the fillet lies in the flank's tooth, as an angle; below 0 where the flank has cut it away."""
        radius, angle = point
        return angle - (half_pitch - gear.thickness_at(2 * radius) / (2 * radius))

    shares = [step / (len(fillet) - 1) for step in range(len(fillet))]
    for place in range(1, len(fillet)):
        point, before = fillet[place], fillet[place - 1]
        if point[0] > base and proud(point) < 0 and (before[0] <= base or proud(before) >= 0):
            low, high = shares[place - 1], shares[place]
            for _ in range(60):
                middle = (low + high) / 2
                here = rack.touches(middle)
                if here[0] > base and proud(here) < 0:
                    high = middle
                else:
                    low = middle
            crossing = rack.touches(low)
            return [*fillet[:place], crossing], crossing[0]
    return fillet, max(fillet[-1][0], base)


def _flank(gear: Gear, start: float, end: float, chord_mm: float) -> list[Point]:
    """Return the involute from one radius to another, by equal steps of its roll."""
    base = gear.base_diameter_mm / 2
    first, last = (sqrt(max(radius * radius / (base * base) - 1, 0.0)) for radius in (start, end))
    count = max(2, ceil((last - first) / sqrt(8 * chord_mm / (base * last))))
    edge = pi / gear.teeth - gear.half_tooth_at_base
    points = []
    for step in range(count + 1):
        roll = first + (last - first) * step / count
        radius = base * sqrt(1 + roll * roll)
        points.append((radius, edge + involute(acos(base / radius))))
    return points


def _round(radius: float, start: float, end: float, chord_mm: float) -> list[Point]:
    """Return an arc round the axis without its last point."""
    count = max(1, ceil((end - start) / sqrt(8 * chord_mm / radius)))
    return [(radius, start + (end - start) * step / count) for step in range(count)]
