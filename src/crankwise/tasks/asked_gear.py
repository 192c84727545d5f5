"""Read the gear that was typed: every text becomes an exact value, or a sentence that says what would work."""

from dataclasses import dataclass, replace
from fractions import Fraction

from crankwise.errors import BadLength, BadNumber, Fault, FaultsFound
from crankwise.exact.length import read_diameter, read_length
from crankwise.exact.listed import listed
from crankwise.exact.number import read_number
from crankwise.part.bevel import RIGHT_ANGLE, BevelGear
from crankwise.part.gear import TWENTY_DEGREES, Gear
from crankwise.part.gear_system import FULL_DEPTH, GEAR_SYSTEMS, INCH_FULL_DEPTH, GearSystem
from crankwise.part.pair import Pair
from crankwise.tasks.asked_tooth import asked_angle, asked_hand, asked_module, asked_pitch
from crankwise.tasks.divide import whole_number
from crankwise.wording.card import length_text


@dataclass(frozen=True, slots=True)
class GearTyped:
    """What was typed for a gear, all texts; empty where nothing was. Lengths bare in mm, angles in degrees.

    teeth, module, dp, pressure_angle, shift, helix, hand, system, thin   the gear's own
    transverse                                                            whether the module is told so
    mate, mate_shift, centres, face                                       the gear it runs with
    shaft_angle, cutter_width                                             of a bevel gear
    """

    teeth: str = ""
    module: str = ""
    dp: str = ""
    pressure_angle: str = ""
    shift: str = ""
    helix: str = ""
    hand: str = ""
    system: str = ""
    thin: str = ""
    transverse: bool = False
    mate: str = ""
    mate_shift: str = ""
    centres: str = ""
    face: str = ""
    shaft_angle: str = ""
    cutter_width: str = ""

    @property
    def pitch(self) -> Fraction | None:
        """The diametral pitch, where the gear was asked by one."""
        return asked_pitch(self.dp)


def asked_gear(typed: GearTyped) -> Gear:
    """Return the spur or helical gear that was typed. Raises Mendable."""
    helix = asked_angle(typed.helix, "helix", Fraction(0))
    for what, is_told in (("hand", bool(typed.hand)), ("transverse", typed.transverse)):
        if is_told and not helix:
            raise BadNumber(what, "goes with a helix; give its angle too, as --helix 30, or leave it out")
    return Gear(
        whole_number(typed.teeth, "teeth"),
        _module(typed),
        asked_angle(typed.pressure_angle, "pressure angle", TWENTY_DEGREES),
        read_number(typed.shift, "shift") if typed.shift else Fraction(0),
        helix,
        asked_hand(typed.hand, "a helix"),
        typed.transverse,
        read_length(typed.thin, "thin") if typed.thin else Fraction(0),
        _system(typed),
    )


def asked_pair(typed: GearTyped, gear: Gear) -> Pair | None:
    """Return the gear with its mate, or None where no mate was typed. Raises Mendable."""
    if not typed.mate:
        for what, text in (("mate-shift", typed.mate_shift), ("centres", typed.centres)):
            if text:
                raise BadNumber(what, "given without a mate; say its teeth too, as --mate 40")
        return None
    teeth = whole_number(typed.mate, "mate")
    shift = read_number(typed.mate_shift, "mate-shift") if typed.mate_shift else Fraction(0)
    try:
        mate = replace(gear, teeth=teeth, shift=shift, hand="left" if gear.hand == "right" else "right")
    except FaultsFound as error:
        places = {"teeth": "mate", "shift": "mate-shift"}
        raise FaultsFound(
            [replace(fault, place=places.get(fault.place, fault.place)) for fault in error.faults]
        ) from None
    if not typed.centres:
        return Pair(gear, mate)
    centres = read_diameter(typed.centres, "centres")
    tight = Pair(gear, mate)
    least, most = tight.mesh_limits_mm
    if not least < centres < most:
        raise BadLength(
            "centres",
            f"{typed.centres.strip()}; these gears are in mesh between {length_text(least)} and "
            f"{length_text(most)}, and run without backlash at {length_text(tight.tight_centres_mm)}",
        )
    return Pair(gear, mate, centres)


def asked_bevel(typed: GearTyped) -> BevelGear:
    """Return the bevel gear that was typed. Raises Mendable."""
    missing = [what for what, text in (("mate", typed.mate), ("face", typed.face)) if not text]
    if missing:
        raise BadNumber(
            " and ".join(missing),
            "missing; a bevel gear needs its mate's teeth and the length of its face, "
            "as --mate 40 --face 12mm",
        )
    for what, text in (
        ("shift", typed.shift),
        ("helix", typed.helix),
        ("hand", typed.hand),
        ("transverse", "transverse" if typed.transverse else ""),
        ("thin", typed.thin),
        ("mate-shift", typed.mate_shift),
        ("centres", typed.centres),
    ):
        if text:
            raise BadNumber(what, "goes with a spur or helical gear, not with a straight bevel gear")
    return BevelGear(
        whole_number(typed.teeth, "teeth"),
        whole_number(typed.mate, "mate"),
        _module(typed),
        read_diameter(typed.face, "face"),
        asked_angle(typed.pressure_angle, "pressure angle", TWENTY_DEGREES),
        asked_angle(typed.shaft_angle, "shaft angle", RIGHT_ANGLE),
        _system(typed),
    )


def read_pins(typed: str) -> tuple[Fraction, ...]:
    """Return the pins typed as 1.7mm, 1/16in: diameters in mm, each above 0. Raises BadLength."""
    pieces = listed(typed, "pin", ",;")
    if typed.strip() and not pieces:
        raise BadLength(
            "pin", "nothing given; write the diameters of the pins owned, as 1.7mm or 1/16in, 2mm"
        )
    return tuple(read_diameter(piece, "pin") for piece in pieces)


def _module(typed: GearTyped) -> Fraction:
    if bool(typed.module) == bool(typed.dp):
        given = "both given" if typed.dp else "neither given"
        raise BadNumber(
            "module and dp",
            f"{given}; a gear's size is told by one of them, as --module 1 or --dp 24 "
            "(a module is 25.4 mm / DP)",
        )
    return asked_module(typed.module, typed.dp)


def _system(typed: GearTyped) -> GearSystem:
    if not typed.system:
        return INCH_FULL_DEPTH if typed.dp else FULL_DEPTH
    if typed.system not in GEAR_SYSTEMS:
        names = "; ".join(f"{system.key}: {system.name}" for system in GEAR_SYSTEMS.values())
        raise FaultsFound([Fault("system", f"{typed.system[:40]!r} is not known; there are {names}")])
    return GEAR_SYSTEMS[typed.system]
