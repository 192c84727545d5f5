"""A wheel and its pinion for clockwork: cycloidal wheel teeth, radial pinion flanks.

Only what can be derived, or has its source beside it, is here. The height of a wheel's tooth follows from
rolling a circle of half the pinion on the wheel; how much of it a maker's cutter leaves is the cutter's.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import atan2, cos, hypot, pi, sin

from crankwise.errors import Fault, FaultsFound
from crankwise.exact.number import PI, as_text
from crankwise.part.card import Card, CardLine
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.part.polar import Point
from crankwise.part.usual_lines import CLOSING, TRACE

TIP_SHARE = Fraction(95, 100)
"""How much of the full height a wheel's tooth keeps. Source: BS 978-2, practical addendum; from memory, not checked."""
LEAST_LEAVES, MOST_LEAVES = 6, 20


@dataclass(frozen=True, slots=True)
class ClockWheel:
    """A wheel that drives a pinion.

    teeth      of the wheel, 20 to 500; more than the pinion has leaves
    leaves     of the pinion, 6 to 20
    module_mm  pitch diameter over teeth, 0.05 to 5 mm
    tip_share  how much of the full ogive's height the tooth keeps, 0.8 to 1

    Raises FaultsFound.
    """

    teeth: int
    leaves: int
    module_mm: Fraction
    tip_share: Fraction = TIP_SHARE

    def __post_init__(self) -> None:
        faults = list(self._faults())
        if faults:
            raise FaultsFound(faults)

    def _faults(self) -> Iterator[Fault]:
        if not 20 <= self.teeth <= 500:
            yield Fault("teeth", f"{self.teeth:,}; a clock wheel has 20 to 500 teeth")
        if not LEAST_LEAVES <= self.leaves <= MOST_LEAVES:
            yield Fault(
                "pinion",
                f"{self.leaves} leaves; a pinion has {LEAST_LEAVES} to {MOST_LEAVES}, mostly 6 to 12",
            )
        elif self.leaves >= self.teeth:
            yield Fault(
                "pinion", f"{self.leaves} leaves to {self.teeth} teeth; the wheel that drives has more teeth"
            )
        if not Fraction(1, 20) <= self.module_mm <= 5:
            yield Fault("module", f"{as_text(self.module_mm)} mm; from 0.05 to 5 mm: clocks have 0.2 to 1")
        if not Fraction(4, 5) <= self.tip_share <= 1:
            yield Fault(
                "tip share", f"{as_text(self.tip_share)}; from 0.8 to 1 of the full height, mostly 0.95"
            )

    @property
    def pitch_diameter_mm(self) -> Fraction:
        """Pitch diameter of the wheel, in mm."""
        return self.teeth * self.module_mm

    @property
    def pinion_pitch_diameter_mm(self) -> Fraction:
        """Pitch diameter of the pinion, in mm."""
        return self.leaves * self.module_mm

    @property
    def centres_mm(self) -> Fraction:
        """Distance of the two arbors, in mm: their pitch circles just touch."""
        return (self.pitch_diameter_mm + self.pinion_pitch_diameter_mm) / 2

    @property
    def tooth_thickness_mm(self) -> Fraction:
        """Thickness of a wheel's tooth round the pitch circle, in mm: half the pitch."""
        return PI * self.module_mm / 2

    @property
    def full_addendum_mm(self) -> float:
        """Height over the pitch circle at which the two flanks of a tooth meet, in mm.

        Source: derived. The flank is the epicycloid of a circle of half the pinion's pitch diameter; it
        starts a quarter of a pitch from the tooth's middle, and the tip is where it reaches the middle.
        The angle gone rises steadily with the roll, so the roll is found by halving an interval.
        """
        quarter = pi / (2 * self.teeth)
        low, high = 0.0, pi * float(Fraction(self.leaves, 2 * self.teeth + self.leaves))
        for _ in range(80):
            middle = (low + high) / 2
            x, y = self.flank_point(middle)
            if atan2(y, x) < quarter:
                low = middle
            else:
                high = middle
        return hypot(*self.flank_point(low)) - float(self.pitch_diameter_mm) / 2

    def flank_point(self, rolled: float) -> Point:
        """Return a point of the flank, in mm from the wheel's centre, its start on the +X axis.

        rolled  how far the rolling circle's centre has gone round the wheel, in radians, 0 to half its own turn
        """
        wheel = float(self.pitch_diameter_mm) / 2
        circle = float(self.pinion_pitch_diameter_mm) / 4
        turned = rolled * (wheel + circle) / circle
        return (
            (wheel + circle) * cos(rolled) - circle * cos(turned),
            (wheel + circle) * sin(rolled) - circle * sin(turned),
        )

    @property
    def addendum_mm(self) -> float:
        """Height of the tooth over the pitch circle as it is cut, in mm."""
        return self.full_addendum_mm * float(self.tip_share)

    @property
    def outside_diameter_mm(self) -> float:
        """Outside diameter of the wheel's blank, in mm."""
        return float(self.pitch_diameter_mm) + 2 * self.addendum_mm


