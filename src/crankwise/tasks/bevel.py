"""Work out a straight bevel gear that is cut with form cutters."""

from dataclasses import dataclass
from fractions import Fraction
from math import pi

from crankwise.errors import BadLength
from crankwise.exact.length import read_diameter
from crankwise.part.bevel import BevelGear, FinishingCut, finishing_cut
from crankwise.part.bevel_cards import APPROXIMATION, measuring_card, preparation_card
from crankwise.part.card import Card
from crankwise.part.gear_cards import Blank
from crankwise.tasks.asked_gear import GearTyped, asked_bevel
from crankwise.tasks.gear import ChosenCutter, ShopTyped, asked_blank, chosen_cutter
from crankwise.wording.card import length_text
from crankwise.wording.gear import bevel_name


@dataclass(frozen=True, slots=True)
class BevelAnswer:
    """All that is known of the bevel gear.

    finishing  the two cuts that finish the flanks; None where no cutter cuts so few virtual teeth
    """

    name: str
    gear: BevelGear
    blank: Blank
    cutter: ChosenCutter
    finishing: FinishingCut | None
    inch_first: bool

    @property
    def cards(self) -> tuple[Card, ...]:
        """The preparation card and the measuring card."""
        return (preparation_card(self.gear, self.blank, self.finishing), measuring_card(self.gear))

    @property
    def warnings(self) -> tuple[tuple[str, str], ...]:
        """What to beware of, each with its code."""
        found = [("approximation", APPROXIMATION)]
        if self.cutter.cutter is None:
            found.append(("no-cutter", "no set of form cutters goes below 12 virtual teeth"))
        if self.gear.face_is_long:
            found.append(
                ("long-face", "the face is over a third of the cone distance: the small end comes out poorly")
            )
        return tuple(found)


def bevel_answer(typed: GearTyped, shop: ShopTyped) -> BevelAnswer:
    """Return all that is known of the bevel gear that was typed. Raises Mendable."""
    for what, text in (
        ("pin", shop.pin),
        ("span", shop.span),
        ("blank", shop.blank),
        ("read-span", shop.read_span),
        ("read-pins", shop.read_pins),
        ("read-chord", shop.read_chord),
    ):
        if text:
            raise BadLength(
                what, "a form-cut bevel gear is measured by tooth calliper at either end; leave it out"
            )
    gear = asked_bevel(typed)
    chosen = chosen_cutter(
        gear.virtual_teeth, gear.module_mm, gear.pressure_angle, shop, by_pitch=bool(typed.dp)
    )
    blank = asked_blank(shop, chosen, gear.outside_diameter_mm, gear.whole_depth_mm)
    width = read_diameter(typed.cutter_width, "cutter-width") if typed.cutter_width else None
    finishing = finishing_cut(gear, chosen.cutter.least, width) if chosen.cutter else None
    if finishing is not None and width is not None:
        _check_width(gear, finishing, width)
    return BevelAnswer(bevel_name(gear, typed.pitch), gear, blank, chosen, finishing, bool(typed.dp))


def _check_width(gear: BevelGear, finishing: FinishingCut, width: Fraction) -> None:
    """Refuse a cutter that would spoil the small end, or leave a rib in the middle of the large one."""
    if finishing.cutter_small_mm > gear.widest_cutter_mm * 1.0001:
        narrower = gear.widest_cutter_mm + finishing.cutter_mm - finishing.cutter_small_mm
        raise BadLength(
            "cutter-width",
            f"{length_text(width)} at the large end's pitch line would cut the small end's teeth too thin; "
            f"{length_text(narrower)} is the widest that passes: take one made for bevel gears, or a shorter face",
        )
    if finishing.cutter_mm < float(gear.module_mm) * pi / 4:
        raise BadLength(
            "cutter-width",
            f"{length_text(width)} leaves a rib between the two finishing cuts; measure the cutter one "
            f"dedendum from its tip, where it is {length_text(float(gear.module_mm) * pi / 4)} or more",
        )
