"""The answers about gears as plain objects, ready for JSON; the keys are promised, more may be added.

Lengths (`..._mm`) and angles (`..._deg`) are numbers, good to a float's fifteen digits and far below a
millionth of a millimetre; the tooth's geometry has no exact value that could be told.
"""

from math import degrees
from typing import Any

from crankwise.exact.length import INCH
from crankwise.exact.number import as_text
from crankwise.part.card import Card, Quantity
from crankwise.part.chordal import chord
from crankwise.part.depth import cuts, cutting_depth_mm
from crankwise.part.helical import lead_mm
from crankwise.part.over_pins import OverPins, best_pin_mm
from crankwise.part.pair import Pair
from crankwise.part.span import Span, spans_about
from crankwise.tasks.bevel import BevelAnswer
from crankwise.tasks.gear import ChosenCutter, GearAnswer
from crankwise.tasks.helix import HelixCut

FORMAT = 1


def gear_object(answer: GearAnswer) -> dict[str, Any]:
    """Return the answer about a spur or helical gear as a plain object."""
    gear = answer.gear
    tooth = chord(gear, answer.blank.outside_mm)
    depth = cutting_depth_mm(gear, answer.blank.outside_mm)
    passes = cuts(depth, gear.normal_module_mm, answer.blank.deepest_cut_mm)
    told: dict[str, Any] = {
        "format": FORMAT,
        "kind": "helical" if gear.is_helical else "spur",
        "name": answer.name,
        "teeth": gear.teeth,
        "module_mm": float(gear.module_mm),
        "diametral_pitch": float(INCH / gear.module_mm),
        "pressure_angle_deg": float(gear.pressure_angle * 360),
        "shift": float(gear.shift),
        "system": gear.system.key,
        "outside_diameter_mm": float(gear.outside_diameter_mm),
        "pitch_diameter_mm": float(gear.pitch_diameter_mm),
        "base_diameter_mm": gear.base_diameter_mm,
        "root_diameter_mm": float(gear.root_diameter_mm),
        "addendum_mm": float(gear.addendum_mm),
        "whole_depth_mm": float(gear.whole_depth_mm),
        "depth_mm": float(depth),
        "passes": [{"name": cut.name, "depth_mm": float(cut.depth_mm)} for cut in passes],
        "virtual_teeth": _count(gear.virtual_teeth),
        **_cutter(answer.cutter),
        "span": None if answer.span is None else _span(answer.span),
        "spans": [] if answer.span is None else [_span(one) for one in spans_about(gear, answer.span.teeth)],
        "over_pins": _pin(answer.pins[0]) if answer.pins else None,
        "pins": [_pin(pin) for pin in answer.pins],
        "best_pin_mm": best_pin_mm(gear),
        "chordal": {"thickness_mm": tooth.thickness_mm, "addendum_mm": tooth.addendum_mm},
        "tooth_thickness_mm": gear.tooth_thickness_mm,
        "tip_thickness_mm": gear.tip_thickness_mm,
        "least_teeth_without_undercut": gear.least_teeth_without_undercut,
        "undercut_limit_teeth": gear.undercut_limit,
        "undercut": gear.is_undercut,
        "least_shift_without_undercut": gear.least_shift_without_undercut,
        "infeeds": [
            {
                "what": one.what,
                "read_mm": float(one.read_mm),
                "meant_mm": one.meant_mm,
                "deeper_mm": one.deeper_mm,
                "pin_mm": None if one.pin_mm is None else float(one.pin_mm),
            }
            for one in answer.infeeds
        ],
    }
    if gear.is_helical:
        told["helix"] = {
            "angle_deg": float(gear.helix * 360),
            "hand": gear.hand,
            "lead_mm": lead_mm(gear),
            "table_swing_deg": float(gear.helix * 360),
            "normal_module_mm": float(gear.normal_module_mm),
            "transverse_module_mm": float(gear.transverse_module_mm),
        }
    if answer.pair:
        told["pair"] = _pair(answer.pair)
    if answer.helix:
        told["lead_trains"] = _trains(answer.helix)
        told["ways_left"] = None if answer.helix.ways is None else [way.key for way in answer.helix.ways]
    return told | _cards(answer.cards, answer.warnings)