def part_of(wheel: ClockWheel) -> Part:
    """Return the wheel's spaces as a part to divide; errors are told as lengths at its pitch circle."""
    return Part(EqualDivisions(wheel.teeth), wheel.pitch_diameter_mm, "space")


def pinion_part_of(wheel: ClockWheel) -> Part:
    """Return the pinion's spaces as a part to divide; errors are told as lengths at its pitch circle."""
    return Part(EqualDivisions(wheel.leaves), wheel.pinion_pitch_diameter_mm, "space")


def preparation_card(wheel: ClockWheel) -> Card:
    """Return what to have ready before the first cut, in the order of work."""
    kept = as_text(wheel.tip_share * 100)
    return Card(
        "Preparation",
        (
            CardLine("wheel, pitch diameter", wheel.pitch_diameter_mm, "mm"),
            CardLine(
                "wheel, outside diameter",
                wheel.outside_diameter_mm,
                "mm",
                note=f"for {kept} % of the full height; what comes with the cutter goes first: the outside "
                "diameter belongs to the cutter's form",
            ),
            CardLine(
                "height over the pitch circle",
                wheel.addendum_mm,
                "mm",
                note="the cutter's form is for this pinion",
            ),
            CardLine(
                "tooth thickness",
                wheel.tooth_thickness_mm,
                "mm",
                note="round the pitch circle: half the pitch",
            ),
            CardLine(
                "cutter",
                using="cycloidal wheel cutter of this module",
                note="its own depth: cut until the tops just come to a point's width, alike on both flanks",
            ),
            CardLine("pinion, pitch diameter", wheel.pinion_pitch_diameter_mm, "mm"),
            CardLine(
                "pinion cutter",
                using=f"cycloidal pinion cutter of this module for {wheel.leaves} leaves",
                note="roughing slot first; take the outside diameter from the cutter's own table",
            ),
            CardLine(
                "blanks",
                note="thin brass in a stack between backing plates, on an arbor close behind the rim; unsupported "
                "teeth bend and lean",
            ),
            CardLine("brass with lead in it", note="no dry blowing, no food, wash your hands"),
            CardLine("cutter on centre", note="and square: a tooth cut off centre leans, and it shows"),
            TRACE,
        ),
    )


def measuring_card(wheel: ClockWheel) -> Card:
    """Return what to check, and what to do if it is off."""
    return Card(
        "Measuring",
        (
            CardLine(
                "centre distance",
                wheel.centres_mm,
                "mm",
                note="set in a depthing tool before the plates are drilled: the pitch circles just touch; it matters "
                "more than the form of the teeth",
            ),
            CardLine(
                "pitch, from tooth to tooth",
                PI * wheel.module_mm,
                "mm",
                note="round the pitch circle; typical of good work: alike within 0.02 to 0.03 mm; rounding up cures no "
                "unequal division",
            ),
            CardLine("last space", note="a last gap narrower than the others: the count or the step was off"),
            CLOSING,
        ),
    )
