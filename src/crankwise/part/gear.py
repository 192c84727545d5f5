"""A spur or helical gear: what is asked of it, and the sizes that follow.

What is rational stays exact: module, addendum, depth, and for a spur gear every diameter but the base
circle's. Where a helix or a flank comes in the values are floats, good to about fourteen digits,
which at module 1 is far below a millionth of a millimetre.
Sources: ISO 21771:2007 for all formulas of the involute, from memory; a helical gear's are the same in its
transverse section. Letters of the standard are kept out of names.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import acos, atan, cos, pi, sin, sqrt, tan
from typing import Literal

from crankwise.errors import Fault, FaultsFound
from crankwise.exact.number import as_text
from crankwise.part.card import Quantity
from crankwise.part.divisions import MOST_DIVISIONS, EqualDivisions
from crankwise.part.gear_system import FULL_DEPTH, GearSystem
from crankwise.part.involute import involute
from crankwise.part.part import Part

LEAST_TEETH = 5
TWENTY_DEGREES = Fraction(20, 360)
_LEAST_MODULE, _MOST_MODULE = Fraction(1, 20), Fraction(100)
_LEAST_ANGLE, _MOST_ANGLE = Fraction(10, 360), Fraction(35, 360)
_MOST_HELIX = Fraction(60, 360)

Hand = Literal["right", "left"]


@dataclass(frozen=True, slots=True)
class Gear:
    """A gear with involute teeth on a cylinder.

    teeth           5 to 1,000,000
    module_mm       0.05 to 100; the normal one, unless `is_transverse`
    pressure_angle  10 to 35 degrees, in turns; in the same section as the module
    shift           profile shift in modules: positive moves the cutter out and makes teeth thicker
    helix           helix angle at the reference circle, in turns; 0 for a spur gear, to 60 degrees
    hand            hand of the helix
    is_transverse   module, pressure angle and shift are told in the transverse section
    thinning_mm     how much thinner a tooth is left at its reference circle, for backlash, in mm
    system          the proportions of the tooth

    Raises FaultsFound with all that is out of range, and when the teeth would run to a point.
    """

    teeth: int
    module_mm: Fraction
    pressure_angle: Fraction = TWENTY_DEGREES
    shift: Fraction = Fraction(0)
    helix: Fraction = Fraction(0)
    hand: Hand = "right"
    is_transverse: bool = False
    thinning_mm: Fraction = Fraction(0)
    system: GearSystem = FULL_DEPTH

    def __post_init__(self) -> None:
        faults = list(tooth_faults(self.teeth, self.module_mm, self.pressure_angle))
        faults += self._own_faults()
        if not faults and self.root_diameter_mm <= 0:
            faults.append(
                Fault("shift", f"{as_text(self.shift)} modules; the spaces would meet at the centre")
            )
        elif not faults and self.tip_thickness_mm <= 0:
            faults.append(Fault("teeth", self._pointed()))
        if faults:
            raise FaultsFound(faults)

    @property
    def is_helical(self) -> bool:
        """Whether the teeth wind round the cylinder."""
        return self.helix != 0

    @property
    def helix_radians(self) -> float:
        """The helix angle at the reference circle, in radians."""
        return float(self.helix) * 2 * pi

    @property
    def normal_module_mm(self) -> Quantity:
        """The module of the cutter, in mm."""
        return self.module_mm * cos(self.helix_radians) if self._turned(to_normal=True) else self.module_mm

    @property
    def transverse_module_mm(self) -> Quantity:
        """The module in the plane of rotation, in mm: reference diameter over teeth."""
        return self.module_mm / cos(self.helix_radians) if self._turned(to_normal=False) else self.module_mm

    @property
    def normal_pressure_angle(self) -> float:
        """The cutter's pressure angle, in radians. Source: tan normal = tan transverse x cos helix."""
        told = float(self.pressure_angle) * 2 * pi
        return atan(tan(told) * cos(self.helix_radians)) if self._turned(to_normal=True) else told

    @property
    def transverse_pressure_angle(self) -> float:
        """The pressure angle in the plane of rotation, in radians."""
        told = float(self.pressure_angle) * 2 * pi
        return atan(tan(told) / cos(self.helix_radians)) if self._turned(to_normal=False) else told

    @property
    def base_helix(self) -> float:
        """The helix angle at the base circle, in radians. Source: tan base = tan helix x cos pressure angle."""
        return atan(tan(self.helix_radians) * cos(self.transverse_pressure_angle))

    @property
    def virtual_teeth(self) -> Quantity:
        """Teeth of the spur gear that has the same tooth in its normal section: teeth / cos^3 helix.

        Source: every handbook, from memory; it chooses the cutter, and the chord of the tooth.
        """
        return self.teeth / cos(self.helix_radians) ** 3 if self.is_helical else Fraction(self.teeth)

    @property
    def pitch_diameter_mm(self) -> Quantity:
        """Diameter of the reference circle, in mm."""
        return self.teeth * self.transverse_module_mm

    @property
    def base_diameter_mm(self) -> float:
        """Diameter of the circle that the flanks unwind from, in mm."""
        return float(self.pitch_diameter_mm) * cos(self.transverse_pressure_angle)

    @property
    def shift_mm(self) -> Fraction:
        """How far the profile is shifted out, in mm; the same in either section."""
        return self.shift * self.module_mm

    @property
    def addendum_mm(self) -> Fraction:
        """Height of the tooth above the reference circle, in mm."""
        return self.system.addendum * self.module_mm + self.shift_mm

    @property
    def whole_depth_mm(self) -> Fraction:
        """Depth of a space from the outside diameter, before any thinning, in mm."""
        return self.system.whole_depth_mm(self.module_mm)

    @property
    def outside_diameter_mm(self) -> Quantity:
        """Diameter of the blank, in mm: pitch diameter and two addenda."""
        return self.pitch_diameter_mm + 2 * self.addendum_mm

    @property
    def thinning_infeed_mm(self) -> Quantity:
        """How much deeper the space is cut to thin the tooth, in mm: thinning / (2 tan pressure angle)."""
        if not self.thinning_mm:
            return Fraction(0)
        return float(self.thinning_mm) / (2 * tan(self.normal_pressure_angle))

    @property
    def root_diameter_mm(self) -> Quantity:
        """Diameter at the bottom of the spaces, in mm."""
        return self.outside_diameter_mm - 2 * self.whole_depth_mm - 2 * self.thinning_infeed_mm

    @property
    def tooth_thickness_mm(self) -> float:
        """Arc thickness of the tooth at its reference circle, in the normal section, in mm."""
        unshifted = float(self.normal_module_mm) * pi / 2
        return (
            unshifted + 2 * float(self.shift_mm) * tan(self.normal_pressure_angle) - float(self.thinning_mm)
        )

    @property
    def half_tooth_at_base(self) -> float:
        """Half the angle that a tooth takes up at the base circle, in radians, transverse section."""
        across = self.tooth_thickness_mm / cos(self.helix_radians)
        return across / float(self.pitch_diameter_mm) + involute(self.transverse_pressure_angle)

    def thickness_at(self, diameter_mm: float) -> float:
        """Return the arc thickness of a tooth in the transverse section, in mm; from the base circle out."""
        at = acos(min(1.0, self.base_diameter_mm / diameter_mm))
        return diameter_mm * (self.half_tooth_at_base - involute(at))

    @property
    def tip_thickness_mm(self) -> float:
        """Arc thickness of a tooth at the outside, in mm; 0 or less where the teeth run to a point."""
        return self.thickness_at(float(self.outside_diameter_mm))

    @property
    def form_diameter_mm(self) -> float:
        """Diameter from which on the flank is an involute, in mm; the base circle where the rack undercuts.

        The straight flank of the basic rack ends one addendum below its reference line. On an undercut
        tooth the flank really begins a little outside the base circle; this is not worked out here.
        Source: derived: a rack's point at depth h leaves the line of action at r sin a - h / sin a.
        """
        angle = self.transverse_pressure_angle
        along = float(self.pitch_diameter_mm) / 2 * sin(angle) - self._rack_depth_mm / sin(angle)
        return sqrt(self.base_diameter_mm**2 + 4 * max(along, 0.0) ** 2)

    @property
    def undercut_limit(self) -> float:
        """Teeth below which the basic rack undercuts: 17.1 for full depth at 20 degrees without shift.

        Source: 2 x addendum / sin^2 of the pressure angle, every handbook, from memory; less the shift.
        """
        depth = float(self.system.addendum * self.module_mm - self.shift_mm)
        return 2 * depth / (float(self.transverse_module_mm) * sin(self.transverse_pressure_angle) ** 2)

    @property
    def least_teeth_without_undercut(self) -> int:
        """The fewest whole teeth that the basic rack does not undercut, at this shift."""
        return max(1, -int(-self.undercut_limit // 1))

    @property
    def least_shift_without_undercut(self) -> float:
        """The profile shift, in modules, from which on these teeth are not undercut; may be below 0."""
        clear = float(self.pitch_diameter_mm) / 2 * sin(self.transverse_pressure_angle) ** 2
        return float(self.system.addendum) - clear / float(self.module_mm)

    @property
    def is_undercut(self) -> bool:
        """Whether the basic rack would undercut these teeth."""
        return self.teeth < self.undercut_limit

    def _turned(self, to_normal: bool) -> bool:
        """Whether a value that was told must be taken from the one section to the other."""
        return self.is_helical and self.is_transverse == to_normal

    @property
    def _rack_depth_mm(self) -> float:
        out = float(self.shift_mm) - float(self.thinning_infeed_mm)
        return float(self.system.addendum * self.module_mm) - out

    def _own_faults(self) -> Iterator[Fault]:
        if not -1 <= self.shift <= 2:
            yield Fault(
                "shift",
                f"{as_text(self.shift)} modules; a profile shift lies from -1 to 2, mostly from 0 to 0.6",
            )
        yield from helix_faults(self.helix)
        if not 0 <= self.thinning_mm <= max(self.module_mm, Fraction(0)) / 2:
            yield Fault(
                "thinning",
                f"{as_text(self.thinning_mm)} mm; a tooth is thinned for backlash by 0 to half a module, "
                "mostly by 0.02 to 0.1 mm",
            )

    def _pointed(self) -> str:
        shifted = f" and a shift of {as_text(self.shift)} modules" if self.shift else ""
        return (
            f"with {self.teeth} of them at {_degrees(self.pressure_angle)} degrees{shifted} the teeth would run to a "
            "point before the outside diameter; give less shift, more teeth, a smaller pressure angle or stub teeth"
        )


def part_of(gear: Gear) -> Part:
    """Return the gear's spaces as a part to divide; errors are told as lengths at its pitch circle."""
    divisions, rim_mm = EqualDivisions(gear.teeth), Fraction(gear.pitch_diameter_mm)
    return Part(divisions, rim_mm, "space", is_geared=gear.is_helical)


def tooth_faults(teeth: int, module_mm: Fraction, pressure_angle: Fraction) -> Iterator[Fault]:
    """Yield what is out of range in what any gear is asked by."""
    if teeth < LEAST_TEETH:
        yield Fault("teeth", f"{teeth}; a gear has {LEAST_TEETH} teeth or more, and form cutters begin at 12")
    elif teeth > MOST_DIVISIONS:
        yield Fault("teeth", f"{teeth:,}; at most {MOST_DIVISIONS:,}")
    if module_mm <= 0:
        yield Fault(
            "module", f"{as_text(module_mm)} mm; a module is above 0: pitch diameter over teeth, as 1 or 1.25"
        )
    elif not _LEAST_MODULE <= module_mm <= _MOST_MODULE:
        yield Fault("module", f"{as_text(module_mm)} mm; from 0.05 to 100 mm, that is DP 508 to 0.254")
    if not _LEAST_ANGLE <= pressure_angle <= _MOST_ANGLE:
        yield Fault(
            "pressure angle",
            f"{_degrees(pressure_angle)} degrees; from 10 to 35 degrees; gears have 20, older ones 14.5",
        )


def helix_faults(helix: Fraction) -> Iterator[Fault]:
    """Yield what is out of range in a helix angle, in turns."""
    if helix < 0:
        yield Fault("helix", f"{_degrees(helix)} degrees; give it above 0, and the hand as right or left")
    elif helix > _MOST_HELIX:
        yield Fault(
            "helix",
            f"{_degrees(helix)} degrees; a helical gear winds by 0 to 60 degrees, and a mill's table "
            "swings to about 45; nearer 90 it is a worm, which is cut as a thread",
        )


def _degrees(turns: Fraction) -> str:
    return as_text(turns * 360)
