"""Work out a spur or helical gear: its cutter, its measurements, its mate, and what readings ask for."""

from dataclasses import dataclass
from fractions import Fraction
from math import pi

from crankwise.errors import BadDivisions, BadLength, BadNumber
from crankwise.exact.length import read_diameter, read_length
from crankwise.exact.number import shown
from crankwise.head.head import Head
from crankwise.part.card import Card, Quantity, ToothSize
from crankwise.part.chordal import chord
from crankwise.part.cutters import FormCutter, NumberOrder, OwnedCutter, best_of, cutter_for
from crankwise.part.depth import believed_infeed_mm
from crankwise.part.gear import Gear
from crankwise.part.gear_cards import DEEPEST_CUT_MM, Blank, measuring_card, preparation_card
from crankwise.part.measured_tooth import measured_thickness_mm
from crankwise.part.over_pins import OverPins, best_pin_mm, over_pins, pin_limits_mm, usable_pins_mm
from crankwise.part.pair import Pair
from crankwise.part.pair_card import pair_card
from crankwise.part.span import Span, best_span, span
from crankwise.tasks.asked_gear import GearTyped, asked_gear, asked_pair, read_pins
from crankwise.tasks.cutters import load_cutters
from crankwise.tasks.divide import whole_number
from crankwise.tasks.helix import HelixCut, HelixTyped, asked_helix, helix_card
from crankwise.wording.card import length_text
from crankwise.wording.gear import (
    cutter_note,
    gear_name,
    gear_warnings,
    lead_off_text,
    narrow_face_text,
    owned_note,
    pin_trouble,
    transverse_cutter_text,
)


@dataclass(frozen=True, slots=True)
class ShopTyped:
    """What was typed of the shop and of the readings, all texts; empty where nothing was. Lengths bare in mm.

    pin, span            pins owned, separated by commas; teeth to measure over
    blank, deepest_cut   the blank's diameter as measured; the deepest roughing cut
    read_span, read_pins, read_chord   what was read on the cut gear
    cutters, number_one  8, 15 or a file of the cutters owned; what No. 1 of the set cuts: rack or 12
    """

    pin: str = ""
    span: str = ""
    blank: str = ""
    deepest_cut: str = ""
    read_span: str = ""
    read_pins: str = ""
    read_chord: str = ""
    cutters: str = ""
    number_one: str = ""


@dataclass(frozen=True, slots=True)
class ChosenCutter:
    """The form cutter for some teeth.

    cutter   None where no set goes so low
    order    in which its number is told
    note     its number in both orders, and whether it is owned
    is_owned None where no list was given
    """

    cutter: FormCutter | None
    order: NumberOrder
    note: str
    is_owned: bool | None


@dataclass(frozen=True, slots=True)
class Infeed:
    """What one reading asks for.

    what       span, pins or chord
    read_mm    what was read
    meant_mm   what it should be
    deeper_mm  how much deeper to go; below 0 it is too deep already
    pin_mm     diameter of the pins read over; None for the others
    """

    what: str
    read_mm: Fraction
    meant_mm: float
    deeper_mm: float
    pin_mm: Fraction | None = None

    @property
    def told(self) -> str:
        """What was read, as a sentence begins: over pins of 1.750 mm."""
        return self.what if self.pin_mm is None else f"{self.what} of {length_text(self.pin_mm)}"


