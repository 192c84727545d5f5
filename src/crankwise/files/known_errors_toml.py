"""The [[calibrations]] of a head file: each a measurement of the head, with what it was found from."""

from collections.abc import Iterable, Sequence
from fractions import Fraction

from crankwise.errors import BadNumber, Fault
from crankwise.exact.number import as_text
from crankwise.files.toml_table import Table, written_number
from crankwise.head.known_errors import OF, REFERENCES, Harmonic, KnownErrors, Measured, TablePoint

METHODS = ("reference", "closure")
_KEYS = (
    "date",
    "method",
    "residual_arcsec",
    "freedom",
    "backlash_arcsec",
    "harmonics",
    "covariance",
    "table",
    "readings",
    "reference",
    "left_out",
    "in_force",
)
_BACK = "back"


_READING = (
    f'two numbers, degrees set and seconds measured; third, the degrees at which a step began, or "{_BACK}"'
)


def read_known_errors(raw: object, place: str, faults: list[Fault]) -> KnownErrors | None:
    """Return one calibration, or None after noting its faults."""
    table = Table(raw, place, faults, _KEYS)
    date, method = table.text("date"), table.choice("method", METHODS, "reference")
    residual, freedom = table.exact("residual_arcsec", Fraction(0)), table.whole("freedom", 1)
    backlash = table.exact("backlash_arcsec", Fraction(0)) if "backlash_arcsec" in table else None
    harmonics = _harmonics(table, faults)
    covariance = _rows(table, "covariance", None)
    points = tuple(TablePoint(row[0] / 360, row[1]) for row in _rows(table, "table", 2))
    readings = _readings(table)
    reference, left_out = table.choice("reference", ("", *REFERENCES), ""), table.whole("left_out", 0)
    in_force = table.yes_or_no("in_force", False)
    return table.make(
        lambda: KnownErrors(
            date,
            harmonics,
            covariance,
            freedom,
            residual,
            points,
            backlash,
            method,
            readings,
            reference,
            left_out,
            in_force,
        )
    )


def _readings(table: Table) -> tuple[Measured, ...]:
    """Return the readings: setting and error, and third where the step began, or that it was turned back."""
    rows = table.raw.get("readings", [])
    if not isinstance(rows, list) or not all(isinstance(row, list) for row in rows):
        table.note("readings", f"this is a list of lists: {_READING}")
        return ()
    found = []
    for index, row in enumerate(rows):
        back = row[2:] == [_BACK]
        try:
            numbers = [written_number(value) for value in (row[:2] if back else row)]
            if len(numbers) not in (2, 3):
                return _noted(table, "readings", index, f"{len(row)} values; this is {_READING}")
        except BadNumber:
            return _noted(table, "readings", index, f"this is {_READING}")
        found.append(Measured(numbers[0], numbers[1], numbers[2] if len(numbers) == 3 else None, back))
    return tuple(found)


def _harmonics(table: Table, faults: list[Fault]) -> tuple[Harmonic, ...]:
    value = table.raw.get("harmonics", [])
    if not isinstance(value, list):
        table.note(
            "harmonics",
            'this is a list, as [{ of = "worm", order = 1, cosine_arcsec = 12, sine_arcsec = -5 }]',
        )
        table.faulty |= {"covariance", ""}
        return ()
    found = []
    for index, item in enumerate(value):
        one = Table(
            item, f"{table.place}.harmonics[{index}]", faults, ("of", "order", "cosine_arcsec", "sine_arcsec")
        )
        found.append(
            Harmonic(
                one.choice("of", OF, "wheel"),
                one.whole("order"),
                one.exact("cosine_arcsec", Fraction(0)),
                one.exact("sine_arcsec", Fraction(0)),
            )
        )
        if one.faulty:
            table.faulty |= {"harmonics", "covariance", ""}
    return tuple(found) if "harmonics" not in table.faulty else ()


def _rows(table: Table, key: str, length: int | None) -> tuple[tuple[Fraction, ...], ...]:
    """Return rows of numbers, each of this length where one is given; nothing after noting a fault."""
    rows = table.raw.get(key, [])
    shape = f"lists of {length} numbers" if length else "lists of 1, 2, 3 ... numbers"
    if not isinstance(rows, list) or not all(isinstance(row, list) for row in rows):
        table.note(key, f"this is a list of {shape}")
        return ()
    found: list[tuple[Fraction, ...]] = []
    for index, row in enumerate(rows):
        if length and len(row) != length:
            return _noted(table, key, index, f"{len(row)} numbers; this is a list of {shape}")
        try:
            found.append(tuple(written_number(value) for value in row))
        except BadNumber:
            return _noted(table, key, index, 'these are numbers, as 2, 0.5 or "1/2"')
    return tuple(found)


def _noted(table: Table, key: str, index: int, message: str) -> tuple[()]:
    table.note(f"{key}[{index}]", message)
    table.faulty |= {key, ""}
    return ()


def known_errors_block(known: KnownErrors) -> str:
    """Return one calibration as it is written; reading it gives the same."""
    rows = ["[[calibrations]]", f'date = "{known.date}"', f'method = "{known.method}"']
    rows += ["in_force = true"] if known.in_force else []
    rows += [f'reference = "{known.reference}"'] if known.reference else []
    rows += [f"left_out = {known.left_out}"] if known.left_out else []
    rows += [f"residual_arcsec = {_text(known.residual)}", f"freedom = {known.freedom}"]
    rows += [f"backlash_arcsec = {_text(known.backlash)}"] if known.backlash is not None else []
    if known.harmonics:
        rows.append("harmonics = [")
        rows += [
            f'  {{ of = "{one.of}", order = {one.order}, cosine_arcsec = {_text(one.cosine)}, '
            f"sine_arcsec = {_text(one.sine)} }},"
            for one in known.harmonics
        ]
        rows += ["]", *_block("covariance", known.covariance)]
    if known.table:
        rows += _block("table", ((point.spindle * 360, point.error) for point in known.table))
    if known.readings:
        rows += ["readings = [", *(f"  [{_reading(one)}]," for one in known.readings), "]"]
    return "\n".join(rows)


def _reading(one: Measured) -> str:
    third = [f'"{_BACK}"'] if one.back else [] if one.begun is None else [_text(one.begun)]
    return ", ".join([_text(one.setting), _text(one.error), *third])


def _block(key: str, lines: Iterable[Sequence[Fraction]]) -> list[str]:
    return [f"{key} = [", *(f"  [{', '.join(map(_text, line))}]," for line in lines), "]"]


def _text(value: Fraction) -> str:
    """As a bare number where TOML can say it exactly as a decimal, else a fraction in quotes."""
    text = as_text(value)
    return f'"{text}"' if "/" in text else text
