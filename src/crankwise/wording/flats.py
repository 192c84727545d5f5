"""Flats in words."""

from crankwise.part.flats import Flats
from crankwise.wording.card import length_text

_NAMES = {
    1: "one flat",
    2: "two flats",
    3: "triangle",
    4: "square",
    5: "pentagon",
    6: "hexagon",
    8: "octagon",
}


def flats_name(flats: Flats, inch_first: bool = False) -> str:
    """Return hexagon, 17.000 mm (0.6693 in) across flats, on a bar of 19.630 mm (0.7728 in)."""
    count = len(flats.flats)
    bar = f"on a bar of {length_text(flats.bar_mm, inch_first)}"
    if not flats.is_regular:
        return f"{count} unequal flats {bar}"
    name = _NAMES.get(count, f"{count} flats")
    if flats.across_flats_mm is not None:
        return f"{name}, {length_text(flats.across_flats_mm, inch_first)} across flats, {bar}"
    return f"{name}, {length_text(flats.flats[0].height_mm, inch_first)} from the centre to a flat, {bar}"
