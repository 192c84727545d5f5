"""Size a clock wheel and the pitch circle of its pinion."""

from dataclasses import dataclass
from fractions import Fraction

from crankwise.exact.number import read_number
from crankwise.part.clock_pinion_cards import pinion_measuring_card, pinion_preparation_card
from crankwise.part.clock_wheel import (
    TIP_SHARE,
    ClockWheel,
    measuring_card,
    part_of,
    pinion_part_of,
    preparation_card,
)
from crankwise.tasks.asked_tooth import asked_module, asked_pitch
from crankwise.tasks.divide import whole_number
from crankwise.tasks.sized_part import SizedPart
from crankwise.wording.part_names import clock_wheel_name, clock_wheel_warnings


@dataclass(frozen=True, slots=True)
class ClockWheelTyped:
    """What was typed for a clock wheel, all texts; empty where nothing was.

    teeth, pinion  teeth of the wheel, leaves of the pinion
    module, dp     one of them
    tip_share      how much of the full height is kept, 0.8 to 1
    """

    teeth: str = ""
    pinion: str = ""
    module: str = ""
    dp: str = ""
    tip_share: str = ""


def clock_wheel_answer(typed: ClockWheelTyped) -> SizedPart:
    """Return all that is known of the clock wheel that was typed. Raises Mendable."""
    wheel = ClockWheel(
        whole_number(typed.teeth, "teeth"),
        whole_number(typed.pinion, "pinion"),
        asked_module(typed.module, typed.dp),
        read_number(typed.tip_share, "tip-share") if typed.tip_share else TIP_SHARE,
    )
    told = {
        "teeth": wheel.teeth,
        "leaves": wheel.leaves,
        "module_mm": float(wheel.module_mm),
        "pitch_diameter_mm": float(wheel.pitch_diameter_mm),
        "pinion_pitch_diameter_mm": float(wheel.pinion_pitch_diameter_mm),
        "centres_mm": float(wheel.centres_mm),
        "full_addendum_mm": wheel.full_addendum_mm,
        "addendum_mm": wheel.addendum_mm,
        "outside_diameter_mm": wheel.outside_diameter_mm,
        "tooth_thickness_mm": float(Fraction(wheel.tooth_thickness_mm)),
    }
    return SizedPart(
        "clock-wheel",
        clock_wheel_name(wheel, asked_pitch(typed.dp)),
        wheel,
        (part_of(wheel), pinion_part_of(wheel)),
        (preparation_card(wheel), measuring_card(wheel)),
        told,
        bool(typed.dp),
        clock_wheel_warnings(),
        runs=("the wheel", "the pinion"),
        is_one_piece=False,
        own_cards={2: (pinion_preparation_card(wheel), pinion_measuring_card(wheel))},
    )
