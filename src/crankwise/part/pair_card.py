"""The card of two gears in mesh: where they stand, and what the mesh is like."""

from collections.abc import Iterator
from fractions import Fraction
from math import pi

from crankwise.part.card import Card, CardLine
from crankwise.part.pair import Pair

TROUBLES = {
    "tight": "no backlash: the teeth cannot be put together at these centres; set them farther apart or cut deeper",
    "gap": "under one tooth in contact: the drive halts between teeth; bring the centres nearer or give more teeth",
    "beyond": "a tip works past the base tangent of the other gear and digs into its flank: give the small gear "
    "shift, or more teeth",
    "root": "a tip meets the fillet below the other gear's involute: give the small gear shift, or turn the tips down",
    "bottom": "a tip touches the bottom of the other gear's spaces: turn the tips down or cut deeper",
}
"""By the code of a trouble, what it is and what helps."""


def pair_card(pair: Pair, face_mm: Fraction | None = None) -> Card:
    """Return what to set and to check for two gears.

    face_mm  the width in mesh, for the overlap of helical teeth; None when not told
    """
    return Card(f"Pair of {pair.first.teeth} and {pair.second.teeth} teeth", tuple(_lines(pair, face_mm)))


def _lines(pair: Pair, face_mm: Fraction | None) -> Iterator[CardLine]:
    yield CardLine("ratio", Fraction(pair.second.teeth, pair.first.teeth), "count", note="driven over driver")
    yield CardLine("centre distance", pair.working_centres_mm, "mm")
    if pair.centres_mm is not None:
        yield CardLine("without backlash", pair.tight_centres_mm, "mm", note="for full teeth")
        yield CardLine(
            "shifts for these centres",
            pair.shift_sum,
            "count",
            note="modules, both together, without backlash",
        )
    yield CardLine("working pressure angle", pair.working_pressure_angle / (2 * pi), "turn")
    yield CardLine("backlash", pair.backlash_mm, "mm", note="along the pitch circles")
    if pair.fouls:
        yield CardLine(
            "contact ratio",
            pair.contact_ratio,
            "count",
            note="not reached: that is what the teeth would have if nothing fouled; see interference",
        )
    else:
        yield CardLine(
            "contact ratio", pair.contact_ratio, "count", low=1.2, note="teeth in contact, on the average"
        )
    if face_mm is not None and pair.first.is_helical:
        yield CardLine(
            "overlap ratio", pair.overlap_ratio(face_mm), "count", note="added by the helix over the face"
        )
    for gear in (pair.first, pair.second):
        meant = gear.system.dedendum * gear.module_mm - gear.system.addendum * gear.module_mm
        yield CardLine(
            f"clearance of the {gear.teeth}'s tips",
            pair.clearance_mm(gear),
            "mm",
            note="" if pair.clearance_mm(gear) >= float(meant) - 1e-9 else "less than the system means",
        )
        full = pair.full_clearance_diameter_mm(gear)
        if full < float(gear.outside_diameter_mm) - 1e-9:
            yield CardLine(
                f"outside diameter of the {gear.teeth}",
                full,
                "mm",
                note="turned down so far, it has its full clearance",
            )
    if not pair.troubles:
        yield CardLine("interference", note="none")
    for trouble in pair.troubles:
        yield CardLine("interference", note=TROUBLES[trouble])