@dataclass(frozen=True, slots=True)
class GearAnswer:
    """All that is known of the gear.

    pins     the measurement over each usable pin, the best first
    unusable what is wrong with the other pins, a sentence each
    helix    the change gears for its lead, where they were asked
    pitch    the diametral pitch that it was asked by; None where it was asked by a module
    """

    name: str
    gear: Gear
    blank: Blank
    cutter: ChosenCutter
    span: Span | None
    pins: tuple[OverPins, ...]
    unusable: tuple[str, ...]
    infeeds: tuple[Infeed, ...]
    pair: Pair | None
    face_mm: Fraction | None
    helix: HelixCut | None
    pitch: Fraction | None

    @property
    def inch_first(self) -> bool:
        """Whether inches stand first: it was asked by its diametral pitch."""
        return self.pitch is not None

    @property
    def cards(self) -> tuple[Card, ...]:
        """The cards: preparation, change gears for a helix, measuring, and the pair's where there is a mate."""
        cards = [preparation_card(self.gear, self.blank)]
        cards += [helix_card(self.helix, self.gear)] if self.helix else []
        cards.append(measuring_card(self.gear, self.span, self.pins, self.blank.outside_mm))
        cards += [pair_card(self.pair, self.face_mm)] if self.pair else []
        return tuple(cards)

    @property
    def warnings(self) -> tuple[tuple[str, str], ...]:
        """What to beware of, each with its code."""
        found = [*gear_warnings(self.gear, self.cutter.cutter, self.pitch)]
        found += [("unusable-pin", sentence) for sentence in self.unusable]
        if self.gear.is_helical and self.gear.is_transverse and not self.cutter.is_owned:
            found.append(("transverse-cutter", transverse_cutter_text(self.gear)))
        if self.span is None:
            found.append(("no-span", "no span can be measured: the jaws would not meet two flanks; use pins"))
        elif self.face_mm is not None and self.face_mm <= self.span.face_mm:
            found.append(("narrow-face", narrow_face_text(self.face_mm, self.span.face_mm)))
        for train in self.helix.trains[:1] if self.helix else ():
            if told := lead_off_text(train.helix, self.gear.helix, train.error_mm):
                found.append(("lead-off", told))
        if not self.pins:
            found.append(
                ("no-pin", "no pin touches both flanks and stands proud; use the span or a tooth calliper")
            )
        return tuple(found)


def gear_answer(typed: GearTyped, shop: ShopTyped, helix: HelixTyped, head: Head | None = None) -> GearAnswer:
    """Return all that is known of the gear that was typed.

    head  the head that is geared to the table's screw, for a helical gear

    Raises Mendable.
    """
    gear = asked_gear(typed)
    pair = asked_pair(typed, gear)
    face = read_diameter(typed.face, "face") if typed.face else None
    chosen = chosen_cutter(
        gear.virtual_teeth,
        gear.normal_module_mm,
        gear.normal_pressure_angle / (2 * pi),
        shop,
        by_pitch=bool(typed.dp),
    )
    spanned = _asked_span(gear, shop.span)
    pins, unusable = _asked_pins(gear, read_pins(shop.pin))
    return GearAnswer(
        gear_name(gear, typed.pitch),
        gear,
        asked_blank(shop, chosen, gear.outside_diameter_mm, gear.whole_depth_mm),
        chosen,
        spanned,
        pins,
        unusable,
        tuple(_infeeds(gear, shop, spanned, pins)),
        pair,
        face,
        asked_helix(helix, gear, face, head),
        typed.pitch,
    )


def chosen_cutter(
    teeth: Quantity, module_mm: Quantity, pressure_angle: Quantity, shop: ShopTyped, by_pitch: bool
) -> ChosenCutter:
    """Return the form cutter for so many teeth or virtual teeth, with its number in the order asked.

    module_mm, pressure_angle  of the cutter: in the normal section; mm and turns
    by_pitch                   whether the gear was told by its diametral pitch, whose sets have No. 1 for a rack
    """
    order: NumberOrder = "rack" if by_pitch else "12"
    if shop.number_one:
        if shop.number_one not in ("rack", "12"):
            raise BadNumber(
                "number-one",
                f"{shop.number_one[:40]!r}; No. 1 of a set cuts a rack or 12 teeth: say rack or 12",
            )
        order = "rack" if shop.number_one == "rack" else "12"
    usual = cutter_for(teeth, with_halves=shop.cutters == "15")
    if shop.cutters in ("", "8", "15"):
        return ChosenCutter(usual, order, cutter_note(usual, teeth), None)
    owned = [one for one in load_cutters(shop.cutters) if _is_for(one, module_mm, pressure_angle)]
    fits = best_of((one.cutter for one in owned), teeth)
    cutter = fits or usual
    note = f"{owned_note(owned, fits)}; {cutter_note(cutter, teeth)}"
    return ChosenCutter(cutter, order, note, fits is not None)


def _is_for(owned: OwnedCutter, module_mm: Quantity, pressure_angle: Quantity) -> bool:
    near = 1e-6  # a helical gear told in its transverse section has a normal module that is never quite round
    return (
        abs(float(owned.module_mm) - float(module_mm)) < near * float(module_mm)
        and abs(float(owned.pressure_angle) - float(pressure_angle)) < near
    )


