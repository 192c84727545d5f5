"""A ratchet wheel cut with a single-angle cutter: its tooth, the cutter, the offset and the infeed.

Seen from the front with the cutter over the wheel: the face of a tooth is cut by the cutter's straight
side, the back of the next tooth by its slant. The pawl holds against the face.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import asin, atan2, cos, hypot, pi, sin, sqrt, tan
from typing import Literal

from crankwise.errors import Fault, FaultsFound
from crankwise.exact.number import as_text
from crankwise.part.card import Card, CardLine
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.part.pass_lines import pass_lines
from crankwise.part.polar import Point
from crankwise.part.suggestion import at_least, at_most, typed_mm

Way = Literal["clockwise", "anticlockwise"]
MOST_TEETH = 1000
_MOST_UNDERCUT = Fraction(20, 360)
_LEAST_CUTTER, _MOST_CUTTER = Fraction(20, 360), Fraction(85, 360)


@dataclass(frozen=True, slots=True)
class Ratchet:
    """A ratchet wheel.

    teeth       3 to 1000
    outside_mm  outside diameter, above 0
    depth_mm    depth of a tooth along its face, above 0
    land_mm     width left on top of each tooth, along the rim; 0 for a sharp one
    undercut    how far the face leans over the space, in turns, 0 to 20 degrees; 0 for a radial face
    free        the way the wheel turns freely, seen from the front

    Raises FaultsFound with what would work.
    """

    teeth: int
    outside_mm: Fraction
    depth_mm: Fraction
    land_mm: Fraction = Fraction(0)
    undercut: Fraction = Fraction(0)
    free: Way = "anticlockwise"

    def __post_init__(self) -> None:
        faults = list(self._faults())
        if faults:
            raise FaultsFound(faults)

    def _faults(self) -> Iterator[Fault]:
        if not 3 <= self.teeth <= MOST_TEETH:
            yield Fault("teeth", f"{self.teeth:,}; a ratchet wheel has 3 to {MOST_TEETH} teeth")
        for what, length in (("outside", self.outside_mm), ("depth", self.depth_mm)):
            if length <= 0:
                yield Fault(what, f"{as_text(length)} mm; it is above 0")
        if not 0 <= self.undercut <= _MOST_UNDERCUT:
            yield Fault(
                "undercut",
                f"{as_text(self.undercut * 360)} degrees; a face leans by 0 to 20 degrees, mostly 0 to 10",
            )
        if self.land_mm < 0:
            yield Fault("land", f"{as_text(self.land_mm)} mm; a land is 0 or more")
        if self.teeth < 3 or self.outside_mm <= 0 or self.depth_mm <= 0:
            return
        pitch = pi * float(self.outside_mm) / self.teeth
        if self.land_mm >= pitch / 2:
            yield Fault(
                "land",
                f"{typed_mm(self.land_mm)}; the teeth are {at_most(pitch)} apart on the rim, and a land takes "
                f"less than half of it, so up to {at_most(pitch / 2.001)}",
            )
        elif self.depth_mm >= self.outside_mm / 4:
            yield Fault(
                "depth",
                f"{typed_mm(self.depth_mm)}; so deep the teeth leave no body to the wheel; up to a quarter of the "
                f"outside diameter, {at_most(self.outside_mm / 4)}",
            )
        elif not _LEAST_CUTTER <= self.cutter_angle <= _MOST_CUTTER:
            turn = self.cutter_angle
            deeper = turn > _MOST_CUTTER
            yield Fault(
                "depth",
                f"{typed_mm(self.depth_mm)}; the space would be {as_text(Fraction(round(turn * 3600), 10))} degrees "
                "wide, and cutters are from 20 to 85 degrees: "
                + (
                    f"cut deeper, {at_least(pitch * tan(pi / 36) * 1.1)} or so at least"
                    if deeper
                    else f"cut less deep, {at_most((pitch - float(self.land_mm)) / tan(pi / 9) * 0.9)} or so at most"
                ),
            )

    @property
    def radius_mm(self) -> float:
        """Half the outside diameter, in mm."""
        return float(self.outside_mm) / 2

    @property
    def offset_mm(self) -> float:
        """How far the cutter's straight side stands past the centre, towards the tooth, in mm; 0 for a radial face.

        Source: derived. A face that leans by the undercut at its tip stands R sin(undercut) from the centre.
        """
        return self.radius_mm * sin(2 * pi * float(self.undercut))

    @property
    def tip(self) -> Point:
        """The tip of a tooth, in mm from the wheel's centre; the face goes straight down from it.

        Source: derived; on the outside circle, `offset_mm` beside the centre.
        """
        return -self.offset_mm, sqrt(self.radius_mm**2 - self.offset_mm**2)

    @property
    def root(self) -> Point:
        """The bottom of the space, in mm from the wheel's centre."""
        return self.tip[0], self.tip[1] - float(self.depth_mm)

    @property
    def back_edge(self) -> Point:
        """Where the back of the next tooth meets the land or the tip, in mm from the wheel's centre.

        Source: derived; a tooth on from the tip along the outside circle, less the land.
        """
        turned = -2 * pi * float(self.undercut) + 2 * pi / self.teeth - float(self.land_mm) / self.radius_mm
        return self.radius_mm * sin(turned), self.radius_mm * cos(turned)

    @property
    def cutter_angle(self) -> float:
        """Angle between the cutter's straight side and its slant, in turns.

        Source: derived; the angle at the root between the face and the line to the edge of the next land.
        """
        (x, y), (edge_x, edge_y) = self.root, self.back_edge
        return atan2(edge_x - x, edge_y - y) / (2 * pi)

    @property
    def infeed_mm(self) -> float:
        """From a touch on the top of the blank to full depth, in mm."""
        return self.radius_mm - self.root[1]

    @property
    def root_diameter_mm(self) -> float:
        """Diameter over the bottoms of the spaces, in mm."""
        return 2 * hypot(*self.root)


