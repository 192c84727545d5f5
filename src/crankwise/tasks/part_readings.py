"""Readings of a finished part, from what was typed to exact values; mistakes are named, not reckoned with."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from statistics import median
from typing import NamedTuple

from crankwise.errors import BadLength, Fault, FaultsFound
from crankwise.exact.length import INCH, read_length
from crankwise.exact.number import as_text
from crankwise.files.readings_csv import MOST_BYTES, Line, Sheet, number_in, read_sheet

COLUMNS = ("pitch_um", "chord_mm", "position_deg", "size_mm")
"""What can be measured, each by the column that holds it."""

UNITS: Mapping[str, tuple[str, Fraction]] = {
    "pitch_um": ("pitch_um", Fraction(1)),
    "pitch_mm": ("pitch_um", Fraction(1000)),
    "pitch_thou": ("pitch_um", INCH),
    "pitch_in": ("pitch_um", INCH * 1000),
    "chord_mm": ("chord_mm", Fraction(1)),
    "chord_in": ("chord_mm", INCH),
    "position_deg": ("position_deg", Fraction(1)),
    "size_mm": ("size_mm", Fraction(1)),
    "size_in": ("size_mm", INCH),
}
"""Every column that is read: what it holds, and what one of its unit is in the unit of that."""

NUMBERED = ("position", "tooth", "hole", "line", "place", "number", "step")
"""Columns that number the rows, where one does."""

_MANY = 20
_FINEST_UM = Fraction(1, 2)
"""The pitches of a part made in a shop differ by more: no comparator there shows less. Judgement."""
_OUT_OF_PROPORTION = {"pitch_um": 1000.0, "chord_mm": 0.5}
"""From where a reading was mistyped: away from the others in micrometres; in shares of what they are."""

_IN_ITS_UNIT = {
    "pitch_um": "micrometres, or thou under pitch_thou",
    "chord_mm": "mm, or inches under chord_in",
}


class Value(NamedTuple):
    """One reading: the line that it stands on, and its value in the unit of its kind."""

    line: int
    value: Fraction


def typed_readings(content: bytes | str, column: str, source: str = "readings") -> Sheet:
    """Return readings from a file, or as they were typed below one another. Raises FaultsFound.

    column  what they are where the first line names nothing, one of UNITS
    """
    if isinstance(content, str) and column in UNITS and len(content) <= MOST_BYTES:
        lines = [(number, line.strip()) for number, line in enumerate(content.splitlines(), 1)]
        said = [(number, line) for number, line in lines if line and not line.startswith("#")]
        # One column has nothing to separate, so that a comma in it can only mark the decimals.
        if said and not said[0][1][0].isalpha():
            return Sheet((column,), tuple(Line(number, {column: line}) for number, line in said), source)
    return read_sheet(content, source)


def column_of(sheet: Sheet) -> str:
    """Return the one column that tells something of a part. Raises FaultsFound where there is none, or several."""
    columns = [name for name in UNITS if name in sheet.columns]
    if len(columns) == 1:
        return columns[0]
    raise FaultsFound(
        [Fault("", f"the columns {', '.join(sheet.columns)}; one of them is {', '.join(UNITS)}", 1)],
        sheet.source,
    )


def part_values(sheet: Sheet) -> tuple[str, list[Value]]:
    """Return what was measured, one of COLUMNS, and every reading of it in that unit.

    A cell may name its own unit: 0.272 in, 1.5 thou. Raises FaultsFound with everything that was mistyped.
    """
    column = column_of(sheet)
    kind, times = UNITS[column]
    faults: list[Fault] = []
    values = []
    for line in sheet.lines:
        value = _own_unit(line, column, kind)
        if value is None:
            number = number_in(line, column, faults, angle=kind == "position_deg")
            value = None if number is None else number * times
        if value is not None:
            values.append(Value(line.number, value))
    if not faults:
        faults += _out_of_order(sheet)
    if not faults and kind == "pitch_um":
        faults += _finer_than_a_shop(values, column)
    if not faults and kind in _OUT_OF_PROPORTION:
        faults += _out_of_proportion(values, column, kind)
    if faults:
        raise FaultsFound(faults, sheet.source)
    return kind, values


def _out_of_order(sheet: Sheet) -> list[Fault]:
    """Where the rows are numbered, the numbers must run on by one: none left out, none twice."""
    column = next((name for name in NUMBERED if name in sheet.columns), None)
    if column is None:
        return []
    faults: list[Fault] = []
    before: Fraction | None = None
    for line in sheet.lines:
        number = number_in(line, column, faults)
        if number is not None and before is not None and number != before + 1:
            right = as_text(before + 1)
            told = f"{as_text(number)} after {as_text(before)}; {right} comes next: a row left out, twice, or moved?"
            faults.append(Fault(column, told, line.number))
        before = number
    return faults


def _own_unit(line: Line, column: str, kind: str) -> Fraction | None:
    """Return a length that names its unit, in the unit of its kind; None where it names none."""
    text = line.cells.get(column, "")
    if kind == "position_deg" or not text[-1:].isalpha():
        return None
    plain = text.replace(",", ".") if text.count(",") == 1 and "." not in text else text
    try:
        length = read_length(plain, column)
    except BadLength:
        return None  # the sentence for a number tells it
    return length * 1000 if kind == "pitch_um" else length


def _finer_than_a_shop(values: Sequence[Value], column: str) -> list[Fault]:
    """Pitches that all lie within a part of a micrometre: no shop cuts or measures so finely, so it is another unit."""
    read = [value for _, value in values]
    if not 0 < max(read) - min(read) < _FINEST_UM:
        return []
    told = "millimetres (pitch_mm) or inches (pitch_in)" if column == "pitch_um" else "another unit"
    return [
        Fault(
            column,
            f"all readings lie within {float(max(read) - min(read)):.2g} µm, which no shop measures; these look like "
            f"{told}: name the column so",
            values[0].line,
        )
    ]


def _out_of_proportion(values: Sequence[Value], column: str, kind: str) -> list[Fault]:
    times = UNITS[column][1]
    middle = median(value for _, value in values)
    usual = max(float(median(abs(value - middle) for _, value in values)), 1e-3)
    limit = _OUT_OF_PROPORTION[kind] * (float(abs(middle)) if kind == "chord_mm" else 1)
    return [
        Fault(
            column,
            f"{as_text(value / times)}; the others are about {float(middle / times):.4g}; mistyped, or in the wrong "
            f"unit? write {_IN_ITS_UNIT[kind]}",
            line,
        )
        for line, value in values
        if abs(float(value - middle)) > max(_MANY * usual, limit)
    ]


def check_unit(values: Sequence[Value], wanted_mm: Fraction, column: str, source: str) -> None:
    """Refuse lengths that are 25.4 times too small or too large: inches among millimetres, or the reverse.

    wanted_mm  what they should be, above 0

    Raises FaultsFound.
    """
    share = float(median(value for _, value in values) / wanted_mm)
    for times, told in ((1 / 25.4, "inches"), (25.4, "millimetres")):
        if abs(share / times - 1) < 0.03:
            right = column.rpartition("_")[0] + ("_in" if told == "inches" else "_mm")
            raise FaultsFound(
                [Fault(column, f"these look like {told}; name the column {right}", values[0].line)], source
            )
