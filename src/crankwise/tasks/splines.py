"""Size straight-sided splines: any, or the sizes of ISO 14 by their name."""

import re
from dataclasses import dataclass

from crankwise.errors import BadLength
from crankwise.exact.length import read_diameter
from crankwise.exact.number import shown
from crankwise.part.splines import Splines, measuring_card, parts_of, preparation_card, standard_key
from crankwise.tasks.divide import whole_number
from crankwise.tasks.sized_part import SizedPart, is_in_inches, number, optional_length
from crankwise.wording.card import length_text
from crankwise.wording.part_names import splines_name, splines_warnings

_SIZE = re.compile(r"\s*([^x×]+)[x×]([^x×]+)[x×]([^x×]+)(?:[x×]([^x×]+))?\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class SplinesTyped:
    """What was typed for splines, all texts; empty where nothing was. Lengths bare in mm.

    size          keys x minor x major diameter, and x the key's width where ISO 14 does not tell it
    floor_cutter  width of the cutter for the floors
    """

    size: str = ""
    floor_cutter: str = ""


def asked_splines(typed: SplinesTyped) -> Splines:
    """Return the splines that were typed. Raises Mendable."""
    found = _SIZE.fullmatch(typed.size)
    if found is None:
        raise BadLength(
            "size",
            f"{shown(typed.size)}; write the keys, the diameter over the floors and over the keys, as 6x23x26, "
            "and the width of a key where it is not of ISO 14, as 6x20x25x5",
        )
    keys = whole_number(found[1], "keys")
    minor, major = read_diameter(found[2], "minor"), read_diameter(found[3], "major")
    key = read_diameter(found[4], "key") if found[4] else standard_key(keys, minor, major)
    if minor >= major:
        raise BadLength(
            "size",
            f"the diameter over the floors, {length_text(minor)}, goes first and is the smaller: it is not below "
            f"{length_text(major)} over the keys; write them as 6x23x26",
        )
    if key is None:
        raise BadLength(
            "size",
            f"ISO 14 has no {keys} keys from {length_text(minor)} to {length_text(major)}; say the width of a "
            f"key too, as {typed.size.strip()}x5",
        )
    return Splines(keys, minor, major, key)


def splines_answer(typed: SplinesTyped) -> SizedPart:
    """Return all that is known of the splines that were typed. Raises Mendable."""
    splines = asked_splines(typed)
    cutter = optional_length(typed.floor_cutter, "floor cutter")
    settings = splines.floor_settings(cutter) if cutter is not None else ()
    minor = typed.size.lower().replace("×", "x").split("x")[1]
    told = {
        "keys": splines.keys,
        "minor_mm": float(splines.minor_mm),
        "major_mm": float(splines.major_mm),
        "key_mm": float(splines.key_mm),
        "series": splines.series,
        "side_offset_mm": float(splines.side_offset_mm),
        "side_depth_mm": splines.side_depth_mm,
        "floor_depth_mm": float(splines.floor_depth_mm),
        "floor_width_mm": splines.floor_width_mm,
        "widest_side_cutter_mm": number(splines.widest_side_cutter_mm),
        "floor_settings_deg": [setting * 360 for setting in settings],
    }
    inch_first = is_in_inches(minor)
    return SizedPart(
        "splines",
        splines_name(splines, inch_first),
        splines,
        parts_of(splines),
        (preparation_card(splines, cutter), measuring_card(splines)),
        told,
        inch_first,
        splines_warnings(splines),
        runs=("keys", "floors"),
    )
