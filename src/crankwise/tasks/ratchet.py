"""Size a ratchet wheel: by the land that is wanted, or by the cutter at hand."""

from dataclasses import dataclass
from fractions import Fraction

from crankwise.errors import BadLength, Fault, FaultsFound
from crankwise.exact.length import read_length
from crankwise.part.ratchet import (
    Ratchet,
    Way,
    measuring_card,
    part_of,
    preparation_card,
    ratchet_for_cutter,
)
from crankwise.tasks.asked_tooth import asked_angle
from crankwise.tasks.divide import whole_number
from crankwise.tasks.sized_part import SizedPart, is_in_inches, needed_length
from crankwise.wording.part_names import ratchet_name


@dataclass(frozen=True, slots=True)
class RatchetTyped:
    """What was typed for a ratchet wheel, all texts; empty where nothing was. Lengths bare in mm.

    teeth, outside, depth   of the wheel
    land, cutter            one of them: width of the land, or the angle of the cutter in degrees
    undercut                how far the faces lean, in degrees
    free                    the way it turns freely, seen from the front
    """

    teeth: str = ""
    outside: str = ""
    depth: str = ""
    land: str = ""
    cutter: str = ""
    undercut: str = ""
    free: str = ""


def asked_ratchet(typed: RatchetTyped) -> Ratchet:
    """Return the ratchet wheel that was typed. Raises Mendable."""
    teeth = whole_number(typed.teeth, "teeth")
    outside = needed_length(typed.outside, "outside", "--outside 50mm")
    depth = needed_length(typed.depth, "depth", "--depth 3mm")
    undercut = asked_angle(typed.undercut, "undercut", Fraction(0))
    if typed.land and typed.cutter:
        raise BadLength(
            "land and cutter", "both given; the land follows from the cutter, so give one of them"
        )
    if typed.cutter:
        return ratchet_for_cutter(
            teeth, outside, depth, asked_angle(typed.cutter, "cutter"), undercut, _free(typed.free)
        )
    land = read_length(typed.land, "land") if typed.land else Fraction(0)
    return Ratchet(teeth, outside, depth, land, undercut, _free(typed.free))


def _free(typed: str) -> Way:
    word = typed.strip().lower()
    if word in ("", "anticlockwise"):
        return "anticlockwise"
    if word == "clockwise":
        return "clockwise"
    raise FaultsFound(
        [
            Fault(
                "free",
                f"{typed.strip()[:40]!r}; a ratchet wheel turns freely clockwise or anticlockwise, from the front",
            )
        ]
    )


def ratchet_answer(typed: RatchetTyped) -> SizedPart:
    """Return all that is known of the ratchet wheel that was typed. Raises Mendable."""
    ratchet = asked_ratchet(typed)
    inch_first = is_in_inches(typed.outside)
    told = {
        "teeth": ratchet.teeth,
        "outside_mm": float(ratchet.outside_mm),
        "depth_mm": float(ratchet.depth_mm),
        "land_mm": float(ratchet.land_mm),
        "undercut_deg": float(ratchet.undercut * 360),
        "free": ratchet.free,
        "cutter_deg": ratchet.cutter_angle * 360,
        "offset_mm": ratchet.offset_mm,
        "infeed_mm": ratchet.infeed_mm,
        "root_diameter_mm": ratchet.root_diameter_mm,
    }
    return SizedPart(
        "ratchet",
        ratchet_name(ratchet, inch_first),
        ratchet,
        (part_of(ratchet),),
        (preparation_card(ratchet), measuring_card(ratchet)),
        told,
        inch_first,
    )
