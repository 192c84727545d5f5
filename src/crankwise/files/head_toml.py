"""Head files: the gear owned, as a person writes it by hand in TOML.

The keys are promised: docs/schema/head-1.schema.json says the same to a program. A file may carry
`format = 1`; a file without it is of format 1.
"""

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from crankwise.errors import BadLength, Fault
from crankwise.exact.length import INCH, read_length
from crankwise.exact.number import as_text
from crankwise.files.toml_table import Table
from crankwise.files.toml_text import read_toml, with_lines
from crankwise.head.change_gears import (
    IDLERS_AGAINST,
    IDLERS_WITH,
    SHAFT_CLEARANCE,
    ChangeGears,
)
from crankwise.head.dial import Dial
from crankwise.head.head import Head
from crankwise.head.notched_wheel import DETENT_ON, NotchedWheel
from crankwise.head.plate import Plate
from crankwise.head.ring import Ring
from crankwise.head.worm import Worm, worm_from_teeth

if TYPE_CHECKING:  # few heads have these, and each takes a cold command a while to load
    from crankwise.head.error_sizes import ErrorSizes
    from crankwise.head.known_errors import KnownErrors
    from crankwise.head.slide import Slide
    from crankwise.head.stepper import Stepper

FORMAT = 1

_GROWTH = ("increases", "decreases")
_KEYS = (
    "format",
    "name",
    "worm",
    "slide",
    "dial",
    "plates",
    "ring",
    "notched_wheels",
    "change_gears",
    "stepper",
    "errors",
    "calibrations",
)
_CHANGE_GEAR_KEYS = (
    "teeth",
    "module",
    "diametral_pitch",
    "shaft_clearance",
    "least_centres_mm",
    "greatest_centres_mm",
    "idlers_with",
    "idlers_against",
    "cannot_drive_plate",
)
_USUAL_IDLERS = {"idlers_with": IDLERS_WITH, "idlers_against": IDLERS_AGAINST}


def read_head(content: bytes | str, source: str = "") -> Head:
    """Return the head that a TOML file describes.

    content  the file's bytes or text
    source   the file's name, for the errors' sentences

    Raises FaultsFound with every fault of the file, each with its place and line.
    """
    text, raw = read_toml(content, source, "a head file")
    faults: list[Fault] = []
    head = head_of(raw, faults)
    if head is None:
        raise with_lines(faults, text, source)
    return head


def head_of(raw: dict[str, Any], faults: list[Fault]) -> Head | None:
    """Return the head that a parsed table describes, or None after noting each fault with its place."""
    table = Table(raw, "", faults, _KEYS)
    if table.whole("format", FORMAT) != FORMAT:
        table.faulty.add("format")
        faults.append(Fault("format", f"{raw['format']}; this version of Crankwise reads format {FORMAT}"))
    name = table.text("name")
    worm = _worm(raw["worm"], faults) if "worm" in raw else None
    slide = _slide(raw["slide"], faults) if "slide" in raw else None
    dial = _dial(raw["dial"], faults) if "dial" in raw else None
    ring = _ring(raw["ring"], faults) if "ring" in raw else None
    gears = _change_gears(raw["change_gears"], faults) if "change_gears" in raw else None
    stepper = _stepper(raw["stepper"], faults) if "stepper" in raw else None
    sizes = _error_sizes(raw["errors"], faults) if "errors" in raw else None
    plates = tuple(_plate(item, place, faults) for place, item in _items(raw, "plates", faults))
    wheels = tuple(
        _notched_wheel(item, place, faults) for place, item in _items(raw, "notched_wheels", faults)
    )
    calibrations = tuple(_calibrations(raw, faults)) if "calibrations" in raw else ()
    if any(fault.place.partition(".")[0] not in table.faulty for fault in faults):
        return None
    sound_plates = tuple(plate for plate in plates if plate)
    sound_wheels = tuple(wheel for wheel in wheels if wheel)
    return table.make(
        lambda: Head(
            name, worm, dial, sound_plates, ring, sound_wheels, gears, stepper, sizes, calibrations, slide
        )
    )


def _error_sizes(raw: object, faults: list[Fault]) -> "ErrorSizes | None":
    from crankwise.files.error_sizes_toml import read_error_sizes

    return read_error_sizes(raw, faults)


def _calibrations(raw: dict[str, Any], faults: list[Fault]) -> Iterator["KnownErrors"]:
    from crankwise.files.known_errors_toml import read_known_errors

    for place, item in _items(raw, "calibrations", faults):
        if known := read_known_errors(item, place, faults):
            yield known


