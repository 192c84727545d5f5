"""Size flats on a bar: what was typed becomes depths, widths, and cards."""

from dataclasses import dataclass
from fractions import Fraction

from crankwise.errors import BadLength
from crankwise.exact.angle import read_angle
from crankwise.exact.length import read_diameter
from crankwise.exact.listed import listed
from crankwise.exact.number import as_text, shown
from crankwise.part.card import Quantity
from crankwise.part.flats import Flat, Flats, height_of_corners, height_of_side, part_of, polygon
from crankwise.part.flats_cards import FLAT_TOLERANCE_MM, measuring_card, preparation_card
from crankwise.tasks.divide import whole_number
from crankwise.tasks.sized_part import SizedPart, is_in_inches, number, optional_length
from crankwise.wording.flats import flats_name

_SIZES = ("across_flats", "across_corners", "side", "height", "depth")


@dataclass(frozen=True, slots=True)
class FlatsTyped:
    """What was typed for flats, all texts; empty where nothing was. Lengths bare in mm.

    count           how many equal ones
    across_flats, across_corners, side, height, depth   one of them tells their size
    bar             diameter of the bar; needed with a depth, and with fewer than 3 flats
    unequal         instead: each flat as its angle and its height over the centre, 0: 8mm, 120: 9mm
    tolerance       how much smaller a distance across flats may come out
    """

    count: str = ""
    across_flats: str = ""
    across_corners: str = ""
    side: str = ""
    height: str = ""
    depth: str = ""
    bar: str = ""
    unequal: str = ""
    tolerance: str = ""


def asked_flats(typed: FlatsTyped) -> Flats:
    """Return the flats that were typed. Raises Mendable."""
    sizes = {name: getattr(typed, name) for name in _SIZES if getattr(typed, name)}
    bar = optional_length(typed.bar, "bar")
    if typed.unequal:
        for name in ("count", *sizes):
            if getattr(typed, name):
                raise BadLength(_option(name), "goes with equal flats; leave it out beside unequal ones")
        if bar is None:
            raise BadLength("bar", "not told; unequal flats need the bar they are cut on, as --bar 20mm")
        return Flats(_unequal(typed.unequal), bar)
    count = whole_number(typed.count, "flats")
    if len(sizes) != 1:
        given = f"{' and '.join(map(_option, sizes))} are given" if sizes else "none is given"
        raise BadLength(
            "size",
            f"{given}; the size of flats is told by one of them: --across-flats 17mm, --across-corners 20mm, "
            "--side 10mm, --height 8.5mm (from the centre), or --depth 1.5mm with --bar",
        )
    return polygon(count, _height(typed, count, bar), bar)


def _height(typed: FlatsTyped, count: int, bar: Fraction | None) -> Quantity:
    if typed.height:
        return read_diameter(typed.height, "height")
    if typed.depth:
        if bar is None:
            raise BadLength("bar", "not told; a depth counts from the bar, so give it too, as --bar 20mm")
        depth = read_diameter(typed.depth, "depth")
        if depth >= bar / 2:
            raise BadLength(
                "depth",
                f"{typed.depth.strip()} reaches the centre of the bar; less than half of it, "
                f"{as_text(bar / 2)} mm, can be cut",
            )
        return bar / 2 - depth
    if typed.across_flats:
        across = read_diameter(typed.across_flats, "across-flats")
        if count % 2:
            raise BadLength(
                "across-flats",
                f"{count} flats have none opposite another, so nothing can be measured across them; give "
                "--height 8.5mm from the centre to each, --side or --across-corners",
            )
        return across / 2
    if count < 3:
        what = "across-corners" if typed.across_corners else "side"
        raise BadLength(what, f"{count} flats make no corners; give --height or --depth, with --bar")
    if typed.across_corners:
        return height_of_corners(count, read_diameter(typed.across_corners, "across-corners"))
    return height_of_side(count, read_diameter(typed.side, "side"))


def _unequal(typed: str) -> tuple[Flat, ...]:
    found = []
    for place, piece in enumerate(listed(typed, "unequal", ",;", by_lines=True), 1):
        angle, joint, height = piece.partition(":")
        if not joint:
            raise BadLength(
                f"flat {place}",
                f"{shown(piece)}; write each flat as its angle and its height over the centre, as 120: 8mm",
            )
        facing = read_angle(angle, f"flat {place}")
        found.append(Flat(facing, read_diameter(height, f"flat {place}, height")))
    return tuple(found)


def _option(name: str) -> str:
    return "N" if name == "count" else name.replace("_", "-")


def flats_answer(typed: FlatsTyped) -> SizedPart:
    """Return all that is known of the flats that were typed. Raises Mendable."""
    flats = asked_flats(typed)
    inch_first = is_in_inches(*(getattr(typed, name) for name in _SIZES), typed.bar)
    tolerance = optional_length(typed.tolerance, "tolerance") or FLAT_TOLERANCE_MM
    first = flats.flats[0]
    widths = (
        [flats.width_mm(first)] * len(flats.flats) if flats.is_regular else map(flats.width_mm, flats.flats)
    )
    told = {
        "flats": len(flats.flats),
        "bar_mm": float(flats.bar_mm),
        "depth_mm": float(flats.depth_mm(first)) if flats.is_regular else None,
        "width_mm": flats.width_mm(first) if flats.is_regular else None,
        "height_mm": float(first.height_mm) if flats.is_regular else None,
        "across_flats_mm": number(flats.across_flats_mm),
        "across_corners_mm": flats.across_corners_mm,
        "sharp_corners_mm": flats.sharp_corners_mm,
        "flat_to_corner_mm": flats.flat_to_corner_mm,
        "each": [
            {
                "angle_deg": as_text(flat.angle * 360),
                "height_mm": float(flat.height_mm),
                "depth_mm": float(flats.depth_mm(flat)),
                "width_mm": width,
            }
            for flat, width in zip(flats.flats, widths, strict=True)
        ],
    }
    return SizedPart(
        "flats",
        flats_name(flats, inch_first),
        flats,
        (part_of(flats),),
        (preparation_card(flats), measuring_card(flats, tolerance)),
        told,
        inch_first,
    )
