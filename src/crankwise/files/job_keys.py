"""The kinds of part that a job file knows, and the keys of each. They are promised: more may come, none changes.

A key is the option of the command that asks for the same thing, with _ for -, and takes the same texts.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PartKeys:
    """What the [part] of one kind may hold.

    texts  keys whose value is what would be typed: a text in quotes, a number, or a list of them
    flags  keys whose value is true or false
    joint  what stands between the items of a list when it is typed
    """

    texts: tuple[str, ...]
    flags: tuple[str, ...] = ()
    joint: str = ", "

    @property
    def all(self) -> tuple[str, ...]:
        """Every key, in the order in which they are written."""
        return (*self.texts, *self.flags)


_TOOTH = ("teeth", "module", "dp", "pressure_angle", "system")
_CUTTING = ("blank", "deepest_cut", "cutters", "number_one")
_MEASURED = ("pin", "span")
_MATE = ("mate", "mate_shift", "centres", "face")

PART_KEYS: dict[str, PartKeys] = {
    "divisions": PartKeys(("count", "angles", "start", "first", "last", "every")),
    "spur": PartKeys((*_TOOTH, "shift", "thin", *_MATE, *_MEASURED, *_CUTTING)),
    "helical": PartKeys(
        (
            *(*_TOOTH, "helix", "hand", "shift", "thin", *_MATE, *_MEASURED, *_CUTTING),
            *("leadscrew", "head_ratio", "gears", "train"),
        ),
        ("transverse",),
    ),
    "bevel": PartKeys((*_TOOTH, "mate", "face", "shaft_angle", "cutter_width", *_CUTTING)),
    "graduated": PartKeys(
        (
            *("lines", "arc", "start", "lead", "period", "per_line", "vernier", "over", "main_part", "form"),
            *("law", "values", "points", "thread_dial", "threads"),
            *("on", "across", "face", "cone_angle", "lines_run"),
            *("classes", "width", "tool_angle"),
            *("numeral_every", "numeral_first", "numeral_step", "texts", "height", "widths", "burr", "shank"),
            *("stand", "feet", "numerals", "middle"),
            *("moves", "turns", "faces", "work_turns"),
        ),
        ("diameter", "short_last", "shoulder", "engraved", "no_numerals"),
    ),
    "holes": PartKeys(
        (
            *("count", "angles", "first", "last", "every", "circle", "hole", "first_at", "centre"),
            *("also", "plate", "apart", "which", "blank", "tolerance", "leadscrew", "marks", "read_to"),
        ),
        ("clockwise",),
    ),
    "flats": PartKeys(
        (
            *("count", "across_flats", "across_corners", "side", "height", "depth"),
            *("bar", "unequal", "tolerance"),
        )
    ),
    "list": PartKeys(("angles",), joint="; "),
    "worm-wheel": PartKeys(
        ("teeth", "module", "dp", "pitch", "worm", "starts", "hand", "pressure_angle"),
    ),
    "rack": PartKeys(("teeth", "module", "dp", "pitch", "pressure_angle", "travel")),
    "ratchet": PartKeys(("teeth", "outside", "depth", "land", "cutter", "undercut", "free")),
    "splines": PartKeys(("size", "floor_cutter", "which")),
    "sprocket": PartKeys(("teeth", "chain", "pitch", "roller", "inner_width")),
    "clock-wheel": PartKeys(("teeth", "pinion", "module", "dp", "tip_share", "which")),
}
"""A `which` says which run this job is, where one part takes several: circles of holes, keys and floors."""