def _items(raw: dict[str, Any], key: str, faults: list[Fault]) -> list[tuple[str, object]]:
    value = raw.get(key, [])
    if not isinstance(value, list):
        faults.append(Fault(key, f"write each one under its own heading [[{key}]], in double brackets"))
        return []
    return [(f"{key}[{index}]", item) for index, item in enumerate(value)]


def _worm(raw: object, faults: list[Fault]) -> Worm | None:
    table = Table(raw, "worm", faults, ("wheel_teeth", "starts", "ratio", "clockwise"))
    clockwise = table.choice("clockwise", _GROWTH, "increases")
    if "ratio" in table:
        if "wheel_teeth" in table or "starts" in table:
            faults.append(Fault("worm.ratio", "given beside wheel_teeth or starts; give one or the other"))
            return None
        ratio = table.exact("ratio", Fraction(1))
        return table.make(lambda: Worm(ratio, clockwise=clockwise))
    teeth, starts = table.whole("wheel_teeth"), table.whole("starts", 1)
    return table.make(lambda: worm_from_teeth(teeth, starts, clockwise))


def _slide(raw: object, faults: list[Fault]) -> "Slide | None":
    from crankwise.head.slide import Slide

    table = Table(raw, "slide", faults, ("lead", "travel"))
    if not isinstance(raw, dict) or "lead" not in raw:
        table.note("lead", 'missing; say how far one turn of the screw takes the slide, as lead = "5mm"')
        return None
    lead = _length(table, "lead")
    travel = _length(table, "travel") if "travel" in raw else None
    return table.make(lambda: Slide(lead, travel)) if lead is not None else None


def _length(table: Table, key: str) -> Fraction | None:
    """Return a length in mm, bare in mm; None, and noted, where it is none."""
    written = table.raw[key]
    is_number = isinstance(written, (int, Fraction)) and not isinstance(written, bool)
    try:
        return read_length(as_text(written) if is_number else str(written), key)
    except BadLength as error:
        table.note(key, error.message)
        return None


def _written(length_mm: Fraction) -> str:
    """Return a length as it is written without loss: in mm, or in inches where only those come out."""
    metric = as_text(length_mm)
    return _quoted(f"{metric}mm" if "/" not in metric else f"{as_text(length_mm / INCH)}in")


def _dial(raw: object, faults: list[Fault]) -> Dial | None:
    table = Table(
        raw, "dial", faults, ("marks", "read_to", "numbered_every", "vernier", "clockwise", "settable")
    )
    marks, read_to = table.whole("marks"), table.exact("read_to", Fraction(1))
    numbered_every, vernier = (
        table.whole("numbered_every", 10 if marks >= 10 else 0),
        table.whole_or_none("vernier"),
    )
    clockwise, settable = table.choice("clockwise", _GROWTH, "increases"), table.yes_or_no("settable", True)
    return table.make(lambda: Dial(marks, read_to, numbered_every, vernier, clockwise, settable))


def _ring(raw: object, faults: list[Fault]) -> Ring | None:
    table = Table(raw, "ring", faults, ("graduations", "read_to", "full_circle", "numbered"))
    graduations, read_to = table.whole("graduations"), table.exact("read_to", Fraction(1))
    full_circle = table.whole("full_circle", 360)
    numbered = table.choice("numbered", ("clockwise", "anticlockwise"), "clockwise")
    return table.make(lambda: Ring(graduations, read_to, full_circle, numbered))


def _plate(raw: object, place: str, faults: list[Fault]) -> Plate | None:
    table = Table(raw, place, faults, ("circles",))
    circles = table.wholes("circles")
    return table.make(lambda: Plate(circles))


def _notched_wheel(raw: object, place: str, faults: list[Fault]) -> NotchedWheel | None:
    table = Table(raw, place, faults, ("notches", "detent_on"))
    notches, detent_on = table.whole("notches"), table.choice("detent_on", DETENT_ON, "bed")
    return table.make(lambda: NotchedWheel(notches, detent_on))


def _stepper(raw: object, faults: list[Fault]) -> "Stepper | None":
    from crankwise.head.stepper import TURN_OF, Stepper

    table = Table(raw, "stepper", faults, ("steps", "per_turn_of"))
    steps, per_turn_of = table.whole("steps"), table.choice("per_turn_of", TURN_OF, "crank")
    return table.make(lambda: Stepper(steps, per_turn_of))


