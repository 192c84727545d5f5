"""The preparation card and the measuring card of a spur or helical gear.

Tolerances shown are typical and can be changed: judgement, for gears of a home workshop.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import cos, pi, sqrt

from crankwise.part.card import Card, CardLine, Quantity, ToothSize
from crankwise.part.chordal import chord
from crankwise.part.cutters import FormCutter
from crankwise.part.depth import cuts, cutting_depth_mm
from crankwise.part.gear import Gear
from crankwise.part.helical import SWING_OF_A_TABLE, lead_mm
from crankwise.part.over_pins import OverPins, best_pin_mm
from crankwise.part.span import Span, spans_about

_TOLERANCE_MM, _OF_A_MODULE = Fraction(1, 20), Fraction(1, 20)
DEEPEST_CUT_MM = Fraction(2)
"""A roughing cut that a small mill takes in good order. Typical, judgement."""


def tolerance_mm(module_mm: Quantity) -> Fraction:
    """Return how much under size a blank may be turned, and how much thinner than meant a tooth may come out, in mm.

    Typical, judgement: 0.05 mm, and below module 1 a twentieth of a module, so that fine teeth keep their shape. The
    depth is corrected for what a blank measures; a thinner tooth becomes backlash.
    """
    return min(_TOLERANCE_MM, _OF_A_MODULE * Fraction(module_mm))


@dataclass(frozen=True, slots=True)
class Blank:
    """The blank and the machine at hand.

    outside_mm       the blank's diameter as measured, in mm; None before it is turned
    deepest_cut_mm   the deepest roughing cut, in mm
    cutter           the form cutter; None where none cuts so few teeth
    cutter_note      what else is to be known of it, as that it is owned or what its number is
    """

    outside_mm: Fraction | None = None
    deepest_cut_mm: Fraction = DEEPEST_CUT_MM
    cutter: FormCutter | None = None
    cutter_note: str = ""


MATERIAL = CardLine(
    "material",
    note="one bar for the blank and for a trial piece; brass and cast iron are cut dry, steel with oil",
)


def preparation_card(gear: Gear, blank: Blank) -> Card:
    """Return what to have ready before the first cut, in the order of work."""
    return Card("Preparation", tuple(_preparation(gear, blank)))


def _preparation(gear: Gear, blank: Blank) -> Iterator[CardLine]:
    outside = gear.outside_diameter_mm
    yield CardLine(
        "outside diameter",
        outside,
        "mm",
        low=outside - tolerance_mm(gear.normal_module_mm),
        high=outside,
        note="bore first, then turn the rim on the arbor that it is cut on, so that both run true",
    )
    yield CardLine("pitch diameter", gear.pitch_diameter_mm, "mm")
    yield CardLine("proportions", note=gear.system.name)
    if gear.is_helical:
        yield from _helix_lines(gear)
    yield MATERIAL
    yield cutter_line(blank.cutter, blank.cutter_note)
    yield CardLine(
        "cutter on centre",
        note="by height gauge, or by two trial cuts half a turn apart on scrap; by eye is not good enough, "
        "off centre the teeth lean"
        + ("; centred while the table stands square, then swung" if gear.is_helical else ""),
    )
    yield CardLine(
        "holding",
        note="on an arbor between washers as large as the roots let them be; a cylinder of steel slips: key, pin or "
        f"retaining compound; {_of_the_spindle(gear)}",
    )
    yield CardLine("whole depth", gear.whole_depth_mm, "mm", note="from the nominal outside diameter")
    if gear.thinning_mm:
        yield CardLine(
            "deeper, for backlash", gear.thinning_infeed_mm, "mm", note="thins each tooth at the pitch circle"
        )
    depth = cutting_depth_mm(gear, blank.outside_mm)
    if blank.outside_mm is not None:
        yield CardLine("blank as measured", blank.outside_mm, "mm")
        yield CardLine(
            "depth on this blank",
            depth,
            "mm",
            note="from a touch on its rim; half of what the rim is out is put right",
        )
    yield CardLine("trace", note="a faint nick at every position; count them, and look at the last space")
    for number, cut in enumerate(cuts(depth, gear.normal_module_mm, blank.deepest_cut_mm), 1):
        yield CardLine(
            f"pass {number}, {cut.name}", cut.depth_mm, "mm", note="from the touch" if number == 1 else ""
        )


def _of_the_spindle(gear: Gear) -> str:
    if not gear.is_helical:
        return "lock the spindle for each cut"
    return "the spindle stays free and the plate's stop is drawn: the change gears turn the work in the cut"


def cutter_line(cutter: FormCutter | None, note: str) -> CardLine:
    """Return the line of a card that names the form cutter by its tooth range first."""
    return CardLine(
        "form cutter",
        using=f"the one for {cutter.tooth_range} teeth" if cutter else "no set has one",
        note=note,
    )


def _helix_lines(gear: Gear) -> Iterator[CardLine]:
    swing = (
        ""
        if gear.helix <= SWING_OF_A_TABLE
        else "; more than most tables swing: tilt a vertical head instead"
    )
    yield CardLine("lead", lead_mm(gear), "mm", note=f"{gear.hand} hand")
    yield CardLine(
        "swing of the table",
        gear.helix,
        "turn",
        note=f"cutter on a horizontal arbor: standing before the table, push its {gear.hand} end away from you; a "
        f"light trial cut must leave a groove as wide as the cutter{swing}",
    )
    if gear.is_transverse:
        angle = gear.normal_pressure_angle / (2 * pi)
        yield CardLine("module of the cutter", gear.normal_module_mm, "mm", note="square to the teeth")
        yield CardLine("pressure angle of the cutter", angle, "turn", note="square to the teeth")
    yield CardLine(
        "virtual teeth", gear.virtual_teeth, "count", note="teeth / cos³ of the helix; they choose the cutter"
    )


def measuring_card(
    gear: Gear, span: Span | None, pins: Sequence[OverPins], outside_mm: Fraction | None = None
) -> Card:
    """Return what to measure, with what, its limits, and what to do if it is off.

    span        the span to measure, told with its neighbours; None where none can be
    pins        the measurement over each pin that is owned and can be used
    outside_mm  the blank as measured: a tooth calliper sits on it
    """
    return Card("Measuring", tuple(_measuring(gear, span, pins, outside_mm)))


def _measuring(
    gear: Gear, span: Span | None, pins: Sequence[OverPins], outside_mm: Fraction | None
) -> Iterator[CardLine]:
    thinner = float(tolerance_mm(gear.normal_module_mm))
    yield CardLine(
        "while still on the arbor",
        note="measure before it is taken off, so that the depth can still be put right",
    )
    if span:
        less = thinner * cos(gear.normal_pressure_angle)
        for one in spans_about(gear, span.teeth):
            chosen = one.teeth == span.teeth
            yield CardLine(
                f"span over {one.teeth} teeth",
                one.length_mm,
                "mm",
                low=one.length_mm - less if chosen else None,
                high=one.length_mm if chosen else None,
                using="disc micrometer or calliper" if chosen else "a cross-check",
                note=_off_note(one.face_mm > 0) if chosen else "",
                measures=ToothSize("span", teeth=one.teeth),
            )
        if span.face_mm:
            yield CardLine(
                "width that the span needs", span.face_mm, "mm", note="a narrower gear is read over balls"
            )
    if pins:
        yield CardLine(
            "best pin", best_pin_mm(gear), "mm", note="touches in the middle of the flank; near it will do"
        )
    for pin in pins:
        yield CardLine(f"{'balls' if gear.is_helical and gear.teeth % 2 else 'pins'} of", pin.pin_mm, "mm")
        yield CardLine(
            "over both",
            pin.over_mm,
            "mm",
            low=pin.over_mm - thinner * _pin_slope(gear, pin),
            high=pin.over_mm,
            using=_over_both(gear),
            measures=ToothSize("pins", pin_mm=pin.pin_mm),
        )
    tooth = chord(gear, outside_mm)
    yield CardLine("tooth calliper set to", tooth.addendum_mm, "mm", note="from the top of the tooth")
    yield CardLine(
        "chord of a tooth",
        tooth.thickness_mm,
        "mm",
        low=tooth.thickness_mm - thinner,
        high=tooth.thickness_mm,
        using="gear tooth calliper",
        measures=ToothSize("chord"),
    )
    yield CardLine(
        "closing",
        note="on to position N, which is 0 again: the cutter falls into the first space and cuts nothing",
    )


def _over_both(gear: Gear) -> str:
    """How two pins or balls are read. With an odd count and a helix nothing but the hand keeps balls level."""
    if gear.teeth % 2 == 0:
        return "micrometer, in opposite spaces"
    if gear.is_helical:
        return "micrometer, in spaces as nearly opposite as it goes, both balls equally far from one face of the gear"
    return "micrometer, in spaces as nearly opposite as it goes"


def _off_note(is_helical: bool) -> str:
    across = "square to the teeth; " if is_helical else ""
    return f"{across}over: go deeper by the infeed that the reading asks for; under: backlash, or a new blank"


def _pin_slope(gear: Gear, pin: OverPins) -> float:
    """By how much the reading falls for a tooth thinner by one, to first order. Source: derived."""
    at_centre = gear.base_diameter_mm / pin.centre_mm
    across = (pin.over_mm - float(pin.pin_mm)) / pin.centre_mm
    return across * cos(gear.normal_pressure_angle) / cos(gear.base_helix) / sqrt(1 - at_centre**2)
