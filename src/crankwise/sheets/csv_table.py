"""The run sheet as a table for a spreadsheet or a program: RFC 4180, one row a position.

It begins with a byte order mark: without one the commonest spreadsheet reads a degree sign as two
letters of its own country's code page; every CSV reader worth the name skips it (in Python,
`encoding="utf-8-sig"`). Figures are plain numbers with a point; an exact target keeps its degree
sign, so that 5/3° is never taken for the fifth of March. Texts that a spreadsheet would run as a
formula are led by an apostrophe.
"""

import csv
from collections.abc import Callable, Iterator
from fractions import Fraction
from io import StringIO

from crankwise.exact.angle import ARCSECONDS
from crankwise.exact.length import INCH, rim_length
from crankwise.exact.number import as_text
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import Row, schedule
from crankwise.wording import sheet as words
from crankwise.wording import sheet_cells as cells
from crankwise.wording.figures import decimal
from crankwise.wording.settings import between_numerals

_FORMULA_BEGINS = ("=", "+", "-", "@", "\t", "\r", "\n")

TableColumn = tuple[str, Callable[[Row], str]]


def csv_bytes(plan: Plan, title: str) -> bytes:
    """Return the table: a heading, a row a position, the closing row last where the run goes round."""
    rows = schedule(plan)
    columns = tuple(_columns(plan, rows[0], title))
    text = StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow([heading for heading, _ in columns])
    writer.writerows([value(row) for _, value in columns] for row in rows)
    return text.getvalue().encode("utf-8-sig", errors="replace")


def defused(text: str) -> str:
    """Return a text that no spreadsheet takes for a formula: led by an apostrophe where it would be.

    >>> defused("=1+1"), defused("Tide ring")
    ("'=1+1", 'Tide ring')
    """
    return f"'{text}" if text.lstrip(" ").startswith(_FORMULA_BEGINS) else text


def _columns(plan: Plan, first: Row, title: str) -> Iterator[TableColumn]:
    yield "position", lambda row: str(row.reached.position)
    yield from _setting_columns(plan, first)
    if first.ring_check is not None:
        yield f"ring check ({cells.ring_unit(plan.head)})", lambda row: _figure(row.ring_check, 4)
    yield "target exact (degrees)", lambda row: f"{as_text(row.reached.target * 360)}°"
    yield "target (degrees)", lambda row: _figure(row.reached.target * 360, 8)
    yield "error (arc seconds)", lambda row: _figure(row.reached.error * ARCSECONDS, 4)
    if (rim := plan.part.rim_mm) is not None:
        yield "error at rim (µm)", lambda row: _figure(rim_length(row.reached.error, rim) * 1000, 3)
        yield "error at rim (thou)", lambda row: _figure(rim_length(row.reached.error, rim) / INCH * 1000, 4)
    yield "what to do", lambda row: _todo(plan, first, row)
    if beyond := cells.beyond_the_cut(plan.part):
        yield "beyond the cut", lambda row: defused(beyond.get(row.reached.position, ""))
    yield "job", _always(title)
    yield "head", _always(plan.head.name)
    yield "way", _always(words.way_text(plan))


def _always(text: str) -> Callable[[Row], str]:
    """The same text on every row, so that a row cut out of the table still says what it is of."""
    safe = defused(text)
    return lambda row: safe


def _setting_columns(plan: Plan, first: Row) -> Iterator[TableColumn]:
    circles, wheels = cells.named(plan.way, "circle"), cells.named(plan.way, "wheel")
    setting = first.reached.setting
    for name in cells.set_here(setting):
        match name:
            case "notches":
                yield (
                    f"notches since zero (wheel of {wheels[0]})",
                    lambda row: _count(row.reached.setting.notches),
                )
            case "second wheel":
                heading = f"notches of the carrying wheel (wheel of {wheels[1]})"
                yield heading, lambda row: _count(row.reached.setting.second_notches)
            case "turns":
                yield "whole turns since zero", lambda row: _count(row.reached.setting.turns)
            case "hole":
                on = "" if setting.circle else f" ({circles[0]} circle)"
                yield f"holes past the whole turn{on}", lambda row: _count(_holes(row)[0])
            case "back pin":
                yield (
                    f"holes of the pin at the back ({circles[1]} circle)",
                    lambda row: _count(_holes(row)[1]),
                )
            case "circle":
                yield "circle", lambda row: _count(row.reached.setting.circle)
            case "dial":
                yield "dial reading (marks)", lambda row: _figure(row.reached.setting.reading, 6)
                yield "between numerals", lambda row: _between(plan, row)
            case "ring":
                unit = cells.ring_unit(plan.head)
                yield f"ring reading ({unit})", lambda row: _figure(row.reached.setting.reading, 6)
            case "steps":
                yield "steps since zero", lambda row: _count(row.reached.setting.steps)


def _count(count: int | None) -> str:
    return "" if count is None else str(count)


def _holes(row: Row) -> tuple[int, ...]:
    return row.reached.setting.holes or (0, 0)


def _between(plan: Plan, row: Row) -> str:
    return between_numerals(plan.head, row.reached.setting.reading or Fraction(0))


def _figure(value: Fraction | None, places: int) -> str:
    """A number for a program: no more decimals than it has, and none that are nought."""
    if value is None:
        return ""
    text = decimal(value, places)
    return text.rstrip("0").rstrip(".") if "." in text else text


def _todo(plan: Plan, first: Row, row: Row) -> str:
    if row.closing:
        label = cells.position_label(row, first.reached.position)
        return defused(f"{label}. {words.ending_text(plan, closes=True)}")
    return words.TODO[plan.part.work]
