"""Size a rack, and tell where the slide stops for each space."""

from dataclasses import dataclass

from crankwise.errors import BadNumber
from crankwise.exact.number import as_text
from crankwise.head.head import Head
from crankwise.part.gear_system import FULL_DEPTH, INCH_FULL_DEPTH
from crankwise.part.rack import Rack, measuring_card, part_of_rack, preparation_card, spaces_in
from crankwise.plan.leadscrew import Leadscrew, SlideSetting, slide_settings
from crankwise.tasks.asked_tooth import asked_angle, asked_module, asked_pitch
from crankwise.tasks.divide import whole_number
from crankwise.tasks.leadscrew import asked_leadscrew, screw_of, slide_of
from crankwise.tasks.sized_part import SizedPart, optional_length
from crankwise.wording.leadscrew import place_cells, place_headings, slide_cells
from crankwise.wording.part_names import rack_name, travel_warnings


@dataclass(frozen=True, slots=True)
class RackTyped:
    """What was typed for a rack, all texts; empty where nothing was. Lengths bare in mm.

    teeth                          spaces to cut
    module, dp, pitch              one of them
    pressure_angle                 in degrees
    travel                         how far the slide goes; empty for what its owner has described
    leadscrew, marks, read_to      the slide's screw and dial
    """

    teeth: str = ""
    module: str = ""
    dp: str = ""
    pitch: str = ""
    pressure_angle: str = ""
    travel: str = ""
    leadscrew: str = ""
    marks: str = ""
    read_to: str = ""


def rack_answer(typed: RackTyped, slide: Head | None = None) -> SizedPart:
    """Return all that is known of the rack that was typed. Raises Mendable.

    slide  the slide that it is cut on, where its owner has described it
    """
    if slide and typed.leadscrew.strip():
        raise BadNumber("leadscrew", "the head says it already; give one or the other")
    rack = Rack(
        whole_number(typed.teeth, "teeth"),
        asked_module(typed.module, typed.dp, typed.pitch),
        asked_angle(typed.pressure_angle, "pressure angle"),
        INCH_FULL_DEPTH if typed.dp else FULL_DEPTH,
    )
    travel = optional_length(typed.travel, "travel")
    if travel is None and slide and slide.slide:
        travel = slide.slide.travel_mm
    screw = screw_of(slide) if slide else asked_leadscrew(typed.leadscrew, typed.marks, typed.read_to)
    settings = list(slide_settings(screw, rack.positions_mm)) if screw else []
    told = {
        "teeth": rack.teeth,
        "module_mm": float(rack.module_mm),
        "pressure_angle_deg": float(rack.pressure_angle * 360),
        "pitch_mm": float(rack.pitch_mm),
        "whole_depth_mm": float(rack.whole_depth_mm),
        "addendum_mm": float(rack.addendum_mm),
        "bottom_width_mm": rack.bottom_width_mm,
        "spaces_in_travel": None if travel is None else spaces_in(rack.teeth, rack.pitch_mm, travel),
        "positions_mm": [float(place) for place in rack.positions_mm],
        "dial": [_dial_object(setting) for setting in settings],
        "worst_error_um": max((abs(float(one.error_mm)) * 1000 for one in settings), default=None),
    }
    return SizedPart(
        "rack",
        rack_name(rack, asked_pitch(typed.dp)),
        rack,
        (part,) if (part := part_of_rack(rack)) else (),
        (preparation_card(rack), measuring_card(rack)),
        told,
        bool(typed.dp),
        travel_warnings(rack.teeth, rack.pitch_mm, travel),
        (("Places along the slide", *_table(rack, screw, settings, bool(typed.dp))),),
        slide_of(screw) if screw and not slide else None,
    )


def _dial_object(setting: SlideSetting) -> dict[str, object]:
    return {
        "position": setting.position,
        "turns": setting.turns,
        "reading": as_text(setting.reading),
        "error_um": float(setting.error_mm * 1000),
    }


def _table(
    rack: Rack, screw: Leadscrew | None, settings: list[SlideSetting], inch_first: bool
) -> tuple[list[str], list[list[str]]]:
    headings = ["position", *place_headings("", inch_first=inch_first)]
    if screw:
        headings += ["turns", "dial", "error"]
    rows = []
    for number, place in enumerate(rack.positions_mm):
        row = [str(number), *place_cells(place, inch_first=inch_first)]
        rows.append(row + (slide_cells(settings[number], inch_first) if screw else []))
    return headings, rows
