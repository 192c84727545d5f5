"""The forms of gears: spur, helical and bevel, worm wheel, rack, clock wheel and pinion."""

from crankwise.web.form_fields import SIZE, TEETH, TOOTH, Field, PartForm, same

_SHIFT = (
    Field("shift", "Profile shift", "In modules; 0 where left empty.", same("0")),
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
    Field("mate_shift", "The mate's shift", "In modules.", same("0")),
    Field("centres", "Centre distance", "Without backlash where left empty.", ("56.5mm", "2.25in")),
    Field("face", "Width of the teeth", place=("20mm", "3/4in")),
)
_LEAD_GEARS = (
    Field("leadscrew", "Lead of the table's screw", "Finds the change gears.", ("5mm", "1/4in")),
    Field("head_ratio", "Ratio of the head", "The chosen head's where left empty.", same("40")),
    Field(
        "gears",
        "Change gears owned",
        "Teeth, by commas; the chosen head's where left empty.",
        same("24, 24, 28, 32, 40, 44, 48, 56, 64"),
    ),
    Field(
        "train",
        "or the train to mount",
        "Drivers over driven; the best of those owned where left empty.",
        same("28/48 x 40/44"),
    ),
)

SPUR = PartForm(
    "spur",
    "Spur gear",
    (TEETH, *SIZE),
    (
        ("Pressure angle, proportions, shift, backlash", (*TOOTH, *_SHIFT)),
        ("Blank and cutters", _CUTTING),
        ("Pins and span", _MEASURING),
        ("The gear it runs with", _MATE),
    ),
)

HELICAL = PartForm(
    "helical",
    "Helical gear",
    (
        TEETH,
        *SIZE,
        Field("helix", "Helix angle", "Degrees.", same("30")),
        Field("hand", "Hand", choices=(("", "right"), ("left", "left"))),
    ),
    (
        (
            "Pressure angle, proportions, shift, backlash",
            (
                *TOOTH,
                *_SHIFT,
                Field("transverse", "Module and angle are the transverse ones", is_tick=True),
            ),
        ),
        ("Blank and cutters", _CUTTING),
        ("Pins and span", _MEASURING),
        ("The gear it runs with", _MATE),
        ("Change gears for the lead", _LEAD_GEARS),
    ),
)

BEVEL = PartForm(
    "bevel",
    "Bevel gear",
    (TEETH, _MATE[0], *SIZE, Field("face", "Length of the face", place=("12mm", "1/2in"))),
    (
        (
            "Pressure angle, proportions, shafts",
            (*TOOTH, Field("shaft_angle", "Angle between the shafts", "Degrees.", same("90"))),
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
)

WORM_WHEEL = PartForm(
    "worm-wheel",
    "Worm wheel",
    (
        TEETH,
        *SIZE,
        Field("pitch", "or from tooth to tooth", place=("3mm", "1/8in")),
        Field("worm", "Pitch diameter of the worm", place=("20mm", "5/8in")),
        Field("starts", "Starts of the worm", is_count=True, place=same("1")),
    ),
    (
        (
            "Hand, pressure angle",
            (
                Field("hand", "Hand of the worm", choices=(("", "right"), ("left", "left"))),
                TOOTH[0],
            ),
        ),
    ),
)

RACK = PartForm(
    "rack",
    "Rack",
    (
        Field("teeth", "Spaces", place=same("40"), is_count=True),
        *SIZE,
    ),
    (
        (
            "Pitch, pressure angle, travel",
            (
                Field("pitch", "or tooth to tooth", "Instead of a module.", ("3mm", "1/8in")),
                Field("pressure_angle", "Pressure angle", "Degrees.", same("20")),
                Field("travel", "Travel of the slide", "Says when it is too short.", ("400mm", "16in")),
            ),
        ),
    ),
    "A rack is cut along a slide, by the dial of its screw: every place is counted from the first space.",
    along=True,
)

CLOCK_WHEEL = PartForm(
    "clock-wheel",
    "Clock wheel, pinion",
    (
        Field("teeth", "Teeth of the wheel", place=same("64"), is_count=True),
        Field("pinion", "Leaves of the pinion", place=same("8"), is_count=True),
        *SIZE,
        Field("which", "This job cuts", choices=(("", "the wheel"), ("2", "the pinion"))),
    ),
    (("Tips", (Field("tip_share", "Height of the tips kept", "0.8 to 1.", same("0.95")),)),),
)
