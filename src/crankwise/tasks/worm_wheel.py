"""Size a worm wheel for gashing and hobbing."""

from dataclasses import dataclass

from crankwise.exact.number import as_text
from crankwise.part.worm_wheel import WormWheel, measuring_card, part_of, preparation_card
from crankwise.tasks.asked_tooth import asked_angle, asked_hand, asked_module, asked_pitch
from crankwise.tasks.divide import whole_number
from crankwise.tasks.sized_part import SizedPart, is_in_inches, needed_length
from crankwise.wording.part_names import worm_wheel_name, worm_wheel_warnings


@dataclass(frozen=True, slots=True)
class WormWheelTyped:
    """What was typed for a worm wheel, all texts; empty where nothing was. Lengths bare in mm.

    teeth             of the wheel
    module, dp, pitch one of them, axial
    worm              pitch diameter of the worm
    starts, hand      of the worm
    pressure_angle    in degrees
    """

    teeth: str = ""
    module: str = ""
    dp: str = ""
    pitch: str = ""
    worm: str = ""
    starts: str = ""
    hand: str = ""
    pressure_angle: str = ""


def worm_wheel_answer(typed: WormWheelTyped) -> SizedPart:
    """Return all that is known of the worm wheel that was typed. Raises Mendable."""
    wheel = WormWheel(
        whole_number(typed.teeth, "teeth"),
        asked_module(typed.module, typed.dp, typed.pitch),
        needed_length(typed.worm, "worm", "--worm 20mm, its pitch diameter"),
        whole_number(typed.starts, "starts") if typed.starts else 1,
        asked_hand(typed.hand),
        asked_angle(typed.pressure_angle, "pressure angle"),
    )
    told = {
        "teeth": wheel.teeth,
        "starts": wheel.starts,
        "ratio": as_text(wheel.ratio),
        "module_mm": float(wheel.module_mm),
        "pitch_mm": float(wheel.pitch_mm),
        "lead_mm": float(wheel.lead_mm),
        "lead_angle_deg": wheel.lead_angle * 360,
        "pitch_diameter_mm": float(wheel.pitch_diameter_mm),
        "throat_diameter_mm": float(wheel.throat_diameter_mm),
        "throat_radius_mm": float(wheel.throat_radius_mm),
        "outside_diameter_mm": float(wheel.outside_diameter_mm),
        "face_mm": wheel.face_mm,
        "centres_mm": float(wheel.centres_mm),
        "worm_outside_mm": float(wheel.worm_outside_mm),
        "hob_outside_mm": float(wheel.hob_outside_mm),
        "whole_depth_mm": float(wheel.whole_depth_mm),
        "gash_depth_mm": float(wheel.gash_depth_mm),
        "gash_width_mm": wheel.gash_width_mm,
        "free_hobbed_teeth": wheel.free_hobbed_teeth,
    }
    return SizedPart(
        "worm-wheel",
        worm_wheel_name(wheel, bool(typed.pitch), asked_pitch(typed.dp)),
        wheel,
        (part_of(wheel),),
        (preparation_card(wheel), measuring_card(wheel)),
        told,
        is_in_inches(typed.worm),
        worm_wheel_warnings(wheel),
    )
