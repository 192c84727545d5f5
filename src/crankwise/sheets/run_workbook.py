"""The run sheet as a workbook: real numbers under headings that stay in sight, no text a formula."""

from crankwise.plan.passes import ONE_PASS, Passes
from crankwise.plan.plan import Plan
from crankwise.sheets.table import TableColumn, Value, table_of
from crankwise.sheets.workbook import workbook_bytes


def run_workbook_bytes(plan: Plan, title: str, passes: Passes = ONE_PASS) -> bytes:
    """Return the run sheet as an XLSX file, a row a position. Raises MissingExtra.

    A number is a float to a spreadsheet, good to fifteen digits; the exact target stands beside it as text.
    """
    columns, rows = table_of(plan, title, passes)
    headings = [column.heading for column in columns]
    return workbook_bytes(
        title, headings, ([_cell(column, column.value(row)) for column in columns] for row in rows)
    )


def _cell(column: TableColumn, value: Value) -> str | float | None:
    if value is None or isinstance(value, (str, int)):
        return value
    return float(round(value, column.places))