def bevel_object(answer: BevelAnswer) -> dict[str, Any]:
    """Return the answer about a bevel gear as a plain object."""
    gear, cut = answer.gear, answer.finishing
    told: dict[str, Any] = {
        "format": FORMAT,
        "kind": "bevel",
        "name": answer.name,
        "approximate": True,
        "teeth": gear.teeth,
        "mate_teeth": gear.mate_teeth,
        "module_mm": float(gear.module_mm),
        "diametral_pitch": float(INCH / gear.module_mm),
        "pressure_angle_deg": float(gear.pressure_angle * 360),
        "shaft_angle_deg": float(gear.shaft_angle * 360),
        "system": gear.system.key,
        "outside_diameter_mm": gear.outside_diameter_mm,
        "pitch_diameter_mm": float(gear.pitch_diameter_mm),
        "whole_depth_mm": float(gear.whole_depth_mm),
        "face_mm": float(gear.face_mm),
        "cone_distance_mm": gear.cone_distance_mm,
        "pitch_cone_deg": degrees(gear.pitch_angle),
        "root_cone_deg": degrees(gear.root_angle),
        "face_cone_deg": degrees(gear.face_angle),
        "head_tilt_deg": degrees(gear.root_angle),
        "virtual_teeth": gear.virtual_teeth,
        **_cutter(answer.cutter),
        "finishing": None
        if cut is None
        else {
            "cutter_mm": cut.cutter_mm,
            "offset_mm": cut.offset_mm,
            "roll_deg": cut.roll * 360,
        },
    }
    return told | _cards(answer.cards, answer.warnings)


def _count(count: Quantity) -> float:
    return int(count) if count == int(count) else float(count)


def _cutter(chosen: ChosenCutter) -> dict[str, Any]:
    cutter = chosen.cutter
    if cutter is None:
        return {"cutter_number": None, "cutter": None}
    return {
        "cutter_number": _count(cutter.number_where(chosen.order)) if cutter.number else None,
        "cutter": {
            "from_teeth": cutter.least,
            "to_teeth": cutter.most,
            "number_where_1_cuts_rack": _count(cutter.number_where("rack")) if cutter.number else None,
            "number_where_1_cuts_12": _count(cutter.number_where("12")) if cutter.number else None,
            "owned": chosen.is_owned,
        },
    }


def _span(one: Span) -> dict[str, Any]:
    told: dict[str, Any] = {"teeth": one.teeth, "mm": one.length_mm, "contact_diameter_mm": one.contact_mm}
    return told | {"least_face_mm": one.face_mm} if one.face_mm else told


def _pin(pin: OverPins) -> dict[str, Any]:
    return {"pin_mm": float(pin.pin_mm), "mm": pin.over_mm, "contact_diameter_mm": pin.contact_mm}


def _pair(pair: Pair) -> dict[str, Any]:
    return {
        "mate_teeth": pair.second.teeth,
        "mate_shift": float(pair.second.shift),
        "mate_outside_diameter_mm": float(pair.second.outside_diameter_mm),
        "centres_mm": pair.working_centres_mm,
        "reference_centres_mm": pair.reference_centres_mm,
        "tight_centres_mm": pair.tight_centres_mm,
        "working_pressure_angle_deg": degrees(pair.working_pressure_angle),
        "working_diameters_mm": [pair.working_diameter_mm(gear) for gear in (pair.first, pair.second)],
        "full_clearance_diameters_mm": [
            pair.full_clearance_diameter_mm(gear) for gear in (pair.first, pair.second)
        ],
        "shift_sum": pair.shift_sum,
        "backlash_mm": pair.backlash_mm,
        "contact_ratio": pair.contact_ratio,
        "interference": list(pair.troubles),
    }


def _trains(cut: HelixCut) -> list[dict[str, Any]]:
    return [
        {
            "drivers": list(one.train.drivers),
            "driven": list(one.train.driven),
            "value": as_text(one.train.value),
            "lead_mm": float(one.lead_mm),
            "helix_deg": one.helix * 360,
            "error_over_face_mm": one.error_mm,
        }
        for one in cut.trains
    ]


def _cards(cards: tuple[Card, ...], warnings: tuple[tuple[str, str], ...]) -> dict[str, Any]:
    return {
        "cards": [card_object(card) for card in cards],
        "warnings": [{"code": code, "text": text} for code, text in warnings],
    }


def card_object(card: Card) -> dict[str, Any]:
    """Return a card as a plain object; its words are not promised."""
    return {
        "title": card.title,
        "lines": [
            {
                "what": line.what,
                "value": _number(line.value),
                "unit": line.unit,
                "low": _number(line.low),
                "high": _number(line.high),
                "using": line.using,
                "note": line.note,
            }
            for line in card.lines
        ],
    }


def _number(value: Quantity | None) -> float | None:
    return None if value is None else float(value)
