"""Chord of one tooth, and the height above it: what a gear tooth calliper is set to and reads.

Measured at the reference circle, in the normal section, where a helical gear's tooth is that of a
spur gear with its virtual teeth. Floats, good to about 1e-14.
Source: derived from the circle; Elements of Metric Gear Technology, Tables 10-1 and 10-4.
"""

from dataclasses import dataclass
from math import asin, cos, sin

from crankwise.part.card import Quantity
from crankwise.part.gear import Gear


@dataclass(frozen=True, slots=True)
class Chord:
    """A gear tooth calliper's setting.

    thickness_mm   what it reads across the tooth, in mm
    addendum_mm    what its tongue is set to, from the top of the tooth, in mm
    half_angle     half the angle of the tooth at its virtual centre, in radians
    """

    thickness_mm: float
    addendum_mm: float
    half_angle: float


def chord(gear: Gear, outside_mm: Quantity | None = None) -> Chord:
    """Return the chordal thickness and addendum of a tooth.

    outside_mm  the blank as measured, in mm: the tongue sits on it; None for the nominal diameter
    """
    circle = _virtual_circle_mm(gear)
    half_angle = gear.tooth_thickness_mm / circle
    taller = 0.0 if outside_mm is None else float(outside_mm - gear.outside_diameter_mm) / 2
    rise = circle / 2 * (1 - cos(half_angle))
    return Chord(circle * sin(half_angle), float(gear.addendum_mm) + rise + taller, half_angle)


def thickness_from_chord(gear: Gear, read_mm: float) -> float | None:
    """Return the arc thickness in mm that a chord read at the reference circle means; None beyond a circle."""
    circle = _virtual_circle_mm(gear)
    return circle * asin(read_mm / circle) if read_mm < circle else None


def _virtual_circle_mm(gear: Gear) -> float:
    return float(gear.normal_module_mm * gear.virtual_teeth)
