"""The run sheet as a table for a spreadsheet or a program: RFC 4180, one row a position.

It begins with a byte order mark: without one the commonest spreadsheet reads a degree sign as two
letters of its own country's code page; every CSV reader worth the name skips it (in Python,
`encoding="utf-8-sig"`). Figures are plain numbers with a point; an exact target keeps its degree
sign, so that 5/3° is never taken for the fifth of March. Texts that a spreadsheet would run as a
formula are led by an apostrophe.
"""

import csv
from fractions import Fraction
from io import StringIO

from crankwise.plan.passes import ONE_PASS, Passes
from crankwise.plan.plan import Plan
from crankwise.sheets.table import TableColumn, Value, table_of
from crankwise.wording.figures import decimal

_FORMULA_BEGINS = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20")
"""The four signs, also as wide as an East Asian letter: some spreadsheets take those for the same."""


def csv_bytes(plan: Plan, title: str, passes: Passes = ONE_PASS) -> bytes:
    """Return the table: a heading, a row a position, the closing row last where the run goes round."""
    columns, rows = table_of(plan, title, passes)
    text = StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow([column.heading for column in columns])
    writer.writerows([_written(column, column.value(row)) for column in columns] for row in rows)
    return text.getvalue().encode("utf-8-sig", errors="replace")


def defused(text: str) -> str:
    """Return a text that no spreadsheet takes for a formula: led by an apostrophe where it would be.

    >>> defused("=1+1"), defused("Tide ring")
    ("'=1+1", 'Tide ring')
    """
    is_led = text.startswith(_FORMULA_BEGINS) or text.lstrip().startswith(_FORMULA_BEGINS)
    return f"'{text}" if is_led else text


def _written(column: TableColumn, value: Value) -> str:
    if value is None:
        return ""
    return defused(value) if isinstance(value, str) else _figure(Fraction(value), column.places)


def _figure(value: Fraction, places: int) -> str:
    """A number for a program: no more decimals than it has, and none that are nought."""
    text = decimal(value, places)
    return text.rstrip("0").rstrip(".") if "." in text else text
