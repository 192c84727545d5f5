"""The leaves of a clock pinion: radial flanks, and a rounded top of one of three forms by the number of leaves.

A wheel that drives touches a leaf on or past the line of centres, on the flank; the top only has to stay clear.
All factors, of the module: BS 978-2:1952, as recalled and not checked. So they are drawn, and told nowhere as sizes to
work to: what comes with a pinion cutter goes before them.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import atan2, cos, hypot, sin, sqrt

from crankwise.part.clock_wheel import ClockWheel
from crankwise.part.polar import Point

FOOT_CLEARANCE = Fraction(4, 10)
"""How much deeper than the wheel's tooth is high a space goes, in modules. Source: as above."""
_FORMS = (
    (7, Fraction("1.05"), Fraction("0.855"), Fraction("1.05")),
    (9, Fraction("1.05"), Fraction("0.67"), Fraction("0.7")),
    (10, Fraction("1.05"), Fraction("0.525"), Fraction("0.525")),
    (20, Fraction("1.25"), Fraction("0.625"), Fraction("0.625")),
)
"""Up to so many leaves: thickness of a leaf, height over the pitch circle, radius of the top."""


@dataclass(frozen=True, slots=True)
class ClockPinion:
    """The pinion that a clock wheel drives; lengths in mm."""

    wheel: ClockWheel

    @property
    def _form(self) -> tuple[int, Fraction, Fraction, Fraction]:
        return next(form for form in _FORMS if self.wheel.leaves <= form[0])

    @property
    def thickness_mm(self) -> Fraction:
        """Thickness of a leaf round the pitch circle, in mm."""
        return self._form[1] * self.wheel.module_mm

    @property
    def addendum_mm(self) -> Fraction:
        """Height of a leaf over the pitch circle, in mm."""
        return self._form[2] * self.wheel.module_mm

    @property
    def top_radius_mm(self) -> Fraction:
        """Radius of either side of a leaf's top, in mm."""
        return self._form[3] * self.wheel.module_mm

    @property
    def outside_diameter_mm(self) -> Fraction:
        """Outside diameter of the pinion, in mm."""
        return self.wheel.pinion_pitch_diameter_mm + 2 * self.addendum_mm

    @property
    def root_diameter_mm(self) -> float:
        """Diameter at the bottom of the spaces, in mm."""
        dedendum = self.wheel.addendum_mm + float(FOOT_CLEARANCE * self.wheel.module_mm)
        return float(self.wheel.pinion_pitch_diameter_mm) - 2 * dedendum

    def half_leaf(self, pieces: int) -> list[Point]:
        """Return half a leaf that stands upright, x, y in mm: from the root on its right to its top.

        pieces  straight pieces of its top, 2 or more

        Source: derived; a radial flank as thick as a leaf at the pitch circle, and one arc from there to the top.
        """
        pitch = float(self.wheel.pinion_pitch_diameter_mm) / 2
        half = float(self.thickness_mm) / 2 / pitch
        root = self.root_diameter_mm / 2
        start = pitch * sin(half), pitch * cos(half)
        top = 0.0, pitch + float(self.addendum_mm)
        middle, radius = _round_through(start, top, float(self.top_radius_mm))
        first, last = (atan2(y - middle[1], x - middle[0]) for x, y in (start, top))
        rounded = [first + (last - first) * piece / pieces for piece in range(pieces)]
        points = [(middle[0] + radius * cos(angle), middle[1] + radius * sin(angle)) for angle in rounded]
        return [(root * sin(half), root * cos(half)), *points, top]


def _round_through(start: Point, end: Point, radius: float) -> tuple[Point, float]:
    """Return the middle and the radius of the arc that bulges to the right from one point to the other.

    The radius is the one given, or half the distance of the two where that is more.
    """
    across, up = end[0] - start[0], end[1] - start[1]
    length = hypot(across, up)
    radius = max(radius, length / 2)
    aside = sqrt(radius * radius - length * length / 4)
    return (
        (start[0] + end[0]) / 2 - aside * up / length,
        (start[1] + end[1]) / 2 + aside * across / length,
    ), radius