def asked_blank(
    shop: ShopTyped, chosen: ChosenCutter, outside_mm: Quantity, whole_depth_mm: Fraction
) -> Blank:
    """Return the blank and the machine that were typed. Raises BadLength."""
    measured = read_diameter(shop.blank, "blank") if shop.blank else None
    if measured is not None and abs(float(measured) - float(outside_mm)) > float(whole_depth_mm):
        raise BadLength(
            "blank",
            f"{shop.blank.strip()} is over a tooth's depth away from the outside diameter that this gear has, "
            f"{length_text(outside_mm)}; give its diameter as measured, with its unit",
        )
    deepest = read_diameter(shop.deepest_cut, "deepest-cut") if shop.deepest_cut else DEEPEST_CUT_MM
    if whole_depth_mm / deepest > 100:
        raise BadLength(
            "deepest-cut", f"{shop.deepest_cut.strip()} would take over 100 passes; a roughing cut is deeper"
        )
    return Blank(measured, deepest, chosen.cutter, chosen.note)


def _asked_span(gear: Gear, typed: str) -> Span | None:
    if not typed:
        return best_span(gear)
    best = best_span(gear)
    try:
        teeth = whole_number(typed, "span")
    except BadDivisions:
        over = f", as {best.teeth}" if best else ""
        raise BadNumber(
            "span", f"{shown(typed)}; say over how many teeth{over}; what was read there goes in --read-span"
        ) from None
    one = span(gear, teeth) if teeth >= 1 else None
    if one is None or not one.is_usable:
        better = (
            f"over {best.teeth} teeth they touch the middle of the flanks"
            if best
            else "use pins for this gear"
        )
        told = f"{teeth} {'tooth' if teeth == 1 else 'teeth'}"
        raise BadNumber("span", f"over {told} the jaws do not meet two flanks of this gear; {better}")
    return one


def _asked_pins(gear: Gear, owned: tuple[Fraction, ...]) -> tuple[tuple[OverPins, ...], tuple[str, ...]]:
    best = best_pin_mm(gear)
    if not owned:
        return _best_pin(gear), ()
    usable: list[OverPins] = []
    unusable: list[str] = []
    for pin_mm in owned:
        pin = over_pins(gear, pin_mm)
        if pin is not None and pin.is_usable:
            usable.append(pin)
        else:
            trouble = pin.trouble if pin else "deep"
            unusable.append(pin_trouble(pin_mm, trouble, best, usable_pins_mm(gear)))
    if not usable:
        raise BadLength("pin", unusable[0])
    return tuple(sorted(usable, key=lambda pin: abs(pin.pin_mm - best))), tuple(unusable)


def _best_pin(gear: Gear) -> tuple[OverPins, ...]:
    """Return the measurement over the best pin, to 0.01 mm where that does; over a thicker one where it lies sunk."""
    best, (_, most) = best_pin_mm(gear), pin_limits_mm(gear)
    for part in range(10):
        pin = best + (most - best) * part / 10
        for diameter in (Fraction(round(pin * 100), 100), Fraction(pin)):
            measured = over_pins(gear, diameter) if diameter > 0 else None
            if measured is not None and measured.is_usable:
                return (measured,)
    return ()


def _infeeds(gear: Gear, shop: ShopTyped, spanned: Span | None, pins: tuple[OverPins, ...]) -> list[Infeed]:
    found = []
    if shop.read_span:
        if spanned is None:
            raise BadLength(
                "read-span", "no span can be measured on this gear; read over pins, as --read-pins"
            )
        read = read_diameter(shop.read_span, "read-span")
        meant, teeth = spanned.length_mm, spanned.teeth
        found.append(_infeed(gear, f"span over {teeth}", read, meant, ToothSize("span", teeth=teeth)))
    if shop.read_pins:
        if not shop.pin:
            raise BadLength("read-pins", "over which pins? say their diameter too, as --pin 1.75mm")
        read, pin = read_diameter(shop.read_pins, "read-pins"), pins[0]
        found.append(_infeed(gear, "over pins", read, pin.over_mm, ToothSize("pins", pin_mm=pin.pin_mm)))
    if shop.read_chord:
        read = read_length(shop.read_chord, "read-chord")
        meant = chord(gear).thickness_mm
        found.append(_infeed(gear, "chord", read, meant, ToothSize("chord")))
    return found


def _infeed(gear: Gear, what: str, read_mm: Fraction, meant_mm: float, size: ToothSize) -> Infeed:
    deeper_mm = believed_infeed_mm(gear, measured_thickness_mm(gear, size, float(read_mm)))
    if deeper_mm is None:
        raise BadLength(
            what,
            f"a reading of {length_text(read_mm)} is nowhere near {length_text(meant_mm)}, what it should be; "
            "give what the instrument shows, with its unit",
        )
    return Infeed(what, read_mm, meant_mm, deeper_mm, size.pin_mm if size.kind == "pins" else None)
