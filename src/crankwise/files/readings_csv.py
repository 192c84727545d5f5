"""Readings as they come out of a spreadsheet or a notebook: CSV with any of the usual separators.

A comma, a semicolon, a tab, an upright bar or blanks separate the cells; decimals have a point, or a comma where
that does not separate. The first line that is not empty names the columns; lines that begin with # are
remarks. Every fault is told with its line, all at once.
"""

import csv
from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from crankwise.errors import BadAngle, BadNumber, Fault, FaultsFound
from crankwise.exact.angle import read_angle
from crankwise.exact.number import read_number, shown
from crankwise.files.typed_file import utf8_text

MOST_BYTES = 4_000_000
MOST_ROWS = 100_000
SEPARATORS = {";": "semicolons", "\t": "tabs", "|": "bars", ",": "commas"}
"""In the order in which they are tried: a comma may be the mark of the decimals."""


class Line(NamedTuple):
    """One line of cells: its number in the file, and each column's text; empty where there is none."""

    number: int
    cells: dict[str, str]


class Sheet(NamedTuple):
    """The columns' names, in small letters, and the lines under them."""

    columns: tuple[str, ...]
    lines: tuple[Line, ...]
    source: str = ""


def read_sheet(content: bytes | str, source: str = "") -> Sheet:
    """Return the lines of a file of readings.

    content  the file's bytes or text;  source  its name, for the sentences

    Raises FaultsFound.
    """
    if len(content) > MOST_BYTES:
        raise FaultsFound([Fault("", f"{len(content):,} bytes; at most {MOST_BYTES:,} are read")], source)
    text = content.removeprefix("\ufeff") if isinstance(content, str) else decoded(content, source)
    numbered = [(number, line) for number, line in enumerate(text.splitlines(), 1) if _says_something(line)]
    if len(numbered) < 2:
        found = "only the names of columns" if numbered else "nothing"
        raise FaultsFound(
            [Fault("", f"{found}; the first line names the columns, and each line below is a reading")],
            source,
        )
    if len(numbered) > MOST_ROWS:
        raise FaultsFound([Fault("", f"{len(numbered):,} lines; at most {MOST_ROWS:,} are read")], source)
    separator = _separator(numbered[0][1])
    rows = [(number, _cells(line, separator)) for number, line in numbered]
    columns = tuple(cell.lower().replace(" ", "_") for cell in rows[0][1])
    faults = _heading_faults(columns, rows[0][0])
    lines = []
    if not faults and separator == "," and (broken := _decimal_commas(columns, rows[1:])):
        raise FaultsFound([broken], source)
    for number, cells in rows[1:]:
        if len(cells) > len(columns) and any(cells[len(columns) :]):
            faults.append(Fault("", _too_many(len(cells), len(columns), separator), number))
        elif any(cells):
            padded = [*cells, *[""] * len(columns)]
            lines.append(Line(number, dict(zip(columns, padded, strict=False))))
    if faults:
        raise FaultsFound(faults, source)
    return Sheet(columns, tuple(lines), source)


def decoded(content: bytes, source: str = "") -> str:
    """Return the text of a file of readings: UTF-8, or UTF-16 as spreadsheets write it. Raises FaultsFound."""
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        return content.decode("utf-16", errors="replace")
    return utf8_text(content, source)


def _says_something(line: str) -> bool:
    return bool(line.strip(" \t;,|")) and not line.lstrip().startswith("#")


def _separator(heading: str) -> str:
    """Return what separates the cells: a blank where nothing else does; nothing under one name."""
    found = next((mark for mark in SEPARATORS if mark in heading), "")
    if not found and "_" in heading and len(heading.split()) > 1:
        return " "
    return found


def _cells(line: str, separator: str) -> list[str]:
    if not separator:
        return [line.strip(" \t;,|")]  # under one name a comma can only mark the decimals
    if separator == " ":
        return line.split()
    return [cell.strip() for cell in next(csv.reader([line], delimiter=separator))]


def _heading_faults(columns: Sequence[str], number: int) -> list[Fault]:
    named = [name for name in columns if name]
    if any(name[0] in "0123456789-+." for name in named):
        return [Fault("", "figures where the columns should be named, as setting_deg,measured_deg", number)]
    return [
        Fault("", f"the column {name} stands here twice", number)
        for name in sorted({name for name in named if named.count(name) > 1})
    ]


_BOTH = "a comma both separates and marks the decimals: separate by semicolons, or write points"


def _too_many(cells: int, columns: int, separator: str) -> str:
    told = f"{cells} cells under {columns} names"
    return (
        f"{told}; {_BOTH if separator == ',' and cells == 2 * columns else 'each line has one cell for each'}"
    )


def _decimal_commas(columns: Sequence[str], rows: Sequence[tuple[int, list[str]]]) -> Fault | None:
    """Return the one fault of a file whose commas both separate and mark decimals; None of any other file.

    It shows in most lines, and none of their cells has a point.
    """
    many = [
        (number, cells) for number, cells in rows if len(cells) > len(columns) and any(cells[len(columns) :])
    ]
    if 2 * len(many) <= len(rows) or any("." in cell for _, cells in many for cell in cells):
        return None
    number, cells = many[0]
    more = len(many) - 1
    lines = f", and {more} line{'' if more == 1 else 's'} more like it" if more else ""
    return Fault(
        "",
        f"{len(cells)} cells under {len(columns)} names{lines}; {_BOTH}",
        number,
    )


def number_in(line: Line, column: str, faults: list[Fault], angle: bool = False) -> Fraction | None:
    """Return the exact number in a cell; None after noting that it is missing or no number.

    angle  whether degrees-minutes-seconds are read too, 12d30m; the number is then in degrees
    """
    text = line.cells.get(column, "")
    plain = text.replace(",", ".") if text.count(",") == 1 and "." not in text else text
    try:
        return read_number(plain, column)
    except BadNumber:
        pass
    if angle and plain:
        try:
            return read_angle(plain) * 360
        except BadAngle:
            pass
    right = "write an angle in degrees, as 12.5 or 12d30m" if angle else "write a number, as 12.5"
    faults.append(Fault(column, f"{shown(text)}; {right}", line.number))
    return None
