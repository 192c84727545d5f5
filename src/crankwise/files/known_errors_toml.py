"""The [[calibrations]] of a head file: each a measurement of the head, with what it was found from."""

from collections.abc import Iterable, Sequence
from fractions import Fraction

from crankwise.errors import BadNumber, Fault
from crankwise.exact.number import as_text, read_number
from crankwise.files.toml_table import Table
from crankwise.head.known_errors import OF, Harmonic, KnownErrors, Measured, TablePoint

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
    readings = tuple(Measured(*row) for row in _rows(table, "readings", 2))
    return table.make(
        lambda: KnownErrors(
            date, harmonics, covariance, freedom, residual, points, backlash, method, readings
        )
    )


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
            found.append(tuple(_number(value) for value in row))
        except BadNumber:
            return _noted(table, key, index, 'these are numbers, as 2, 0.5 or "1/2"')
    return tuple(found)


def _noted(table: Table, key: str, index: int, message: str) -> tuple[()]:
    table.note(f"{key}[{index}]", message)
    table.faulty |= {key, ""}
    return ()


def _number(value: object) -> Fraction:
    if isinstance(value, bool) or not isinstance(value, (int, str, Fraction)):
        raise BadNumber
    return read_number(value) if isinstance(value, str) else Fraction(value)


def known_errors_block(known: KnownErrors) -> str:
    """Return one calibration as it is written; reading it gives the same."""
    rows = ["[[calibrations]]", f'date = "{known.date}"', f'method = "{known.method}"']
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
        rows += _block("readings", known.readings)
    return "\n".join(rows)


def _block(key: str, lines: Iterable[Sequence[Fraction]]) -> list[str]:
    return [f"{key} = [", *(f"  [{', '.join(map(_text, line))}]," for line in lines), "]"]


def _text(value: Fraction) -> str:
    """As a bare number where TOML can say it exactly as a decimal, else a fraction in quotes."""
    text = as_text(value)
    return f'"{text}"' if "/" in text else text
