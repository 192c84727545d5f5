from io import BytesIO

from openpyxl import load_workbook

from crankwise.sheets.workbook import workbook_bytes


def read_back(*rows: tuple[object, ...]) -> list[tuple[object, ...]]:
    book = load_workbook(BytesIO(workbook_bytes("Plate head: 2 to 400", ["parts", "way"], rows)))
    return list(book.worksheets[0].iter_rows(values_only=True))


def test_numbers_are_numbers_and_texts_are_texts() -> None:
    assert read_back((7, "49 circle"), (0.5, "12")) == [("parts", "way"), (7, "49 circle"), (0.5, "12")]


def test_a_text_is_never_a_formula_or_a_link() -> None:
    book = load_workbook(BytesIO(workbook_bytes("t", ["a"], [["=1+1"], ["http://example.invalid"], ["-2"]])))
    cells = [row[0] for row in book.worksheets[0].iter_rows(min_row=2)]

    assert [(cell.value, cell.data_type, cell.hyperlink) for cell in cells] == [
        ("=1+1", "s", None),
        ("http://example.invalid", "s", None),
        ("-2", "s", None),
    ]


def test_the_headings_stay_in_sight() -> None:
    book = load_workbook(BytesIO(workbook_bytes("t", ["a"], [[1]])))

    assert book.worksheets[0].freeze_panes == "A2"


def test_a_title_that_no_sheet_may_have_is_mended() -> None:
    book = load_workbook(BytesIO(workbook_bytes("Head [1]: 2/400 " + "x" * 60, ["a"], [[1]])))

    assert book.sheetnames[0].startswith("Head  1   2 400 xxx")
    assert len(book.sheetnames[0]) <= 31
