"""The form of each kind of part: a few fields at the front, the rest folded away in groups.

The names are the keys of a job file, so that a form, a file and a command say the same.
"""

from dataclasses import dataclass

Choices = tuple[tuple[str, str], ...]

_USUAL = ("spur", "graduated", "holes", "flats")


@dataclass(frozen=True, slots=True)
class Field:
    """One field.

    name     key of the job file
    label    what stands over it
    hint     what can be typed, and what is taken where nothing is
    place    an example, shown while it is empty; the second for those who work in inches
    choices  what can be chosen, each with its words; empty for a field to type in
    is_tick  whether it is a box to tick
    is_count whether a whole number is typed
    is_wide  whether it stands on a line of its own
    """

    name: str
    label: str
    hint: str = ""
    place: tuple[str, str] = ("", "")
    choices: Choices = ()
    is_tick: bool = False
    is_count: bool = False
    is_wide: bool = False


@dataclass(frozen=True, slots=True)
class PartForm:
    """The form of one kind.

    kind    as in a job file
    title   what it is called in a list of kinds
    front   what is always asked
    folded  groups of the rest, each with its heading
    note    what is to be known before it is filled in
    along   whether it is cut along a slide, and not on a head that turns it
    """

    kind: str
    title: str
    front: tuple[Field, ...]
    folded: tuple[tuple[str, tuple[Field, ...]], ...] = ()
    note: str = ""
    along: bool = False

    @property
    def is_usual(self) -> bool:
        """Whether it is among the kinds that are offered first."""
        return self.kind in _USUAL


def _same(text: str) -> tuple[str, str]:
    return text, text


_SYSTEMS = (
    ("", "as the size: full depth with a module, inch full depth with a DP"),
    ("full-depth", "full depth, 2.25 modules"),
    ("inch", "inch full depth, 2.157 / DP"),
    ("inch-fine", "inch fine pitch, 2.2 / DP + 0.002 in"),
    ("sixth", "1/6 module of clearance"),
    ("stub", "stub teeth"),
)
_TEETH = Field("teeth", "Teeth", place=_same("127"), is_count=True)
_SIZE = (
    Field("module", "Module", "In mm.", _same("1")),
    Field("dp", "or diametral pitch", "Teeth to an inch of pitch diameter.", _same("24")),
)
_TOOTH = (
    Field("pressure_angle", "Pressure angle", "Degrees; 20 where left empty, older gears 14.5.", _same("20")),
    Field("system", "Proportions", choices=_SYSTEMS),
)
_SHIFT = (
    Field("shift", "Profile shift", "In modules; 0 where left empty.", _same("0")),
    Field("thin", "Thinner for backlash", "How much each tooth, and the mate's.", ("0.05mm", "0.002in")),
)
_CUTTING = (
    Field("blank", "Blank as measured", "Corrects the depth for its true diameter.", ("128.9mm", "5.07in")),
    Field("deepest_cut", "Deepest roughing cut", "2 mm where left empty.", ("2mm", "0.08in")),
    Field(
        "cutters",
        "Form cutters",
        choices=(("", "a set of 8"), ("15", "15, with the half numbers")),
    ),
    Field(
        "number_one",
        "Your No. 1 cuts",
        choices=(
            ("", "as usual: 12 teeth with a module, a rack with a DP"),
            ("12", "12 teeth"),
            ("rack", "a rack"),
        ),
    ),
)
_MEASURING = (
    Field(
        "pin", "Pins owned", "Diameters, by commas; the best pin where left empty.", ("1.728mm", "0.072in")
    ),
    Field("span", "Span over", "Teeth; the best count where left empty.", is_count=True),
)
_MATE = (
    Field("mate", "Teeth of the mate", is_count=True),
    Field("mate_shift", "The mate's shift", "In modules.", _same("0")),
    Field("centres", "Centre distance", "Without backlash where left empty.", ("56.5mm", "2.25in")),
    Field("face", "Width of the teeth", place=("20mm", "3/4in")),
)
_LEAD_GEARS = (
    Field("leadscrew", "Lead of the table's screw", "Finds the change gears.", ("5mm", "1/4in")),
    Field("head_ratio", "Ratio of the head", "The chosen head's where left empty.", _same("40")),
    Field(
        "gears",
        "Change gears owned",
        "Teeth, by commas; the chosen head's where left empty.",
        _same("24, 24, 28, 32, 40, 44, 48, 56, 64"),
    ),
    Field(
        "train",
        "or the train to mount",
        "Drivers over driven; the best of those owned where left empty.",
        _same("28/48 x 40/44"),
    ),
)

