"""A straight bevel gear cut with form cutters on a mill: an approximation, and what it asks for.

A true bevel tooth grows towards its large end in thickness, depth and curve. A form cutter has one curve,
so a space is cut three times: once on centre, then once for each flank, with the table offset and the blank
rolled, so that both ends come out right at the pitch circle. Above and below it the small end is
left a little full, and is filed; such gears are for slow and light work.

The two finishing cuts, derived here: let the cutter be `w` wide at the pitch line of the large end and `v`
at that of the small end, where the space is shallower. The cutter's side is to pass the pitch point of the
flank at both ends, at radius r and r x small / large. With the blank rolled by p and the table offset by o
the side stands at  w / 2 + r p - o  and at  v / 2 + r' p - o  from the middle of the space, and is to
stand at half the space there, r pi / 2z and r' pi / 2z. So

    p = pi / 2z - (w - v) / (2 (r - r'))         o = w / 2 - (cone distance / face) x (w - v) / 2

which has the form that handbooks print as "half the cutter's thickness less a factor / DP".
Floats, good to about 1e-13 of the formulas; the approximation itself is far coarser.
Sources: cone angles and virtual teeth (Tredgold), every handbook, from memory; the cuts, derived above.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import atan, atan2, cos, pi, sin

from crankwise.errors import Fault, FaultsFound
from crankwise.exact.number import as_text
from crankwise.part.divisions import EqualDivisions
from crankwise.part.gear import TWENTY_DEGREES, Gear, tooth_faults
from crankwise.part.gear_system import FULL_DEPTH, GearSystem
from crankwise.part.part import Part
from crankwise.part.suggestion import at_most, typed_mm

RIGHT_ANGLE = Fraction(1, 4)


@dataclass(frozen=True, slots=True)
class BevelGear:
    """One gear of a straight bevel pair; sizes are those of the large end.

    teeth           5 to 1,000,000
    mate_teeth      teeth of the gear that it meshes with, 5 or more
    module_mm       at the large end, 0.05 to 100
    face_mm         length of the teeth along the cone, above 0 and below the cone distance
    pressure_angle  10 to 35 degrees, in turns
    shaft_angle     between the two shafts, 10 to 170 degrees, in turns
    system          the proportions of the tooth

    Raises FaultsFound with all that is out of range.
    """

    teeth: int
    mate_teeth: int
    module_mm: Fraction
    face_mm: Fraction
    pressure_angle: Fraction = TWENTY_DEGREES
    shaft_angle: Fraction = RIGHT_ANGLE
    system: GearSystem = FULL_DEPTH

    def __post_init__(self) -> None:
        faults = [*tooth_faults(self.teeth, self.module_mm, self.pressure_angle), *self._pair_faults()]
        if not faults:
            faults += self._cone_faults()
        if faults:
            raise FaultsFound(faults)

    @property
    def pitch_diameter_mm(self) -> Fraction:
        """Pitch diameter at the large end, in mm."""
        return self.teeth * self.module_mm

    @property
    def pitch_angle(self) -> float:
        """Pitch cone angle, from the axis, in radians. Source: tan = sin shafts / (mate / teeth + cos shafts)."""
        shafts = float(self.shaft_angle) * 2 * pi
        return atan2(sin(shafts), self.mate_teeth / self.teeth + cos(shafts))

    @property
    def cone_distance_mm(self) -> float:
        """From the apex to the large end along the pitch cone, in mm."""
        return float(self.pitch_diameter_mm) / (2 * sin(self.pitch_angle))

    @property
    def root_angle(self) -> float:
        """Root cone angle, from the axis, in radians: the head is tilted by so much from level."""
        return self.pitch_angle - atan(self.dedendum_mm / self.cone_distance_mm)

    @property
    def face_angle(self) -> float:
        """Face cone angle, from the axis, in radians: the blank is turned to it."""
        return self.pitch_angle + atan(self.addendum_mm / self.cone_distance_mm)

    @property
    def addendum_mm(self) -> Fraction:
        """Height of the tooth above the pitch cone at the large end, in mm."""
        return self.system.addendum * self.module_mm

    @property
    def dedendum_mm(self) -> Fraction:
        """Depth of the space below the pitch cone at the large end, in mm."""
        return self.whole_depth_mm - self.addendum_mm

    @property
    def whole_depth_mm(self) -> Fraction:
        """Depth of the space at the large end, square to the pitch cone, in mm."""
        return self.system.whole_depth_mm(self.module_mm)

    @property
    def outside_diameter_mm(self) -> float:
        """Largest diameter of the blank, in mm."""
        return float(self.pitch_diameter_mm) + 2 * float(self.addendum_mm) * cos(self.pitch_angle)

    @property
    def virtual_teeth(self) -> float:
        """Teeth of the spur gear whose tooth the back cone shows: teeth / cos pitch cone angle (Tredgold)."""
        return self.teeth / cos(self.pitch_angle)

    @property
    def small_to_large(self) -> float:
        """The small end's sizes as a part of the large end's."""
        return 1 - float(self.face_mm) / self.cone_distance_mm

    @property
    def face_is_long(self) -> bool:
        """Whether the face is over a third of the cone distance, where the small end grows too thin to cut well."""
        return 3 * float(self.face_mm) > self.cone_distance_mm

    @property
    def widest_cutter_mm(self) -> float:
        """The widest that a cutter may be at the small end's pitch line, in mm: it must pass the space there."""
        return float(self.module_mm) * pi / 2 * self.small_to_large

    def _pair_faults(self) -> Iterator[Fault]:
        if self.mate_teeth < 5:
            yield Fault("mate", f"{self.mate_teeth}; a gear has 5 teeth or more")
        if not Fraction(10, 360) <= self.shaft_angle <= Fraction(170, 360):
            yield Fault(
                "shaft angle",
                f"{as_text(self.shaft_angle * 360)} degrees; bevel shafts meet at 10 to 170 degrees, mostly at 90",
            )
        if self.face_mm <= 0:
            yield Fault("face", f"{as_text(self.face_mm)} mm; the length of the teeth is above 0")

    def _cone_faults(self) -> Iterator[Fault]:
        if self.pitch_angle >= pi / 2:
            yield Fault(
                "shaft angle",
                f"{as_text(self.shaft_angle * 360)} degrees with {self.teeth} and {self.mate_teeth} teeth makes an "
                "internal or a flat crown gear; a smaller shaft angle is needed",
            )
        elif float(self.face_mm) >= self.cone_distance_mm / 2:
            yield Fault(
                "face",
                f"{typed_mm(self.face_mm)}; over half of the cone distance: {at_most(self.cone_distance_mm / 3)}, a "
                "third of it, is the usual most",
            )


