"""The preparation card and the measuring card of a straight bevel gear cut with form cutters."""

from collections.abc import Iterator
from math import cos, pi, sin

from crankwise.part.bevel import BevelGear, FinishingCut
from crankwise.part.card import Card, CardLine
from crankwise.part.depth import cuts
from crankwise.part.gear_cards import MATERIAL, Blank, cutter_line, tolerance_mm
from crankwise.part.usual_lines import CENTRE

APPROXIMATION = (
    "a form cutter has one curve for both ends: the teeth are right at the pitch line only, and are filed "
    "above it at the small end; for slow and light work"
)


def preparation_card(gear: BevelGear, blank: Blank, finishing: FinishingCut | None) -> Card:
    """Return what to have ready before the first cut, in the order of work.

    finishing  the two cuts that finish the flanks; None where no cutter cuts so few virtual teeth
    """
    return Card("Preparation", tuple(_preparation(gear, blank, finishing)))


def _preparation(gear: BevelGear, blank: Blank, finishing: FinishingCut | None) -> Iterator[CardLine]:
    yield CardLine("an approximation", note=APPROXIMATION)
    yield CardLine(
        "outside diameter",
        gear.outside_diameter_mm,
        "mm",
        low=gear.outside_diameter_mm - float(tolerance_mm(gear.module_mm)),
        high=gear.outside_diameter_mm,
        note="the sharp corner of the large end",
    )
    yield CardLine("pitch diameter", gear.pitch_diameter_mm, "mm", note="at the large end")
    yield CardLine("proportions", note=gear.system.name)
    yield CardLine("pitch cone angle", gear.pitch_angle / (2 * pi), "turn", note="from the axis")
    yield CardLine(
        "face cone angle", gear.face_angle / (2 * pi), "turn", note="from the axis; the blank is turned to it"
    )
    yield CardLine(
        "root cone angle",
        gear.root_angle / (2 * pi),
        "turn",
        using="the head is tilted up by this from level",
        set_in=(1,),
    )
    yield CardLine("cone distance", gear.cone_distance_mm, "mm", note="from the apex to the large end")
    yield CardLine(
        "face",
        gear.face_mm,
        "mm",
        high=gear.cone_distance_mm / 3,
        note="longer than a third of the cone distance: the small end comes out poorly"
        if gear.face_is_long
        else "",
    )
    yield CardLine("virtual teeth", gear.virtual_teeth, "count", note="teeth / cos of the pitch cone angle")
    yield MATERIAL
    yield CardLine(
        "holding",
        note="on a stub arbor with its nut sunk below the small end, so that the cutter clears it; keyed or pinned: "
        "the finishing cuts push to one side",
    )
    yield CENTRE
    yield cutter_line(blank.cutter, blank.cutter_note)
    yield CardLine(
        "cutter, at most",
        gear.widest_cutter_mm,
        "mm",
        note="wide where the small end's pitch line comes: bevel cutters are made thin, one for spur gears is too wide",
    )
    yield CardLine(
        "depth at the large end",
        gear.whole_depth_mm,
        "mm",
        note="from a touch on the outside of the large end",
    )
    yield CardLine("first circuit", note="every space on centre, to the full depth; the trace pass before it")
    for number, cut in enumerate(cuts(gear.whole_depth_mm, gear.module_mm, blank.deepest_cut_mm), 1):
        yield CardLine(
            f"pass {number}, {cut.name}", cut.depth_mm, "mm", note="from the touch" if number == 1 else ""
        )
    if finishing is not None:
        yield from _finishing_lines(finishing)


def _finishing_lines(finishing: FinishingCut) -> Iterator[CardLine]:
    yield CardLine(
        "cutter taken to be",
        finishing.cutter_mm,
        "mm",
        note="wide at the large end's pitch line; measure yours",
    )
    yield CardLine(
        "second circuit, table off centre by",
        abs(finishing.offset_mm),
        "mm",
        note="so that the cutter stands to one side of the axis"
        if finishing.offset_mm >= 0
        else "to the other side",
        set_in=(1,),
    )
    yield CardLine(
        "and the blank rolled by",
        finishing.roll,
        "turn",
        note="its top to the same side as the cutter, by the crank; the cutter then trims the flank on the side "
        "of the axis",
        set_in=(1,),
    )
    yield CardLine(
        "third circuit",
        note="as much to the other side of centre; the settings count from the first circuit's zero",
        set_in=(1,),
    )


def measuring_card(gear: BevelGear) -> Card:
    """Return what to measure at both ends, and what to do if it is off."""
    return Card("Measuring", tuple(_measuring(gear)))


def _measuring(gear: BevelGear) -> Iterator[CardLine]:
    for end, part in (("large end", 1.0), ("small end", gear.small_to_large)):
        circle = float(gear.module_mm) * gear.virtual_teeth * part
        half_angle = pi / (2 * gear.virtual_teeth)
        thickness = circle * sin(half_angle)
        yield CardLine(
            f"{end}, tooth calliper set to",
            float(gear.addendum_mm) * part + circle / 2 * (1 - cos(half_angle)),
            "mm",
            note="from the top of the tooth, square to the cone",
        )
        yield CardLine(
            f"{end}, chord of a tooth",
            thickness,
            "mm",
            low=thickness - float(tolerance_mm(gear.module_mm)),
            high=thickness,
            using="gear tooth calliper",
            note="thick at both ends: less offset; thick at this one only: more offset, and more roll until the small "
            "end is just touched again"
            if part == 1
            else "thick at this end only: less offset, and less roll until the large end is just touched again; above "
            "the pitch line it is filed",
        )
    yield CardLine(
        "closing",
        note="on to position N, which is 0 again: the cutter falls into the first space and cuts nothing",
    )
