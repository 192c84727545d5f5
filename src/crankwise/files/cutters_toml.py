"""The form cutters that somebody owns, listed once in a TOML file.

format = 1

[[cutters]]
module = 1                        # or diametral_pitch = 24
pressure_angle = 20               # degrees; 20 where it is left out
teeth = ["12-13", "17-20", "135-rack"]

[[cutters]]
diametral_pitch = 24
pressure_angle = 14.5
numbers = ["3", "5 1/2"]          # where no range is engraved
number_1_cuts = "rack"            # or "12": what No. 1 of this set cuts
"""

import re
from fractions import Fraction
from typing import Any, get_args

from crankwise.errors import BadNumber, Fault
from crankwise.exact.length import INCH
from crankwise.exact.number import as_text, read_number
from crankwise.files.toml_table import Table
from crankwise.files.toml_text import read_toml, with_lines
from crankwise.part.cutters import (
    LEAST_TEETH_CUT,
    FormCutter,
    NumberOrder,
    OwnedCutter,
    cutter_of_number,
    cutter_of_range,
)

FORMAT = 1
_KEYS = ("module", "diametral_pitch", "pressure_angle", "teeth", "numbers", "number_1_cuts")
_RANGE = re.compile(r"\s*(\d{1,4})\s*(?:-\s*(\d{1,4}|rack)\s*)?")


def read_cutters(content: bytes | str, source: str = "") -> tuple[OwnedCutter, ...]:
    """Return the cutters that a TOML file lists. Raises FaultsFound with every fault, its place and line."""
    text, raw = read_toml(content, source, "a list of cutters")
    faults: list[Fault] = []
    table = Table(raw, "", faults, ("format", "cutters"))
    if table.whole("format", FORMAT) != FORMAT:
        faults.append(Fault("format", f"{raw['format']}; this version of Crankwise reads format {FORMAT}"))
    listed = raw.get("cutters")
    if not isinstance(listed, list) or not listed:
        faults.append(
            Fault("cutters", 'none; list the cutters under [[cutters]], as teeth = ["12-13", "17-20"]')
        )
        listed = []
    owned = [one for index, entry in enumerate(listed) for one in _entry(entry, f"cutters[{index}]", faults)]
    if faults:
        raise with_lines(faults, text, source)
    return tuple(owned)


def _entry(raw: object, place: str, faults: list[Fault]) -> list[OwnedCutter]:
    table = Table(raw, place, faults, _KEYS)
    module = _module(table)
    angle = table.exact("pressure_angle", Fraction(20)) / 360
    if not Fraction(10, 360) <= angle <= Fraction(35, 360):
        table.note("pressure_angle", f"{as_text(angle * 360)}; from 10 to 35 degrees")
    if "teeth" not in table and "numbers" not in table:
        table.note("teeth", 'missing; give what is engraved: teeth = ["12-13"], or numbers and number_1_cuts')
    cutters = _texts(table, "teeth", _cutter_of_range)
    if "numbers" in table:
        if "number_1_cuts" not in table:
            table.note("number_1_cuts", 'missing; numbers run both ways: "rack" or "12" teeth')
        order: NumberOrder = table.choice("number_1_cuts", get_args(NumberOrder), "rack")
        cutters += _texts(table, "numbers", lambda text: _cutter_of_number(text, order))
    return [OwnedCutter(cutter, module, angle) for cutter in cutters]


def _module(table: Table) -> Fraction:
    if ("module" in table) == ("diametral_pitch" in table):
        table.note("module", "give the module in mm or the diametral_pitch, one of the two")
        return Fraction(1)
    key = "module" if "module" in table else "diametral_pitch"
    value = table.exact(key, Fraction(1))
    if value <= 0:
        table.note(key, f"{as_text(value)}; this is above 0")
        return Fraction(1)
    return value if key == "module" else INCH / value


def _texts(table: Table, key: str, read: Any) -> list[FormCutter]:
    listed = table.raw.get(key, [])
    if not isinstance(listed, list):
        table.note(key, 'this is a list of texts, as ["12-13", "17-20"]')
        return []
    found = []
    for index, text in enumerate(listed):
        cutter = read(str(text))
        if isinstance(cutter, FormCutter):
            found.append(cutter)
        else:
            table.note(f"{key}[{index}]", cutter)
    return found


def _cutter_of_range(text: str) -> FormCutter | str:
    match = _RANGE.fullmatch(text)
    if match is None:
        return f"{text[:40]!r}; a range of teeth is written as 12-13, 135-rack or 13"
    least, last = int(match[1]), match[2]
    most = None if last == "rack" else int(last or least)
    if least < LEAST_TEETH_CUT or (most is not None and most < least):
        return f"{text[:40]!r}; a range rises, and begins at {LEAST_TEETH_CUT} teeth or more"
    # A range that no usual set has is taken as it is engraved; it has no number that anybody could know.
    return cutter_of_range(least, most) or FormCutter(Fraction(0), least, most)


def _cutter_of_number(text: str, order: NumberOrder) -> FormCutter | str:
    try:
        cutter = cutter_of_number(read_number(text), order)
    except BadNumber:
        cutter = None
    return cutter or f"{text[:40]!r}; the numbers are 1 to 8, and halves between them as 5 1/2"
