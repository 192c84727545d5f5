"""The form of each kind of part: a few fields at the front, the rest folded away in groups.

The names are the keys of a job file, so that a form, a file and a command say the same.
"""

from crankwise.web.form_fields import Field, PartForm, same
from crankwise.web.gear_forms import BEVEL, CLOCK_WHEEL, HELICAL, RACK, SPUR, WORM_WHEEL
from crankwise.web.graduated_form import GRADUATED

HOLES = PartForm(
    "holes",
    "Holes on a circle",
    (
        Field("count", "Holes all round", place=same("7"), is_count=True),
        Field("circle", "Diameter of the circle", "Through their centres.", ("60mm", "4in")),
        Field("hole", "Diameter of the holes", place=("6mm", "1/4in")),
    ),
    (
        (
            "Part of a circle, place of the first, datum",
            (
                Field("angles", "Angles instead", "Rising, by commas.", same("0, 30, 75")),
                Field("first", "First drilled", is_count=True, place=same("0")),
                Field("last", "Last drilled", is_count=True),
                Field("every", "Only every", is_count=True, place=same("1")),
                Field("first_at", "Position 0 lies", "right, top, left, bottom, straddle, or degrees."),
                Field("centre", "Dials over the centre", "X and Y.", ("40mm,25mm", "3in,2in")),
                Field("clockwise", "Positions go round clockwise", is_tick=True),
            ),
        ),
        (
            "Further circles, blank",
            (
                Field("also", "Further circles", "41 on 90mm, or 41 on 90mm hole 3mm; by commas."),
                Field(
                    "plate",
                    "or a hole plate",
                    "Holes of each circle.",
                    same("15,16,17,18"),
                ),
                Field("apart", "Circles apart", "Twice the hole where left empty.", ("6mm", "1/4in")),
                Field(
                    "which", "Only circle", "All, a job for each, where left empty.", same("2"), is_count=True
                ),
                Field("blank", "Round blank", place=("120mm", "5in")),
                Field("tolerance", "Centres may be out by", place=("0.1mm", "0.004in")),
            ),
        ),
        (
            "The mill's dials",
            (
                Field("leadscrew", "Lead of the slides' screws", place=("5mm", "1/10in")),
                Field("marks", "Lines of their dials", is_count=True, place=same("100")),
                Field("read_to", "Read to", "Part of a mark.", same("1/2")),
            ),
        ),
    ),
)

FLATS = PartForm(
    "flats",
    "Flats",
    (
        Field("count", "Flats all round", place=same("6"), is_count=True),
        Field("across_flats", "Across flats", place=("17mm", "11/16in")),
        Field("bar", "Bar", "The smallest with sharp corners where left empty.", ("20mm", "3/4in")),
    ),
    (
        (
            "Sized otherwise, unequal flats",
            (
                Field("across_corners", "Across corners", place=("20mm", "3/4in")),
                Field("side", "Width of a flat", place=("10mm", "3/8in")),
                Field("height", "Centre to flat", place=("8.5mm", "1/3in")),
                Field("depth", "Depth from the bar", place=("1.5mm", "1/16in")),
                Field("unequal", "Unequal flats", "Angle: height, by commas.", same("0: 8mm, 120: 9mm")),
                Field("tolerance", "May come out smaller by", place=("0.1mm", "0.004in")),
            ),
        ),
    ),
)

ANGLES = PartForm(
    "list",
    "Angles with texts",
    (
        Field(
            "angles",
            "Angles and texts",
            "angle: text, by semicolons.",
            same("0: open; 12d30m: close"),
        ),
    ),
)

RATCHET = PartForm(
    "ratchet",
    "Ratchet",
    (
        Field("teeth", "Teeth", place=same("24"), is_count=True),
        Field("outside", "Outside diameter", place=("50mm", "2in")),
        Field("depth", "Depth along the face", place=("3mm", "1/8in")),
        Field(
            "free",
            "Turns freely",
            "Seen from the front.",
            choices=(("", "anticlockwise"), ("clockwise", "clockwise")),
        ),
    ),
    (
        (
            "Land, cutter, lean of the faces",
            (
                Field("land", "Land on top", "Sharp where left empty.", ("0.5mm", "0.02in")),
                Field("cutter", "or angle of the cutter", "Degrees.", same("60")),
                Field("undercut", "Faces lean over", "Degrees, 0 to 20.", same("0")),
            ),
        ),
    ),
)

SPLINES = PartForm(
    "splines",
    "Straight splines",
    (
        Field("size", "Size", "Keys x floors x over keys, and x key.", same("6x23x26")),
        Field(
            "which",
            "Jobs for",
            choices=(("", "the keys' sides, then the floors"), ("1", "the keys' sides"), ("2", "the floors")),
        ),
        Field("floor_cutter", "Cutter for the floors", place=("4mm", "5/32in")),
    ),
)

SPROCKET = PartForm(
    "sprocket",
    "Chain sprocket",
    (
        Field("teeth", "Teeth", place=same("17"), is_count=True),
        Field("chain", "Chain", "Its number in ISO 606.", same("08B")),
    ),
    (
        (
            "A chain without a number",
            (
                Field("pitch", "Roller to roller", place=("12.7mm", "1/2in")),
                Field("roller", "Diameter of a roller", place=("8.51mm", "0.335in")),
                Field("inner_width", "Between the inner plates", place=("7.75mm", "5/16in")),
            ),
        ),
    ),
)

PART_FORMS: dict[str, PartForm] = {
    form.kind: form
    for form in (
        SPUR,
        HELICAL,
        BEVEL,
        GRADUATED,
        HOLES,
        FLATS,
        ANGLES,
        WORM_WHEEL,
        RATCHET,
        RACK,
        SPLINES,
        SPROCKET,
        CLOCK_WHEEL,
    )
}
"""By their kind, in the order in which they are offered."""
