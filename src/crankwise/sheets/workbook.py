"""A table as a workbook for a spreadsheet: frozen headings, real numbers, no formulas.

The package that writes it is an extra, imported here and only when a workbook is asked for.
"""

from collections.abc import Iterable, Sequence
from io import BytesIO

from crankwise.errors import MissingExtra

WIDEST = 60


def workbook_bytes(title: str, headings: Sequence[str], rows: Iterable[Sequence[object]]) -> bytes:
    """Return the rows under their headings as an XLSX file.

    title  name of the one sheet; cut to the 31 letters that a spreadsheet allows
    rows   whole numbers and floats become numbers, all else is text as it stands

    Texts are never read as formulas or links, whatever they begin with.
    Raises MissingExtra when the package is not installed.
    """
    try:
        from xlsxwriter import Workbook
    except ImportError:
        raise MissingExtra(
            "XLSX: its package is not installed; get it with  pip install 'crankwise[paper]'  "
            "or write the table as .csv"
        ) from None
    file = BytesIO()
    options = {
        "in_memory": True,
        "strings_to_formulas": False,
        "strings_to_urls": False,
        "strings_to_numbers": False,
    }
    book = Workbook(file, options)
    name = "".join(" " if letter in "[]:*?/\\'" else letter for letter in title)[:31].strip() or "Crankwise"
    sheet = book.add_worksheet(name)
    sheet.freeze_panes(1, 0)
    sheet.write_row(
        0, 0, headings, book.add_format({"bold": True, "bottom": 1, "text_wrap": True, "valign": "top"})
    )
    widths = [min(len(heading), 20) for heading in headings]
    last = 0
    for last, row in enumerate(rows, 1):
        for column, cell in enumerate(row):
            if isinstance(cell, (int, float)) and not isinstance(cell, bool):
                sheet.write_number(last, column, cell)
            elif cell is not None and cell != "":
                sheet.write_string(last, column, str(cell))
            widths[column] = max(widths[column], min(len(str(cell)), WIDEST))
    for column, width in enumerate(widths):
        sheet.set_column(column, column, width + 2)
    sheet.autofilter(0, 0, last, len(headings) - 1)
    book.close()
    return file.getvalue()
