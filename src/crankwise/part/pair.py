"""Two gears in mesh: how far apart they stand, how many teeth share the load, and whether they foul.

Floats, good to about 1e-13. Source: ISO 21771 (working pressure angle, contact ratio), from memory;
Elements of Metric Gear Technology, Table 4-4 for the addenda of a shifted pair.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import acos, cos, pi, sin, sqrt, tan
from typing import Literal

from crankwise.errors import Fault, FaultsFound
from crankwise.exact.number import as_text
from crankwise.part.gear import Gear
from crankwise.part.involute import inverse_involute, involute

Trouble = Literal["gap", "tight", "beyond", "root", "bottom"]
"""gap: under one tooth in contact; tight: no backlash at these centres; beyond: a tip of one works past the
base tangent of the other; root: a tip meets the fillet below the other's involute; bottom: a tip touches the
bottom of a space."""


@dataclass(frozen=True, slots=True)
class Pair:
    """Two gears that are to run together.

    first, second  the gears; same module and pressure angle, and for helical ones the same helix and opposite hands
    centres_mm     the distance they are set at, in mm; None for the distance without backlash of the full teeth

    Raises FaultsFound when they cannot be a pair, or cannot reach each other.
    """

    first: Gear
    second: Gear
    centres_mm: Fraction | None = None

    def __post_init__(self) -> None:
        faults = list(self._faults())
        if faults:
            raise FaultsFound(faults)

    @property
    def reference_centres_mm(self) -> float:
        """Half the sum of the two pitch diameters, in mm."""
        return float(self.first.pitch_diameter_mm + self.second.pitch_diameter_mm) / 2

    @property
    def tight_centres_mm(self) -> float:
        """Where both teeth, before any thinning, would run without backlash, in mm."""
        return self._centres_at(self._tight_angle)

    @property
    def mesh_limits_mm(self) -> tuple[float, float]:
        """Centre distances between which the teeth are in mesh at all, in mm: base circles, and tips, that touch."""
        return self._base_radii, float(self.first.outside_diameter_mm + self.second.outside_diameter_mm) / 2

    @property
    def working_centres_mm(self) -> float:
        """Where the gears stand, in mm."""
        return self.tight_centres_mm if self.centres_mm is None else float(self.centres_mm)

    @property
    def working_pressure_angle(self) -> float:
        """The pressure angle at which they run, transverse section, in radians."""
        if self.centres_mm is None:
            return self._tight_angle
        return acos(self._base_radii / float(self.centres_mm))

    @property
    def backlash_mm(self) -> float:
        """Play along the working circles, transverse section, in mm; below 0 they cannot be put together.

        Source: derived; the pitch there less the two teeth.
        """
        across = 1 / cos(self.working_pressure_angle)
        teeth = sum(gear.thickness_at(gear.base_diameter_mm * across) for gear in (self.first, self.second))
        return pi * self.first.base_diameter_mm * across / self.first.teeth - teeth

    @property
    def shift_sum(self) -> float:
        """The profile shifts, in modules as they were told, that both need together to run tight at these centres."""
        gear = self.first
        turned = involute(self.working_pressure_angle) - involute(gear.transverse_pressure_angle)
        teeth = self.first.teeth + self.second.teeth
        shift_mm = turned * teeth * float(gear.normal_module_mm) / (2 * tan(gear.normal_pressure_angle))
        return shift_mm / float(gear.module_mm)

    def working_diameter_mm(self, gear: Gear) -> float:
        """Return the diameter of the circle on which one of the two rolls, in mm."""
        return gear.base_diameter_mm / cos(self.working_pressure_angle)

    def clearance_mm(self, gear: Gear) -> float:
        """Return what is left between the tips of one gear and the bottom of the other's spaces, in mm."""
        other = self._mate(gear)
        return self.working_centres_mm - float(gear.outside_diameter_mm + other.root_diameter_mm) / 2

    def full_clearance_diameter_mm(self, gear: Gear) -> float:
        """Return the outside diameter that leaves one gear the clearance its system means, in mm.

        Source: addendum = (system's addendum + y - the mate's shift) modules, y the distance that the centres are
        moved apart, in modules. Without shift it is the gear's own outside diameter.
        """
        apart = self.working_centres_mm - self.reference_centres_mm
        full = float(gear.system.addendum * gear.module_mm) + apart - float(self._mate(gear).shift_mm)
        return float(gear.pitch_diameter_mm) + 2 * full

    @property
    def contact_ratio(self) -> float:
        """Pairs of teeth in contact on the average, transverse section: 1 or more, or the drive halts.

        Of teeth that do not foul: where they do, it is what they would have, and is not reached.
        """
        pitch = pi * self.first.base_diameter_mm / self.first.teeth
        return (
            sum(self._past_tangent(gear) for gear in (self.first, self.second)) - self._tangent_length
        ) / pitch

    def overlap_ratio(self, face_mm: Fraction) -> float:
        """Return how many teeth a helix adds to the contact over a face of so many mm."""
        gear = self.first
        return float(face_mm) * sin(gear.helix_radians) / (pi * float(gear.normal_module_mm))

    @property
    def troubles(self) -> tuple[Trouble, ...]:
        """What would go wrong in the mesh; empty when nothing would."""
        return tuple(self._troubles())

    @property
    def fouls(self) -> bool:
        """Whether teeth meet where they must not, so that the contact ratio is not reached."""
        return any(trouble != "gap" for trouble in self.troubles)

    def _troubles(self) -> Iterator[Trouble]:
        hair = 1e-9 * float(self.first.module_mm)
        if self.backlash_mm < -hair:
            yield "tight"
        if self.contact_ratio < 1:
            yield "gap"
        both = (self.first, self.second)
        if any(self._past_tangent(gear) > self._tangent_length + hair for gear in both):
            yield "beyond"
        elif any(self._contact_begins_mm(gear) < gear.form_diameter_mm - hair for gear in both):
            yield "root"
        if any(self.clearance_mm(gear) < -hair for gear in both):
            yield "bottom"

    @property
    def _base_radii(self) -> float:
        return (self.first.base_diameter_mm + self.second.base_diameter_mm) / 2

    @property
    def _tight_angle(self) -> float:
        """Source: inv working = inv reference + 2 tan normal x sum of shifts / sum of teeth."""
        gear = self.first
        shift = float(self.first.shift_mm + self.second.shift_mm) / float(gear.normal_module_mm)
        teeth = self.first.teeth + self.second.teeth
        turned = 2 * tan(gear.normal_pressure_angle) * shift / teeth
        return inverse_involute(involute(gear.transverse_pressure_angle) + turned)

    def _centres_at(self, angle: float) -> float:
        return self._base_radii / cos(angle)

    @property
    def _tangent_length(self) -> float:
        """The line of action from one base circle to the other, in mm."""
        return self.working_centres_mm * sin(self.working_pressure_angle)

    def _past_tangent(self, gear: Gear) -> float:
        """How far along the line of action a gear's tips reach, from its own base circle, in mm."""
        return sqrt(max(0.0, float(gear.outside_diameter_mm) ** 2 - gear.base_diameter_mm**2)) / 2

    def _contact_begins_mm(self, gear: Gear) -> float:
        """The diameter on a gear that the other's tips reach down to, in mm."""
        left = max(0.0, self._tangent_length - self._past_tangent(self._mate(gear)))
        return sqrt(gear.base_diameter_mm**2 + 4 * left**2)

    def _mate(self, gear: Gear) -> Gear:
        return self.second if gear is self.first else self.first

    def _faults(self) -> Iterator[Fault]:
        one, other = self.first, self.second
        for what, same in (
            ("module", one.module_mm == other.module_mm),
            ("pressure angle", one.pressure_angle == other.pressure_angle),
            ("helix", (one.helix, one.is_transverse) == (other.helix, other.is_transverse)),
        ):
            if not same:
                yield Fault(f"mate's {what}", "not the same; two gears mesh only with the same one")
        if one.is_helical and one.hand == other.hand:
            yield Fault(
                "mate's hand", f"{other.hand}, as the first; on parallel shafts the hands are opposite"
            )
        shift = involute(one.transverse_pressure_angle) + 2 * tan(one.normal_pressure_angle) * float(
            one.shift_mm + other.shift_mm
        ) / float(one.normal_module_mm) / (one.teeth + other.teeth)
        if shift <= 0:
            yield Fault(
                "mate's shift",
                f"{as_text(one.shift)} and {as_text(other.shift)} modules; too far below 0 to mesh",
            )
        elif self.centres_mm is not None:
            least, most = self.mesh_limits_mm
            if not least < self.centres_mm < most:
                yield Fault("centres", f"{as_text(self.centres_mm)} mm; these gears are not in mesh there")