_ROUND_THE_CIRCLE = (
    Field("period", "Time of one turn", "An hour ring; 12h25m for the tides.", _same("12h25m")),
    Field("lead", "Lead of the screw", "A dial: what a turn is worth.", ("1.5mm", "8tpi")),
    Field("per_line", "What a line is worth", "0.01mm, 0.001in or 5m.", ("0.01mm", "0.001in")),
    Field("diameter", "The dial reads a diameter", is_tick=True),
    Field("short_last", "Let the last space be shorter", is_tick=True),
)
_LAWS = (
    Field("law", "Law", "log, sine, tangent, or degrees from x, arc, first and last.", _same("log")),
    Field("values", "Values with a line", "FIRST:LAST:STEP, by commas.", _same("1:2:0.1, 2:10:0.5")),
    Field("points", "or a table", "value = angle in degrees, by commas.", _same("0=0, 10=31.5")),
    Field("arc", "Arc covered", "Degrees; the circle where left empty.", _same("180")),
    Field("start", "Angle of line 0", place=_same("0")),
)
_VERNIER = (
    Field("vernier", "Parts of a vernier", is_count=True, place=_same("10")),
    Field("over", "over main parts", "One less where left empty.", is_count=True),
    Field("main_part", "One main part", "An angle.", _same("1deg")),
    Field("form", "Form", choices=(("", "direct"), ("folded", "folded"), ("double", "double"))),
    Field("thread_dial", "Teeth of a thread dial", "With the screw's lead above.", is_count=True),
    Field("threads", "Threads it is for", place=("1.5mm, 2mm", "8tpi, 11tpi")),
)
_LINES = (
    Field("width", "Width of lines", "A tenth of the spacing where left empty.", ("0.2mm", "0.008in")),
    Field("tool_angle", "Angle of the V tool", "Degrees.", _same("60")),
    Field("cone_angle", "Cone, slant to axis", "Degrees.", _same("45")),
    Field("lines_run", "Lines run", choices=(("", "in, to the axis"), ("out", "out"))),
    Field("shoulder", "The face ends at a wall", is_tick=True),
)
_NUMERALS = (
    Field("numeral_every", "Numerals every", "Counts; with the longest lines where empty.", is_count=True),
    Field("numeral_first", "Numeral at 0", place=_same("0")),
    Field("numeral_step", "One count adds", place=_same("1")),
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

PART_FORMS: dict[str, PartForm] = {
    form.kind: form
    for form in (
        PartForm(
            "spur",
            "Spur gear",
            (_TEETH, *_SIZE),
            (
                ("Pressure angle, proportions, shift, backlash", (*_TOOTH, *_SHIFT)),
                ("Blank and cutters", _CUTTING),
                ("Pins and span", _MEASURING),
                ("The gear it runs with", _MATE),
            ),
        ),
        PartForm(
            "helical",
            "Helical gear",
            (
                _TEETH,
                *_SIZE,
                Field("helix", "Helix angle", "Degrees.", _same("30")),
                Field("hand", "Hand", choices=(("", "right"), ("left", "left"))),
            ),
            (
                (
                    "Pressure angle, proportions, shift, backlash",
                    (
                        *_TOOTH,
                        *_SHIFT,
                        Field("transverse", "Module and angle are the transverse ones", is_tick=True),
                    ),
                ),
                ("Blank and cutters", _CUTTING),
                ("Pins and span", _MEASURING),
                ("The gear it runs with", _MATE),
                ("Change gears for the lead", _LEAD_GEARS),
            ),
        ),
        PartForm(
            "bevel",
            "Bevel gear",
            (_TEETH, _MATE[0], *_SIZE, Field("face", "Length of the face", place=("12mm", "1/2in"))),
            (
                (
                    "Pressure angle, proportions, shafts",
                    (*_TOOTH, Field("shaft_angle", "Angle between the shafts", "Degrees.", _same("90"))),
                ),
                (
                    "Blank and cutters",
                    (
                        *_CUTTING,
                        Field(
                            "cutter_width",
                            "Width of the cutter",
                            "One dedendum from its tip.",
                            ("2.9mm", "0.11in"),
                        ),
                    ),
                ),
            ),
            "Straight teeth, cut with form cutters: an approximation, for slow and light work.",
        ),
        PartForm(
            "graduated",
            "Dial, ring or scale",
            (
                Field("lines", "Equal lines", "Or one of the scales below.", _same("100"), is_count=True),
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
        ),
        PartForm(
            "holes",
            "Holes on a circle",
            (
                Field("count", "Holes all round", place=_same("7"), is_count=True),
                Field("circle", "Diameter of the circle", "Through their centres.", ("60mm", "4in")),
                Field("hole", "Diameter of the holes", place=("6mm", "1/4in")),
            ),
            (
                (
                    "Part of a circle, place of the first, datum",
                    (
                        Field("angles", "Angles instead", "Rising, by commas.", _same("0, 30, 75")),
                        Field("first", "First drilled", is_count=True, place=_same("0")),
                        Field("last", "Last drilled", is_count=True),
                        Field("every", "Only every", is_count=True, place=_same("1")),
                        Field(
                            "first_at", "Position 0 lies", "right, top, left, bottom, straddle, or degrees."
                        ),
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
                            _same("15,16,17,18"),
                        ),
                        Field("apart", "Circles apart", "Twice the hole where left empty.", ("6mm", "1/4in")),
                        Field("which", "This job drills circle", is_count=True, place=_same("1")),
                        Field("blank", "Round blank", place=("120mm", "5in")),
                        Field("tolerance", "Centres may be out by", place=("0.1mm", "0.004in")),
                    ),
                ),
                (
                    "The mill's dials",
                    (
                        Field("leadscrew", "Lead of the slides' screws", place=("5mm", "1/10in")),
                        Field("marks", "Lines of their dials", is_count=True, place=_same("100")),
                        Field("read_to", "Read to", "Part of a mark.", _same("1/2")),
                    ),
                ),
            ),
        ),
        PartForm(
            "flats",
            "Flats",
            (
                Field("count", "Flats all round", place=_same("6"), is_count=True),
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
                        Field(
                            "unequal", "Unequal flats", "Angle: height, by commas.", _same("0: 8mm, 120: 9mm")
                        ),
                        Field("tolerance", "May come out smaller by", place=("0.1mm", "0.004in")),
                    ),
                ),
            ),
        ),
        PartForm(
            "list",
            "Angles with texts",
            (
                Field(
                    "angles",
                    "Angles and texts",
                    "angle: text, by semicolons.",
                    _same("0: open; 12d30m: close"),
                ),
            ),
        ),
        PartForm(
            "worm-wheel",
            "Worm wheel",
            (
                _TEETH,
                *_SIZE,
                Field("pitch", "or from tooth to tooth", place=("3mm", "1/8in")),
                Field("worm", "Pitch diameter of the worm", place=("20mm", "5/8in")),
                Field("starts", "Starts of the worm", is_count=True, place=_same("1")),
            ),
            (
                (
                    "Hand, pressure angle",
                    (
                        Field("hand", "Hand of the worm", choices=(("", "right"), ("left", "left"))),
                        _TOOTH[0],
                    ),
                ),
            ),
        ),
        PartForm(
            "ratchet",
            "Ratchet",
            (
                Field("teeth", "Teeth", place=_same("24"), is_count=True),
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
                        Field("cutter", "or angle of the cutter", "Degrees.", _same("60")),
                        Field("undercut", "Faces lean over", "Degrees, 0 to 20.", _same("0")),
                    ),
                ),
            ),
        ),
        PartForm(
            "rack",
            "Rack",
            (
                Field("teeth", "Spaces", place=_same("40"), is_count=True),
                *_SIZE,
            ),
            (
                (
                    "Pitch, pressure angle, travel",
                    (
                        Field("pitch", "or tooth to tooth", "Instead of a module.", ("3mm", "1/8in")),
                        Field("pressure_angle", "Pressure angle", "Degrees.", _same("20")),
                        Field(
                            "travel", "Travel of the slide", "Says when it is too short.", ("400mm", "16in")
                        ),
                    ),
                ),
            ),
            "A rack is cut along a slide, by the dial of its screw: every place is counted from the first space.",
            along=True,
        ),
        PartForm(
            "splines",
            "Straight splines",
            (
                Field("size", "Size", "Keys x floors x over keys, and x key.", _same("6x23x26")),
                Field("which", "This job cuts", choices=(("", "the keys' sides"), ("2", "the floors"))),
                Field("floor_cutter", "Cutter for the floors", place=("4mm", "5/32in")),
            ),
        ),
        PartForm(
            "sprocket",
            "Chain sprocket",
            (
                Field("teeth", "Teeth", place=_same("17"), is_count=True),
                Field("chain", "Chain", "Its number in ISO 606.", _same("08B")),
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
        ),
        PartForm(
            "clock-wheel",
            "Clock wheel, pinion",
            (
                Field("teeth", "Teeth of the wheel", place=_same("64"), is_count=True),
                Field("pinion", "Leaves of the pinion", place=_same("8"), is_count=True),
                *_SIZE,
                Field("which", "This job cuts", choices=(("", "the wheel"), ("2", "the pinion"))),
            ),
            (("Tips", (Field("tip_share", "Height of the tips kept", "0.8 to 1.", _same("0.95")),)),),
        ),
    )
}
