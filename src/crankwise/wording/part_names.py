"""What the rarer kinds of toothed work are, in one line each, and what to beware of with them."""

from fractions import Fraction

from crankwise.exact.length import INCH
from crankwise.exact.number import as_text
from crankwise.part.clock_wheel import ClockWheel
from crankwise.part.rack import Rack, spaces_in
from crankwise.part.ratchet import Ratchet
from crankwise.part.splines import Splines
from crankwise.part.sprocket import Sprocket
from crankwise.part.worm_wheel import WormWheel
from crankwise.wording.card import length_text
from crankwise.wording.figures import short
from crankwise.wording.gear import size_text

FROM_MEMORY = "from-memory"
"""The warning's code where figures were recalled and not checked against a copy of their standard."""


def rack_name(rack: Rack, pitch: Fraction | None = None) -> str:
    """Return rack, 40 spaces, module 1, 20°.

    pitch  the diametral pitch it was asked by, if it was
    """
    size = size_text(rack.module_mm, pitch)
    return f"rack, {rack.teeth} spaces, {size}, {as_text(rack.pressure_angle * 360)}°"


def worm_wheel_name(wheel: WormWheel, by_pitch: bool = False, pitch: Fraction | None = None) -> str:
    """Return worm wheel, 72 teeth for a worm of 1 start, module 1, right hand.

    by_pitch  whether it was asked by its axial pitch
    pitch     the diametral pitch it was asked by, if it was
    """
    starts = f"{wheel.starts} start{'' if wheel.starts == 1 else 's'}"
    size = f"axial pitch {length_text(wheel.pitch_mm)}" if by_pitch else size_text(wheel.module_mm, pitch)
    return f"worm wheel, {wheel.teeth} teeth for a worm of {starts}, {size}, {wheel.hand} hand"


def ratchet_name(ratchet: Ratchet, inch_first: bool = False) -> str:
    """Return ratchet wheel, 24 teeth, 50.000 mm (1.9685 in) outside, free anticlockwise."""
    outside = length_text(ratchet.outside_mm, inch_first)
    return f"ratchet wheel, {ratchet.teeth} teeth, {outside} outside, free {ratchet.free}"


def splines_name(splines: Splines, inch_first: bool = False) -> str:
    """Return splined shaft 6 x 23 x 26 mm, keys 6 mm wide; in the unit that it was asked in."""
    unit, size = ("in", INCH) if inch_first else ("mm", Fraction(1))
    key, minor, major = (
        short(length / size) for length in (splines.key_mm, splines.minor_mm, splines.major_mm)
    )
    return f"splined shaft {splines.keys} x {minor} x {major} {unit}, keys {key} {unit} wide"


def sprocket_name(sprocket: Sprocket, inch_first: bool = False) -> str:
    """Return sprocket, 19 teeth for chain 08B, pitch 12.700 mm (0.5000 in)."""
    number = f" {sprocket.chain.number}" if sprocket.chain.number else ""
    pitch = length_text(sprocket.chain.pitch_mm, inch_first)
    return f"sprocket, {sprocket.teeth} teeth for chain{number}, pitch {pitch}"


def clock_wheel_name(wheel: ClockWheel, pitch: Fraction | None = None) -> str:
    """Return clock wheel, 60 teeth to a pinion of 8 leaves, module 0.5.

    pitch  the diametral pitch it was asked by, if it was
    """
    size = size_text(wheel.module_mm, pitch)
    return f"clock wheel, {wheel.teeth} teeth to a pinion of {wheel.leaves} leaves, {size}"


def sprocket_warnings(sprocket: Sprocket) -> tuple[tuple[str, str], ...]:
    """Return what to beware of with a sprocket."""
    found = [
        (
            FROM_MEMORY,
            "chains and tooth form are ISO 606 as recalled, not read from a copy: measure your chain before you turn",
        )
    ]
    if sprocket.teeth < 9:
        found.append(
            ("few-teeth", "under 9 teeth a chain runs rough and wears fast; 17 and more run smoothly")
        )
    return tuple(found)


def splines_warnings(splines: Splines) -> tuple[tuple[str, str], ...]:
    """Return what to beware of with splines."""
    if not splines.series:
        return ()
    return (
        (
            FROM_MEMORY,
            "the sizes of ISO 14 are recalled, not read from a copy: measure the hub before the shaft is cut",
        ),
    )


def clock_wheel_warnings() -> tuple[tuple[str, str], ...]:
    """Return what to beware of with clock wheels."""
    told = (
        "the height of the tooth is derived from the cycloid, the share of it that is kept is BS 978-2 as recalled: "
        "what your cutter's maker gives goes first; a pinion's outside diameter is not given here, for want of a "
        "source, and its leaves are drawn in a usual form, recalled"
    )
    return ((FROM_MEMORY, told),)


def worm_wheel_warnings(wheel: WormWheel) -> tuple[tuple[str, str], ...]:
    """Return what to beware of with a worm wheel."""
    if wheel.teeth >= wheel.least_teeth_without_undercut:
        return ()
    least = wheel.least_teeth_without_undercut
    return (("undercut", f"the hob undercuts {wheel.teeth} teeth; from {least} on it does not"),)


def travel_warnings(
    spaces: int, pitch_mm: Fraction, travel_mm: Fraction | None
) -> tuple[tuple[str, str], ...]:
    """Return what to do where the slide does not travel as far as a rack of so many spaces is long."""
    if travel_mm is None or spaces_in(spaces, pitch_mm, travel_mm) == spaces:
        return ()
    told = (
        f"the slide travels {length_text(travel_mm)}, and from the first space to the last it is "
        f"{length_text(pitch_mm * (spaces - 1))}: cut {spaces_in(spaces, pitch_mm, travel_mm)} spaces, move the rack "
        "along, pick up the last space with the cutter, and go on"
    )
    return (("travel", told),)