def part_of_bevel(gear: BevelGear) -> Part:
    """Return the spaces as a part to divide; errors are told as lengths at the pitch circle of the large end."""
    return Part(EqualDivisions(gear.teeth), gear.pitch_diameter_mm, "space")


@dataclass(frozen=True, slots=True)
class FinishingCut:
    """The two cuts that finish the flanks, each as far the one way as the other.

    cutter_mm    width of the cutter at the large end's pitch line, in mm
    cutter_small_mm  its width where the small end's pitch line comes, in mm
    offset_mm    how far the table is moved off centre
    roll         how far the blank is rolled the other way, about its own axis, in turns
    """

    cutter_mm: float
    cutter_small_mm: float
    offset_mm: float
    roll: float


def finishing_cut(gear: BevelGear, form_teeth: int, cutter_mm: Fraction | None = None) -> FinishingCut:
    """Return the offset and the roll of the two finishing cuts.

    form_teeth  the teeth that the cutter has the form of: the fewest of its range
    cutter_mm   its width, measured one dedendum of the large end from its tip, in mm; None for the widest
                that passes the space at the small end, as cutters made for bevel gears do
    """
    narrows = _narrowing_mm(gear, form_teeth)
    width = gear.widest_cutter_mm + narrows if cutter_mm is None else float(cutter_mm)
    half = narrows / 2
    radii_apart = float(gear.pitch_diameter_mm) / 2 * (1 - gear.small_to_large)
    offset = width / 2 - half / (1 - gear.small_to_large)
    return FinishingCut(
        width, width - narrows, offset, (pi / (2 * gear.teeth) - half / radii_apart) / (2 * pi)
    )


def _narrowing_mm(gear: BevelGear, form_teeth: int) -> float:
    """How much narrower the cutter is where the small end's pitch line comes, in mm.

    Taken from the space of the gear that the cutter has the form of. Where that comes below the base circle
    the flank of a form cutter runs on straight towards the centre.
    """
    form = Gear(form_teeth, gear.module_mm, gear.pressure_angle, system=gear.system)
    pitch = float(form.pitch_diameter_mm)
    lower = pitch - 2 * float(gear.dedendum_mm) * (1 - gear.small_to_large)
    return _space_width(form, pitch) - _space_width(form, lower)


def _space_width(form: Gear, diameter_mm: float) -> float:
    """Width of a space, as a chord in mm; below the base circle its flanks are radial."""
    at = max(diameter_mm, form.base_diameter_mm)
    return diameter_mm * sin(pi / form.teeth - form.thickness_at(at) / at)