def _change_gears(raw: object, faults: list[Fault]) -> ChangeGears | None:
    table = Table(raw, "change_gears", faults, _CHANGE_GEAR_KEYS)
    teeth = table.wholes("teeth")
    module = table.exact("module", Fraction(1)) if "module" in table else None
    if "diametral_pitch" in table:
        pitch = table.exact("diametral_pitch", Fraction(1))
        if module is not None:
            table.note("module", "given beside diametral_pitch; give one or the other")
        elif pitch <= 0:
            message = f"{as_text(pitch)}; this is teeth to an inch of diameter, above 0"
            table.note("diametral_pitch", message)
        else:
            module = INCH / pitch
    clearance = table.whole("shaft_clearance", SHAFT_CLEARANCE)
    least, greatest = (
        table.exact(key, Fraction(1)) if key in table else None
        for key in ("least_centres_mm", "greatest_centres_mm")
    )
    idlers = [table.wholes(key) if key in table else usual for key, usual in _USUAL_IDLERS.items()]
    why_not = table.text("cannot_drive_plate", "")
    return table.make(
        lambda: ChangeGears(teeth, module, clearance, least, greatest, idlers[0], idlers[1], why_not)
    )


def write_head(head: Head) -> str:
    """Return the head as a TOML file; reading it gives the same head."""
    blocks = [f"format = {FORMAT}\nname = {_quoted(head.name)}"]
    if worm := head.worm:
        drive = (
            (f"wheel_teeth = {worm.wheel_teeth}", f"starts = {worm.starts}")
            if worm.wheel_teeth
            else (f"ratio = {_quoted(as_text(worm.ratio))}",)
        )
        blocks.append("\n".join(("[worm]", *drive, f"clockwise = {_quoted(worm.clockwise)}")))
    if slide := head.slide:
        travel = () if slide.travel_mm is None else (f"travel = {_written(slide.travel_mm)}",)
        blocks.append("\n".join(("[slide]", f"lead = {_written(slide.lead_mm)}", *travel)))
    if dial := head.dial:
        rows = [
            f"marks = {dial.marks}",
            f"read_to = {_quoted(str(dial.read_to))}",
            f"numbered_every = {dial.numbered_every}",
        ]
        rows += [f"vernier = {dial.vernier}"] if dial.vernier else []
        rows += [f"clockwise = {_quoted(dial.clockwise)}", f"settable = {str(dial.settable).lower()}"]
        blocks.append("\n".join(("[dial]", *rows)))
    if ring := head.ring:
        rows = [f"graduations = {ring.graduations}", f"read_to = {_quoted(str(ring.read_to))}"]
        rows += [f"full_circle = {ring.full_circle}", f"numbered = {_quoted(ring.numbered)}"]
        blocks.append("\n".join(("[ring]", *rows)))
    blocks += [f"[[plates]]\ncircles = {list(plate.circles)}" for plate in head.plates]
    blocks += [_notched_wheel_block(wheel) for wheel in head.notched_wheels]
    if head.change_gears:
        blocks.append(_change_gears_block(head.change_gears))
    if stepper := head.stepper:
        blocks.append(f"[stepper]\nsteps = {stepper.steps}\nper_turn_of = {_quoted(stepper.per_turn_of)}")
    if head.error_sizes:
        from crankwise.files.error_sizes_toml import error_sizes_block

        blocks.append(error_sizes_block(head.error_sizes))
    if head.calibrations:
        from crankwise.files.known_errors_toml import known_errors_block

        blocks += map(known_errors_block, head.calibrations)
    return "\n\n".join(blocks) + "\n"


def _notched_wheel_block(wheel: NotchedWheel) -> str:
    block = f"[[notched_wheels]]\nnotches = {wheel.notches}"
    return block if wheel.detent_on == "bed" else f"{block}\ndetent_on = {_quoted(wheel.detent_on)}"


def _change_gears_block(gears: ChangeGears) -> str:
    """Write only what was said: most owners say no more than the teeth."""
    rows = ["[change_gears]", f"teeth = {list(gears.teeth)}"]
    for key, length in (
        ("module", gears.module_mm),
        ("least_centres_mm", gears.least_centres_mm),
        ("greatest_centres_mm", gears.greatest_centres_mm),
    ):
        rows += [f"{key} = {_quoted(as_text(length))}"] if length is not None else []
    if gears.shaft_clearance != SHAFT_CLEARANCE:
        rows.append(f"shaft_clearance = {gears.shaft_clearance}")
    said = {"idlers_with": gears.idlers_with, "idlers_against": gears.idlers_against}
    rows += [f"{key} = {list(idlers)}" for key, idlers in said.items() if idlers != _USUAL_IDLERS[key]]
    if gears.cannot_drive_plate:
        rows.append(f"cannot_drive_plate = {_quoted(gears.cannot_drive_plate)}")
    return "\n".join(rows)


def _quoted(text: str) -> str:
    escapes = {'"': '\\"', "\\": "\\\\"}
    return (
        '"'
        + "".join(
            escapes.get(char, char if char >= " " and char != "\x7f" else f"\\u{ord(char):04x}")
            for char in text
        )
        + '"'
    )
