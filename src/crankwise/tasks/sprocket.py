"""Size a sprocket for a roller chain, by the chain's number or its measures."""

from dataclasses import dataclass

from crankwise.errors import BadLength, UnknownThing
from crankwise.exact.length import read_diameter
from crankwise.exact.number import shown
from crankwise.part.sprocket import (
    CHAINS,
    Chain,
    Sprocket,
    chain_for_roller,
    measuring_card,
    part_of,
    preparation_card,
)
from crankwise.tasks.divide import whole_number
from crankwise.tasks.sized_part import SizedPart, is_in_inches, number, optional_length
from crankwise.wording.part_names import sprocket_name, sprocket_warnings


@dataclass(frozen=True, slots=True)
class SprocketTyped:
    """What was typed for a sprocket, all texts; empty where nothing was. Lengths bare in mm.

    teeth                        of the sprocket
    chain                        its number in ISO 606; or:
    pitch, roller, inner_width   its measures
    """

    teeth: str = ""
    chain: str = ""
    pitch: str = ""
    roller: str = ""
    inner_width: str = ""


def asked_chain(typed: SprocketTyped) -> Chain:
    """Return the chain that was typed. Raises Mendable."""
    if bool(typed.chain) == bool(typed.pitch):
        given = "both given" if typed.chain else "neither given"
        raise BadLength(
            "chain and pitch",
            f"{given}; name the chain, as --chain 08B, or give its measures, as --pitch 12.7mm "
            "--roller 8.51mm",
        )
    if typed.chain:
        for name in ("roller", "inner_width"):
            if getattr(typed, name):
                raise BadLength(
                    name.replace("_", "-"),
                    "the chain's number says it; leave it out, or give --pitch instead",
                )
        number_of_chain = typed.chain.strip().upper()
        if number_of_chain not in CHAINS:
            raise UnknownThing(
                f"chain: {shown(typed.chain)} is not known here; there are {', '.join(CHAINS)}; any other by its "
                "measures, as --pitch 12.7mm --roller 8.51mm"
            )
        return CHAINS[number_of_chain]
    return chain_for_roller(
        read_diameter(typed.pitch, "pitch"),
        optional_length(typed.roller, "roller"),
        optional_length(typed.inner_width, "inner-width"),
    )


def sprocket_answer(typed: SprocketTyped) -> SizedPart:
    """Return all that is known of the sprocket that was typed. Raises Mendable."""
    sprocket = Sprocket(whole_number(typed.teeth, "teeth"), asked_chain(typed))
    inch_first = is_in_inches(typed.pitch)
    least, most = sprocket.outside_limits_mm
    told = {
        "teeth": sprocket.teeth,
        "chain": sprocket.chain.number or None,
        "pitch_mm": float(sprocket.chain.pitch_mm),
        "roller_mm": float(sprocket.chain.roller_mm),
        "pitch_diameter_mm": sprocket.pitch_diameter_mm,
        "root_diameter_mm": sprocket.root_diameter_mm,
        "outside_diameter_mm": sprocket.outside_diameter_mm,
        "outside_limits_mm": [least, most],
        "seating_diameter_mm": 2 * sprocket.seating_radius_limits_mm[0],
        "seating_radius_mm": list(sprocket.seating_radius_limits_mm),
        "seating_angle_deg": [float(turn * 360) for turn in sprocket.seating_angle_limits],
        "flank_radius_mm": list(sprocket.flank_radius_limits_mm),
        "over_pins": {"pin_mm": float(sprocket.chain.roller_mm), "mm": sprocket.over_pins_mm},
        "width_mm": number(sprocket.width_mm),
    }
    return SizedPart(
        "sprocket",
        sprocket_name(sprocket, inch_first),
        sprocket,
        (part_of(sprocket),),
        (preparation_card(sprocket), measuring_card(sprocket)),
        told,
        inch_first,
        sprocket_warnings(sprocket),
    )
