"""Proportions of gear teeth: how far they stand out of the reference circle, and how deep the space goes.

A convention is named, never guessed: 2.25 modules and 2.157 modules of depth are both "full depth",
and a tooth cut to one will not clear a mate made to the other as it should.
"""

from dataclasses import dataclass
from fractions import Fraction

from crankwise.exact.length import INCH


@dataclass(frozen=True, slots=True)
class GearSystem:
    """One convention, in modules; a module is 25.4 mm over the diametral pitch.

    key             what it is asked by
    name            what it is called
    addendum        height of the tooth above the reference circle
    dedendum        depth of the space below it
    extra_depth_mm  depth added to every space whatever its module, in mm
    source          where the figures come from
    """

    key: str
    name: str
    addendum: Fraction
    dedendum: Fraction
    extra_depth_mm: Fraction = Fraction(0)
    source: str = ""

    def whole_depth_mm(self, module_mm: Fraction) -> Fraction:
        """Return the depth of a space from the outside, in mm, for a module in mm.

        >>> INCH_FULL_DEPTH.whole_depth_mm(INCH / 24) / INCH
        Fraction(719, 8000)
        """
        return (self.addendum + self.dedendum) * module_mm + self.extra_depth_mm


FULL_DEPTH = GearSystem(
    "full-depth",
    "full depth, 2.25 modules (ISO 53, basic rack A)",
    Fraction(1),
    Fraction("1.25"),
    source="ISO 53:1998, profile A; from memory",
)
INCH_FULL_DEPTH = GearSystem(
    "inch",
    "inch full depth, 2.157 / DP",
    Fraction(1),
    Fraction("1.157"),
    source="ASA B6.1-1932, as handbooks give it; from memory",
)
INCH_FINE = GearSystem(
    "inch-fine",
    "inch fine pitch, 2.2 / DP + 0.002 in (DP 20 and finer)",
    Fraction(1),
    Fraction("1.2"),
    INCH / 500,
    "ANSI/AGMA 207.06, as handbooks give it; from memory",
)
SIXTH_CLEARANCE = GearSystem(
    "sixth",
    "full depth with 1/6 module of clearance, 2 1/6 modules",
    Fraction(1),
    Fraction(7, 6),
    source="older European practice; from memory",
)
STUB = GearSystem(
    "stub",
    "stub, 1.8 modules",
    Fraction("0.8"),
    Fraction(1),
    source="20 degree stub of the handbooks, 1.8 / DP; from memory",
)

GEAR_SYSTEMS = {
    system.key: system for system in (FULL_DEPTH, INCH_FULL_DEPTH, INCH_FINE, SIXTH_CLEARANCE, STUB)
}
