"""A worm wheel, gashed tooth by tooth and then hobbed: its blank, the tilt of the head, the gash.

The gashes are what makes the count sure. A hob that is left to find its own way in a plain blank makes as
many teeth as the blank's rim has pitches, and that is often one or more too many.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import atan, cos, gcd, pi, sqrt, tan

from crankwise.errors import Fault, FaultsFound
from crankwise.exact.number import PI, as_text
from crankwise.part.card import Card, CardLine
from crankwise.part.divisions import MOST_DIVISIONS, EqualDivisions
from crankwise.part.gear import TWENTY_DEGREES, Hand
from crankwise.part.part import Part
from crankwise.part.suggestion import at_least, typed_mm
from crankwise.part.usual_lines import CENTRE, CLOSING

ADDENDUM, DEDENDUM = Fraction(1), Fraction(6, 5)
"""In axial modules: 0.2 of clearance, as worm gearing has it. Source: handbooks; from memory."""
GASH_SHARE = Fraction(9, 10)
"""How much of the whole depth the gash takes; the hob takes the rest. Typical, judgement."""
LEAST_TEETH = 12
_MOST_LEAD_ANGLE = 45.0 / 360


@dataclass(frozen=True, slots=True)
class WormWheel:
    """A worm wheel for a cylindrical worm.

    teeth           of the wheel, 12 or more
    module_mm       axial module: axial pitch of the worm over pi, above 0
    worm_mm         pitch diameter of the worm, and of the hob that finishes the wheel
    starts          threads of the worm, 1 to 12
    hand            of the worm, and of the wheel
    pressure_angle  of the worm's thread, in turns, 10 to 35 degrees

    Raises FaultsFound.
    """

    teeth: int
    module_mm: Fraction
    worm_mm: Fraction
    starts: int = 1
    hand: Hand = "right"
    pressure_angle: Fraction = TWENTY_DEGREES

    def __post_init__(self) -> None:
        faults = list(self._faults())
        if faults:
            raise FaultsFound(faults)

    def _faults(self) -> Iterator[Fault]:
        if not LEAST_TEETH <= self.teeth <= MOST_DIVISIONS:
            yield Fault(
                "teeth", f"{self.teeth:,}; a worm wheel has {LEAST_TEETH} teeth or more, mostly 30 to 120"
            )
        if not Fraction(1, 20) <= self.module_mm <= 100:
            yield Fault("module", f"{as_text(self.module_mm)} mm; from 0.05 to 100 mm, axial pitch over pi")
            return
        if not 1 <= self.starts <= 12:
            yield Fault("starts", f"{self.starts}; a worm has 1 to 12 threads, mostly 1")
            return
        if not Fraction(10, 360) <= self.pressure_angle <= Fraction(35, 360):
            yield Fault(
                "pressure angle",
                f"{as_text(self.pressure_angle * 360)} degrees; from 10 to 35 degrees; worms have 20 or 14.5",
            )
        least = (2 * DEDENDUM + 2) * self.module_mm
        if self.worm_mm < least:
            yield Fault(
                "worm",
                f"pitch diameter {typed_mm(self.worm_mm)}; so thin a worm has no body under its thread: "
                f"{at_least(least)} at least for this module",
            )
        elif self.lead_angle > _MOST_LEAD_ANGLE:
            yield Fault(
                "starts",
                f"{self.starts} threads on {typed_mm(self.worm_mm)} lead by over 45 degrees; such a wheel is cut as a "
                "helical gear: give fewer starts or a thicker worm",
            )

    @property
    def ratio(self) -> Fraction:
        """Turns of the worm for one of the wheel."""
        return Fraction(self.teeth, self.starts)

    @property
    def pitch_mm(self) -> Fraction:
        """Axial pitch of the worm, and pitch of the wheel round its pitch circle, in mm."""
        return PI * self.module_mm

    @property
    def lead_mm(self) -> Fraction:
        """Travel of the worm's thread for one turn, in mm."""
        return self.pitch_mm * self.starts

    @property
    def lead_angle(self) -> float:
        """Angle of the worm's thread to a plane square to its axis, in turns. Source: tan = starts x module / worm."""
        return atan(float(self.starts * self.module_mm / self.worm_mm)) / (2 * pi)

    @property
    def pitch_diameter_mm(self) -> Fraction:
        """Pitch diameter of the wheel, in mm."""
        return self.teeth * self.module_mm

    @property
    def throat_diameter_mm(self) -> Fraction:
        """Diameter of the wheel at the bottom of its hollow rim, in mm; of a plain rim, its outside diameter."""
        return (self.teeth + 2 * ADDENDUM) * self.module_mm

    @property
    def throat_radius_mm(self) -> Fraction:
        """Radius of the hollow, in mm: it clears the root of the worm. Source: worm / 2 less a module."""
        return self.worm_mm / 2 - ADDENDUM * self.module_mm

    @property
    def outside_diameter_mm(self) -> Fraction:
        """Diameter over the edges of a hollow rim, in mm: a module over the throat. Source: handbooks; from memory."""
        return self.throat_diameter_mm + self.module_mm

    @property
    def face_mm(self) -> float:
        """Width of the rim that the worm can use, in mm. Source: 2 m sqrt(worm / m + 1); from memory."""
        return 2 * float(self.module_mm) * sqrt(float(self.worm_mm / self.module_mm) + 1)

    @property
    def centres_mm(self) -> Fraction:
        """Distance of the worm's axis from the wheel's, in mm."""
        return (self.pitch_diameter_mm + self.worm_mm) / 2

    @property
    def worm_outside_mm(self) -> Fraction:
        """Outside diameter of the worm, in mm."""
        return self.worm_mm + 2 * ADDENDUM * self.module_mm

    @property
    def hob_outside_mm(self) -> Fraction:
        """Outside diameter of the hob, in mm: it cuts the clearance that the worm leaves."""
        return self.worm_mm + 2 * DEDENDUM * self.module_mm

    @property
    def whole_depth_mm(self) -> Fraction:
        """From the throat to the bottom of a space, in mm."""
        return (ADDENDUM + DEDENDUM) * self.module_mm

    @property
    def gash_depth_mm(self) -> Fraction:
        """How deep a gash goes from the throat, in mm."""
        return GASH_SHARE * self.whole_depth_mm

    @property
    def gash_width_mm(self) -> float:
        """The widest gashing cutter that leaves the hob something on both flanks, in mm.

        Source: derived; the width of a straight-sided space at the gash's bottom, square to the thread.
        """
        below = float(self.gash_depth_mm - ADDENDUM * self.module_mm)
        axial = float(self.pitch_mm) / 2 - 2 * below * tan(2 * pi * float(self.pressure_angle))
        return axial * cos(2 * pi * self.lead_angle)

    @property
    def least_teeth_without_undercut(self) -> int:
        """Fewest teeth that the hob does not undercut. Source: 2 / sin² of the pressure angle, rounded up."""
        turn = 2 * pi * float(self.pressure_angle)
        return int(-(-2 * (1 + 1 / tan(turn) ** 2) // 1))

    @property
    def free_hobbed_teeth(self) -> int:
        """Teeth that a hob left to itself would lay out on the throat: its rim in pitches, rounded down."""
        return int(self.throat_diameter_mm / self.module_mm)


def part_of(wheel: WormWheel) -> Part:
    """Return the wheel's gashes as a part to divide; errors are told as lengths at its pitch circle."""
    return Part(EqualDivisions(wheel.teeth), wheel.pitch_diameter_mm, "space")


def preparation_card(wheel: WormWheel) -> Card:
    """Return what to have ready before the first gash, in the order of work."""
    return Card("Preparation", tuple(_preparation(wheel)))


def _preparation(wheel: WormWheel) -> Iterator[CardLine]:
    throat = wheel.throat_diameter_mm
    yield CardLine("ratio", wheel.ratio, "count", note="turns of the worm for one of the wheel")
    yield CardLine(
        "throat diameter",
        throat,
        "mm",
        throat - Fraction(1, 20),
        throat,
        note="the outside diameter, if the rim is plain",
    )
    yield CardLine("throat radius", wheel.throat_radius_mm, "mm", note="of a hollow rim")
    yield CardLine(
        "outside diameter, about", wheel.outside_diameter_mm, "mm", note="of a hollow rim, over its edges"
    )
    yield CardLine("face, up to", wheel.face_mm, "mm", note="wider does not touch the worm")
    yield CardLine(
        "tilt of the head",
        wheel.lead_angle,
        "turn",
        note=f"the worm's lead angle, {wheel.hand} hand: swing the table or tilt the head so that the gash follows the "
        "thread; try it on the worm",
        set_in=(1,),
    )
    yield CardLine("material", note="bronze or cast iron, to a worm of steel")
    yield CardLine(
        "holding",
        note="on the arbor that it runs true on for the hob too, between washers below the throat; keyed: a gash that "
        "slips is a tooth lost",
    )
    yield CENTRE
    yield CardLine(
        "gashing cutter, up to",
        wheel.gash_width_mm,
        "mm",
        note="under the middle of the rim, on centre; no larger across "
        "than the hob, or gash less deep: a large one goes below the teeth at the edges of the rim",
    )
    yield CardLine(
        "gash depth",
        wheel.gash_depth_mm,
        "mm",
        note="plunged, not fed across, into the throat; the hob does the rest",
        set_in=(1,),
    )
    yield CardLine(
        "hob, outside diameter", wheel.hob_outside_mm, "mm", note="the worm's and twice its clearance"
    )
    yield CardLine(
        "count",
        note=f"gash all {wheel.teeth} first and count them. A hob without gashes makes its own count: the rim of this "
        f"blank has room for about {wheel.free_hobbed_teeth}",
    )
    yield CardLine(
        "hobbing",
        note="wheel free to turn on its arbor, table square again; in to depth a little each turn of the wheel, until "
        "the centre distance is met",
    )
    shared = gcd(wheel.teeth, wheel.starts)
    if shared > 1:
        yield CardLine(
            "starts",
            note=f"{wheel.starts} starts and {wheel.teeth} teeth share {shared}: each tooth meets the same threads for "
            "ever, so an error of one thread does not wear even",
        )
    if wheel.teeth < wheel.least_teeth_without_undercut:
        yield CardLine(
            "undercut",
            note=f"under {wheel.least_teeth_without_undercut} teeth the hob undercuts at this pressure angle; turn the "
            "blank larger by up to a module, and set the centres so much wider",
        )


def measuring_card(wheel: WormWheel) -> Card:
    """Return what to measure, and what to do if it is off."""
    return Card(
        "Measuring",
        (
            CardLine("gashes", Fraction(wheel.teeth), "count", note="counted, before the hob goes near"),
            CardLine(
                "centre distance",
                wheel.centres_mm,
                "mm",
                note="set between worm and wheel: stiff at it, hob deeper; loose, the wheel is too deep",
            ),
            CardLine("worm, outside diameter", wheel.worm_outside_mm, "mm"),
            CardLine("worm, lead", wheel.lead_mm, "mm"),
            CardLine(
                "turns",
                wheel.ratio,
                "count",
                note="turn the worm so often: a line on the wheel comes back to its place",
            ),
            CLOSING,
        ),
    )
