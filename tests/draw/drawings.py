"""Parts of every kind as they are typed, and what a drawing of one looks like to shapely."""

from collections.abc import Mapping
from math import hypot

from shapely import Polygon

from crankwise.draw.part_drawing import PartDrawing
from crankwise.tasks.part_kinds import MadePart, made_of
from crankwise.tasks.picture import drawing_of

TIDE_RING = {
    "period": "12h25m",
    "per_line": "5m",
    "on": "ring",
    "across": "150mm",
    "face": "14mm",
    "classes": "1=3mm, 6=4.5mm, 12=6.5mm",
    "height": "2.4mm",
}
SCREW_DIAL = {"lead": "1.5mm", "per_line": "0.01mm", "on": "drum", "across": "60mm", "numeral_step": "0.01"}

EVERY_KIND: dict[str, tuple[str, Mapping[str, str]]] = {
    "spur": ("spur", {"teeth": "127", "module": "1"}),
    "helical": ("helical", {"teeth": "30", "module": "2", "helix": "30"}),
    "bevel": ("bevel", {"teeth": "24", "dp": "10", "mate": "36", "face": "3/4in"}),
    "tide ring": ("graduated", TIDE_RING),
    "screw dial": ("graduated", SCREW_DIAL),
    "cone": ("graduated", {"lines": "60", "on": "cone", "across": "60mm", "stand": "radial"}),
    "vernier": (
        "graduated",
        {"vernier": "12", "over": "23", "main_part": "1deg", "on": "ring", "across": "120mm"},
    ),
    "holes": (
        "holes",
        {"count": "7", "circle": "60mm", "hole": "6mm", "also": "12 on 90mm", "blank": "110mm"},
    ),
    "hexagon": ("flats", {"count": "6", "across_flats": "17mm"}),
    "unequal flats": ("flats", {"unequal": "0: 8mm, 90: 7mm, 200: 8.5mm", "bar": "20mm"}),
    "list": ("list", {"angles": "0: open; 12.5: close; 90: stop"}),
    "divisions": ("divisions", {"count": "28"}),
    "worm wheel": ("worm-wheel", {"teeth": "40", "module": "1.5", "worm": "20mm"}),
    "ratchet": ("ratchet", {"teeth": "24", "outside": "50mm", "depth": "3mm", "undercut": "5"}),
    "splines": ("splines", {"size": "6x23x28"}),
    "sprocket": ("sprocket", {"teeth": "13", "chain": "08B"}),
    "clock wheel": ("clock-wheel", {"teeth": "60", "pinion": "8", "module": "1"}),
    "clock pinion": ("clock-wheel", {"teeth": "60", "pinion": "8", "module": "1", "which": "2"}),
}


def made(name: str) -> MadePart:
    """Return one of these parts, worked out."""
    kind, typed = EVERY_KIND[name]
    return made_of(kind, typed)


def drawing(name: str, position: int | None = None) -> PartDrawing:
    """Return the drawing of one of these parts, as fine as a print."""
    return drawing_of(made(name), 0.0005, position)


def body(drawn: PartDrawing) -> Polygon:
    """Return the one closed outline of the work."""
    (outline,) = (path for path in drawn.paths if path.layer == "body")
    assert outline.is_closed
    shape = Polygon(outline.points)
    assert shape.is_valid
    return shape


def farthest(shape: Polygon) -> float:
    """Return the greatest distance of a shape from the axis."""
    return max(hypot(x, y) for x, y in shape.exterior.coords)
