"""The sizes of a head's errors, each with its label and a line on what it is, in the order of a form."""

from typing import NamedTuple


class SizeWords(NamedTuple):
    """One size: its name in a head file, what stands over its field, its unit, and what it is."""

    name: str
    label: str
    unit: str
    what: str = ""


_ARCSEC, _MM = "seconds of arc", "mm"

SIZE_GROUPS: tuple[tuple[str, tuple[SizeWords, ...]], ...] = (
    (
        "Of the worm and its wheel",
        (
            SizeWords("worm_arcsec", "Worm, once per turn", _ARCSEC),
            SizeWords("worm_twice_arcsec", "Worm, twice per turn", _ARCSEC),
            SizeWords("wheel_arcsec", "Wheel, once per turn", _ARCSEC, "Off centre, or cut so."),
            SizeWords("wheel_tooth_arcsec", "Wheel, tooth to tooth", _ARCSEC),
            SizeWords("backlash_arcsec", "Backlash at the spindle", _ARCSEC),
            SizeWords("lock_arcsec", "Locking moves it by", _ARCSEC),
            SizeWords("detent_arcsec", "Notch and detent", _ARCSEC),
        ),
    ),
    (
        "Of reading and setting",
        (
            SizeWords("reading_marks", "Reading half-way between marks", "parts of a mark"),
            SizeWords(
                "reading_pull_marks", "Drawn to the nearer mark", "parts of a mark", "Such a reading is."
            ),
            SizeWords("parallax_mm", "Parallax", _MM, "Along the scale."),
            SizeWords("pin_mm", "Play of the index pin", _MM),
            SizeWords("dial_off_centre_mm", "Dial off centre", _MM),
            SizeWords("ring_off_centre_mm", "Ring off centre", _MM),
        ),
    ),
    (
        "Of the work and the tool",
        (
            SizeWords("work_off_centre_mm", "Work off centre", _MM, "As you usually hold it."),
            SizeWords("tilt_mm_in_100", "Out of square", "mm in 100 mm"),
            SizeWords("tool_mm", "Tool beside its place", _MM),
        ),
    ),
    (
        "Diameters of the scales",
        (
            SizeWords("dial_diameter_mm", "Dial", _MM),
            SizeWords("ring_diameter_mm", "Ring", _MM),
            SizeWords("plate_diameter_mm", "Hole circle used", _MM),
        ),
    ),
)