def ratchet_for_cutter(
    teeth: int, outside_mm: Fraction, depth_mm: Fraction, cutter: Fraction, undercut: Fraction, free: Way
) -> Ratchet:
    """Return the wheel that a given single-angle cutter leaves at this depth; its land follows.

    cutter  angle between the cutter's straight side and its slant, in turns

    Source: derived; the slant from the root is met with the rim. Raises FaultsFound when the teeth would
    come out lower than the blank, or the cutter has no such angle.
    """
    if not _LEAST_CUTTER <= cutter <= _MOST_CUTTER:
        raise FaultsFound(
            [
                Fault(
                    "cutter",
                    f"{as_text(cutter * 360)} degrees; single-angle cutters are from 20 to 85 degrees",
                )
            ]
        )
    sharp = Ratchet(teeth, outside_mm, depth_mm, Fraction(0), undercut, free)
    if float(cutter) > sharp.cutter_angle + 1e-9:
        raise FaultsFound(
            [
                Fault(
                    "cutter",
                    f"{as_text(cutter * 360)} degrees; at {typed_mm(depth_mm)} it would cut the next tip away: a "
                    f"cutter of {as_text(Fraction(int(sharp.cutter_angle * 3600), 10))} degrees at most, or less depth",
                )
            ]
        )
    x, y = sharp.root
    turn = 2 * pi * float(cutter)
    dx, dy = sin(turn), cos(turn)
    along = -(x * dx + y * dy) + sqrt((x * dx + y * dy) ** 2 - (x * x + y * y - sharp.radius_mm**2))
    edge = atan2(x + along * dx, y + along * dy)
    land = (asin(sharp.tip[0] / sharp.radius_mm) + 2 * pi / teeth - edge) * sharp.radius_mm
    pitch = 2 * pi * sharp.radius_mm / teeth
    if land >= pitch / 2:
        raise FaultsFound(
            [
                Fault(
                    "cutter",
                    f"{as_text(cutter * 360)} degrees; at {typed_mm(depth_mm)} it leaves more land than tooth, "
                    f"{at_most(land)} of {at_most(pitch)}: cut deeper, or take a wider angle, up to "
                    f"{as_text(Fraction(int(sharp.cutter_angle * 3600), 10))} degrees",
                )
            ]
        )
    return Ratchet(
        teeth, outside_mm, depth_mm, Fraction(max(land, 0.0)).limit_denominator(10**9), undercut, free
    )


def part_of(ratchet: Ratchet) -> Part:
    """Return the wheel's spaces as a part to divide; errors are told as lengths at its rim."""
    return Part(EqualDivisions(ratchet.teeth), ratchet.outside_mm, "space")


def preparation_card(ratchet: Ratchet) -> Card:
    """Return what to have ready before the first cut, in the order of work."""
    return Card("Preparation", tuple(_preparation(ratchet)))


def _preparation(ratchet: Ratchet) -> Iterator[CardLine]:
    outside = ratchet.outside_mm
    faces = "clockwise" if ratchet.free == "anticlockwise" else "anticlockwise"
    to_the = "right" if faces == "clockwise" else "left"
    yield CardLine(
        "outside diameter", outside, "mm", outside - Fraction(1, 20), outside, note="turned on its arbor"
    )
    yield CardLine(
        "hand",
        note=f"seen from the front the faces look {faces}: the wheel turns freely {ratchet.free}, and the pawl holds "
        f"it the other way; the cutter's slant is to the {to_the}. Mark the front of the blank before it is cut",
    )
    yield CardLine(
        "cutter",
        ratchet.cutter_angle,
        "turn",
        using="single-angle cutter",
        note="a smaller angle leaves a wider land, a larger one cuts the tips away",
        set_in=(1,),
    )
    if ratchet.undercut:
        yield CardLine(
            "straight side past the centre",
            ratchet.offset_mm,
            "mm",
            note=f"to the {'left' if to_the == 'right' else 'right'}, towards the tooth: the face "
            "leans and draws the pawl in",
            set_in=(1,),
        )
    else:
        yield CardLine("straight side", note="on the centre line: the faces are radial", set_in=(1,))
    yield CardLine(
        "centre height",
        note="the straight side is set from the head's centre, by height gauge; a trial cut on the rim shows it",
    )
    yield CardLine(
        "infeed", ratchet.infeed_mm, "mm", note="from a touch on the top of the blank", set_in=(1,)
    )
    yield from pass_lines(ratchet.infeed_mm)
    yield CardLine(
        "material", note="steel, its faces hardened where a pawl works often; brass for a light clock"
    )
    yield CardLine("trace", note="a faint nick at every position; count them before cutting deep")
    yield CardLine(
        "holding", note="key, pin or nut with large washers: the cut is one-sided and turns the blank"
    )


def measuring_card(ratchet: Ratchet) -> Card:
    """Return what to measure, and what to do if it is off."""
    chord = 2 * ratchet.radius_mm * sin(pi / ratchet.teeth)
    return Card(
        "Measuring",
        (
            CardLine("tip to tip", chord, "mm", using="callipers, straight across"),
            CardLine(
                "land",
                ratchet.land_mm,
                "mm",
                note="all alike; wider: not deep enough yet; one wide beside one narrow: a division is off",
            ),
            CardLine("root diameter", ratchet.root_diameter_mm, "mm"),
            CardLine(
                "pawl", note="try it in every space: it must drop to the face and hold, not ride on the tip"
            ),
        ),
    )
