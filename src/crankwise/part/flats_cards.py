"""The preparation card and the measuring card of flats."""

from collections.abc import Iterator
from fractions import Fraction

from crankwise.part.card import Card, CardLine
from crankwise.part.flats import Flat, Flats
from crankwise.part.pass_lines import pass_lines
from crankwise.part.usual_lines import TRACE

FLAT_TOLERANCE_MM = Fraction(1, 10)
"""How much smaller than meant a distance across flats may come out. Typical, judgement: a spanner still fits."""


def preparation_card(flats: Flats) -> Card:
    """Return what to have ready before the first cut, in the order of work."""
    return Card("Preparation", tuple(_preparation(flats)))


def _preparation(flats: Flats) -> Iterator[CardLine]:
    corners = (
        "the smallest bar with sharp corners"
        if flats.corners_are_sharp
        else "the round of the bar is left at the corners"
        if flats.across_corners_mm
        else "the round of the bar is left between the flats"
    )
    yield CardLine("bar", flats.bar_mm, "mm", note=f"measure it: the depth counts from it; {corners}")
    yield CardLine(
        "material", note="drawn bar is seldom round to a hundredth, and free-cutting bar burrs least"
    )
    yield CardLine(
        "holding",
        note="short in the chuck or collet, a long bar on the tailstock's centre; the head's axis level and along the "
        "table, or the flats taper",
    )
    for name, group in _alike(flats):
        yield CardLine(
            f"depth{name}",
            flats.depth_mm(group),
            "mm",
            note="from a touch on the top of the bar",
        )
        yield CardLine(
            f"width{name}", flats.width_mm(group), "mm", note="the cutter, or its passes, must cover it"
        )
    if flats.is_regular:
        yield from pass_lines(flats.depth_mm(flats.flats[0]))
    yield TRACE
    yield CardLine("order", note=_order(flats))


def _order(flats: Flats) -> str:
    if len(flats.flats) == 1:
        return "rough, then finish at the depth"
    first = (
        "cut two opposite flats and measure across them"
        if any(map(flats.opposite, flats.flats))
        else "cut one flat and measure over it to the round opposite"
    )
    return f"rough all round, then finish all round at one depth; {first} before the others"


def measuring_card(flats: Flats, tolerance_mm: Fraction = FLAT_TOLERANCE_MM) -> Card:
    """Return what to measure, its limits, and what to do if it is off.

    tolerance_mm  how much smaller a distance across flats may come out
    """
    return Card("Measuring", tuple(_measuring(flats, tolerance_mm)))


def _measuring(flats: Flats, less: Fraction) -> Iterator[CardLine]:
    across = flats.across_flats_mm
    if flats.is_regular and across is None:
        over = float(flats.flats[0].height_mm) + float(flats.bar_mm) / 2
        alone = len(flats.flats) == 1
        yield CardLine(
            f"over the {'' if alone else 'first '}flat and the round",
            over,
            "mm",
            over - float(less),
            over,
            using="micrometer" if alone else "micrometer, before the others are cut",
        )
    if across is not None:
        yield CardLine(
            "across flats",
            across,
            "mm",
            across - less,
            across,
            using="micrometer, after the second flat",
            note="over: go half the rest deeper, on every flat",
        )
    elif flats.flat_to_corner_mm is not None:
        odd = flats.flat_to_corner_mm
        yield CardLine(
            "flat to opposite corner",
            odd,
            "mm",
            odd - float(less),
            odd,
            using="micrometer",
            note="an odd number has no two flats opposite; deburr the corner first",
        )
    for number, flat in enumerate(flats.flats if across is None else (), 1):
        facing = flats.opposite(flat)
        if facing is not None and facing.angle > flat.angle:
            both = flat.height_mm + facing.height_mm
            yield CardLine(
                f"over flat {number} and the one opposite", both, "mm", both - less, both, using="micrometer"
            )
        elif facing is None and not flats.is_regular:
            over = float(flat.height_mm) + float(flats.bar_mm) / 2
            yield CardLine(
                f"over flat {number} and the round opposite",
                over,
                "mm",
                over - float(less),
                over,
                using="micrometer",
                note="while the round opposite is still there",
            )
    if flats.across_corners_mm is not None:
        yield CardLine("across corners", flats.across_corners_mm, "mm")
    if flats.is_regular and len(flats.flats) > 1:
        yield CardLine(
            "widths",
            note="all flats must come out as wide; one wide, one narrow: the bar ran out, or a count is off",
        )


def _alike(flats: Flats) -> Iterator[tuple[str, Flat]]:
    """Yield the flats to tell: one for all where they are alike, else each with its number."""
    if flats.is_regular:
        yield "", flats.flats[0]
        return
    for number, flat in enumerate(flats.flats, 1):
        yield f" of flat {number}", flat
