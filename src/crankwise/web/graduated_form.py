"""The form of graduated work: dials, rings, scales, verniers, with their lines and numerals."""

from crankwise.web.form_fields import Field, PartForm, same

_ROUND_THE_CIRCLE = (
    Field("period", "Time of one turn", "An hour ring; 12h25m for the tides.", same("12h25m")),
    Field("lead", "Lead of the screw", "A dial: what a turn is worth.", ("1.5mm", "8tpi")),
    Field("per_line", "What a line is worth", "0.01mm, 0.001in or 5m.", ("0.01mm", "0.001in")),
    Field("diameter", "The dial reads a diameter", is_tick=True),
    Field("short_last", "Let the last space be shorter", is_tick=True),
)
_LAWS = (
    Field("law", "Law", "log, sine, tangent, or degrees from x, arc, first and last.", same("log")),
    Field("values", "Values with a line", "FIRST:LAST:STEP, by commas.", same("1:2:0.1, 2:10:0.5")),
    Field("points", "or a table", "value = angle in degrees, by commas.", same("0=0, 10=31.5")),
    Field("arc", "Arc covered", "Degrees; the circle where left empty.", same("180")),
    Field("start", "Angle of line 0", place=same("0")),
)
_VERNIER = (
    Field(
        "vernier",
        "Parts of a vernier",
        "Its lines must run the other way from the main scale's: choose “Lines run”.",
        is_count=True,
        place=same("10"),
    ),
    Field("over", "over main parts", "One less where left empty.", is_count=True),
    Field("main_part", "One main part", "An angle.", same("1deg")),
    Field("form", "Form", choices=(("", "direct"), ("folded", "folded"), ("double", "double"))),
    Field("thread_dial", "Teeth of a thread dial", "With the screw's lead above.", is_count=True),
    Field("threads", "Threads it is for", place=("1.5mm, 2mm", "8tpi, 11tpi")),
)
_LINES = (
    Field("width", "Width of lines", "A tenth of the spacing where left empty.", ("0.2mm", "0.008in")),
    Field("tool_angle", "Angle of the V tool", "Degrees.", same("60")),
    Field("cone_angle", "Cone, slant to axis", "Degrees.", same("45")),
    Field("lines_run", "Lines run", choices=(("", "in, to the axis"), ("out", "out"))),
    Field("shoulder", "The face ends at a wall", is_tick=True),
)
_NUMERALS = (
    Field("numeral_every", "Numerals every", "Counts; with the longest lines where empty.", is_count=True),
    Field("numeral_first", "Numeral at 0", place=same("0")),
    Field("numeral_step", "One count adds", place=same("1")),
    Field("height", "Height of figures", "The largest that clears where empty.", ("2.4mm", "3/32in")),
    Field("texts", "Texts instead", "Of the numbered lines, by commas; or of your own lines, 0=N, 25=E."),
    Field("widths", "Widths of your stamps", "0=1.6mm, 1=0.9mm"),
    Field("burr", "Raised burr", place=("0.15mm", "0.006in")),
    Field("shank", "Shank of a stamp", place=("6mm", "1/4in")),
    Field("stand", "Numerals stand", choices=(("", "upright"), ("radial", "radial"), ("level", "level"))),
    Field(
        "feet",
        "Feet towards",
        choices=(
            ("", "as usual: a ring's or a cone's axis, a drum's reading edge"),
            ("edge", "the reading edge"),
            ("away", "away from the reading edge"),
        ),
    ),
    Field(
        "numerals",
        "Numerals are",
        choices=(
            ("", "past the lines' ends"),
            ("behind", "behind the reading edge"),
            ("inside", "inside"),
            ("outside", "outside"),
        ),
    ),
    Field("middle", "Edge to their middle", place=("9mm", "0.35in")),
    Field("engraved", "Engraved: no burr, no shank", is_tick=True),
    Field("no_numerals", "No numerals", is_tick=True),
)
_SENSES = (("", "clockwise"), ("anticlockwise", "anticlockwise"))
_DIRECTION = (
    Field(
        "moves",
        "When the handle is turned",
        choices=(("", "the scale moves"), ("pointer", "the pointer moves")),
    ),
    Field("turns", "For the reading to grow it goes", "Watched from the handle.", choices=_SENSES),
    Field("faces", "The scale faces", choices=(("", "the one at the handle"), ("rear", "away"))),
    Field(
        "work_turns",
        "Your work turns",
        "Cranking forward, looking at its face.",
        choices=(("", "as is right for it"), ("clockwise", "clockwise"), ("anticlockwise", "anticlockwise")),
    ),
)

GRADUATED = PartForm(
    "graduated",
    "Dial, ring or scale",
    (
        Field("lines", "Equal lines", "Or one of the scales below.", same("100"), is_count=True),
        Field(
            "on",
            "On",
            choices=(("", "a flat ring"), ("drum", "a drum or collar"), ("cone", "a cone")),
        ),
        Field("across", "Diameter of the reading edge", place=("60mm", "2.5in")),
        Field("face", "Room for lines and numerals", "From the reading edge.", ("10mm", "3/8in")),
        Field(
            "classes",
            "Classes of lines",
            "Every = length, or 1, 5, 10 in usual lengths.",
            ("1=3mm, 5=4.5mm, 10=6mm", "1=1/8in, 5=3/16in, 10=1/4in"),
            is_wide=True,
        ),
    ),
    (
        ("Dial of a screw, hour ring", _ROUND_THE_CIRCLE),
        ("Scale from a law or a table, arc", _LAWS),
        ("Vernier, thread dial", _VERNIER),
        ("Lines and surface", _LINES),
        ("Numerals", _NUMERALS),
        ("Direction", _DIRECTION),
    ),
    "Direction: turn the handle so that the reading must grow, and watch which way the scale goes.",
)
