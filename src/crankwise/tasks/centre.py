"""Centre work, a ring or a dial by indicator readings round it."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, NamedTuple

from crankwise.accuracy.centring import (
    USUAL_SCREWS,
    Indicated,
    OffCentre,
    Pointed,
    TwoPointers,
    off_centre,
    pointed_off_centre,
    two_pointers,
)
from crankwise.errors import BadNumber, Fault, FaultsFound, UnknownThing
from crankwise.exact.angle import read_angle, read_angles
from crankwise.exact.length import INCH
from crankwise.exact.number import as_text, read_number, shown
from crankwise.files.readings_csv import number_in
from crankwise.tasks.answers import FORMAT
from crankwise.tasks.readings import open_readings
from crankwise.wording.figures import decimal

UNITS = {"mm": Fraction(1), "um": Fraction(1, 1000), "in": INCH, "thou": INCH / 1000}
IN_INCHES = ("in", "thou")
"""Units of an indicator from which a person thinks in thousandths of an inch."""

_OPPOSITE = Fraction(5, 360)
"""In turns: so far from half a turn two pointers may stand; more is a slip of the pen. Judgement."""


def centre(readings: str | None, path: str | None = None, unit: str = "mm") -> OffCentre:
    """Return where the centre stands, from readings as typed: 0:0.00,90:0.03, or from a file.

    path  of a CSV with the columns angle_deg and reading, instead
    unit  of the readings: mm, um, in or thou

    Raises Mendable.
    """
    if unit not in UNITS:
        raise UnknownThing(f"unit: {unit!r}; an indicator reads in {', '.join(UNITS)}")
    if bool(readings) == bool(path):
        raise BadNumber("readings", "give them as 0:0.00,90:0.03,180:0.05,270:0.02, or in a file (--file)")
    rows = _typed(readings) if readings else _from_file(path or "")
    if not rows:
        raise BadNumber("readings", "none; write 3 or more, as 0:0.00,120:0.03,240:0.05")
    resolution = UNITS[unit] / 10 ** max(row.decimals for row in rows)
    return off_centre([Indicated(row.angle, row.value * UNITS[unit]) for row in rows], resolution)


class _Read(NamedTuple):
    """One reading as written: the angle in turns, the value, and the decimals that it was written with."""

    angle: Fraction
    value: Fraction
    decimals: int


def _typed_pointers(text: str) -> Iterator[Pointed]:
    between = ";" if ";" in text else ","
    for number, piece in enumerate((one for one in re.split(rf"[{between}\n]", text) if one.strip()), 1):
        ends = piece.split(":")
        if len(ends) != 2:
            raise BadNumber(
                f"setting {number}",
                f"{shown(piece)}; write what the first pointer shows, a colon and what the second "
                "shows, as 90.01:270",
            )
        what = f"setting {number}"
        yield Pointed(read_angle(ends[0], what), read_angle(ends[1], what))


def _read_to(degrees: Sequence[Fraction]) -> Fraction:
    """Return the largest usual step that all these readings are whole numbers of, in degrees."""
    usual = (step for step in STEPS if all((one / step).denominator == 1 for one in degrees))
    return next(usual, STEPS[-1])


def _typed(text: str) -> list[_Read]:
    between = ";" if ";" in text else ","
    found = []
    for number, piece in enumerate((one for one in re.split(rf"[{between}\n]", text) if one.strip()), 1):
        angle, colon, value = piece.partition(":")
        if not colon:
            raise BadNumber(
                f"reading {number}",
                f"{shown(piece)}; write the angle, a colon and what the indicator shows, as 90:0.03",
            )
        what, written = f"reading {number}", value.replace(",", ".")
        found.append(_Read(read_angle(angle, what), read_number(written, what), _decimals(written)))
    return found


def _from_file(path: str) -> list[_Read]:
    sheet = open_readings(path)
    if not {"angle_deg", "reading"} <= set(sheet.columns):
        raise BadNumber(sheet.source, f"the columns {', '.join(sheet.columns)}; write angle_deg and reading")
    faults: list[Fault] = []
    found = []
    for line in sheet.lines:
        angle = number_in(line, "angle_deg", faults, angle=True)
        value = number_in(line, "reading", faults)
        if angle is not None and value is not None:
            found.append(_Read(angle / 360, value, _decimals(line.cells["reading"].replace(",", "."))))
    if faults:
        raise FaultsFound(faults, sheet.source)
    return found


STEPS = sorted(
    {
        *(Fraction(1, parts) for parts in (1, 2, 4, 6, 12, 20, 30, 60, 120, 180, 240, 360, 720)),
        *(Fraction(1, 10**places) for places in range(1, 9)),
        *(Fraction(1, 3600 * 10**places) for places in range(6)),
    },
    reverse=True,
)
"""What a reading of an angle may be read to, in degrees."""


@dataclass(frozen=True, slots=True)
class BothPointers:
    """What two opposite pointers told.

    rows   as they were read
    told   the settings free of the scale's being off centre, and what one pointer alone is out by
    found  where the scale's centre stands; None where its diameter was not said, or of fewer than 3 settings
    """

    rows: tuple[Pointed, ...]
    told: TwoPointers
    found: OffCentre | None


def both_pointers(typed: str, diameter_mm: Fraction | None = None) -> BothPointers:
    """Return what readings at two opposite pointers tell, as typed: 359.96:180.04,60:240.

    diameter_mm  of the scale

    Raises Mendable.
    """
    rows = tuple(_typed_pointers(typed))
    if not rows:
        raise BadNumber("pointers", "none; write what both show at each setting, as 359.96:180.04,60:240")
    for number, row in enumerate(rows, 1):
        on = (row.second - row.first) % 1
        if abs(on - Fraction(1, 2)) > _OPPOSITE:
            degrees = decimal(on * 360, 2).rstrip("0").rstrip(".")
            raise BadNumber(
                f"setting {number}",
                f"the second pointer shows {degrees} degrees on; "
                "two opposite pointers show about 180 more or less",
            )
    step = _read_to([angle * 360 for row in rows for angle in row]) / 360
    enough = diameter_mm is not None and len(rows) >= 3
    found = pointed_off_centre(rows, diameter_mm, step) if enough and diameter_mm else None
    return BothPointers(rows, two_pointers(rows), found)


def pointers_answer(
    both: BothPointers, screws: tuple[Fraction, ...] = USUAL_SCREWS, diameter_mm: Fraction | None = None
) -> dict[str, Any]:
    """Return it as a plain object, ready for JSON: each setting, and how far off centre the scale is."""
    answer = centre_answer(both.found, screws, diameter_mm) if both.found else {"format": FORMAT}
    return answer | {
        "settings": [
            {
                "first_deg": as_text(row.first * 360),
                "second_deg": as_text(row.second * 360),
                "mean_deg": as_text(mean * 360),
                "out_arcsec": float(out),
            }
            for row, mean, out in zip(both.rows, both.told.means, both.told.swing, strict=True)
        ]
    }


def _decimals(written: str) -> int:
    """How many decimals a reading has, zeros at its end too: 0.10 was read to a hundredth. Of a fraction, 6."""
    return 6 if "/" in written else len(written.strip().partition(".")[2])


def screw_angles(typed: str | None) -> tuple[Fraction, ...]:
    """Return where the screws or jaws stand, in turns, as typed: 0,120,240. Raises BadAngle."""
    return read_angles(typed) if typed else USUAL_SCREWS


def centre_answer(
    found: OffCentre, screws: tuple[Fraction, ...] = USUAL_SCREWS, diameter_mm: Fraction | None = None
) -> dict[str, Any]:
    """Return it as a plain object, ready for JSON; lengths are floats in millimetres."""
    sure = found.direction_uncertainty
    answer: dict[str, Any] = {
        "format": FORMAT,
        "offset_mm": found.offset,
        "direction_deg": found.direction * 360,
        "u_mm": found.uncertainty,
        "u_direction_deg": None if sure is None else sure * 360,
        "bound_mm": found.bound,
        "confidence": 0.95,
        "total_indicator_reading_mm": 2 * found.offset,
        "middle_mm": found.middle,
        "residual_mm": found.residual,
        "resolution_mm": float(found.resolution),
        "seen": found.is_seen,
        "out_of_round": found.is_out_of_round,
        "move": {
            "mm": found.offset,
            "towards_deg": (found.direction * 360 + 180) % 360,
            "screws": [
                {"at_deg": as_text(screw.angle * 360), "in_mm": screw.inward}
                for screw in found.screws(screws)
            ],
        },
    }
    if diameter_mm is not None:
        answer["scale_error_arcsec"] = found.scale_error(diameter_mm)
    return answer
