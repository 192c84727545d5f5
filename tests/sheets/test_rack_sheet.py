"""The sheets of a rack read back: every row against plain fractions of millimetres, in every form there is."""

import csv
import io
from fractions import Fraction

import openpyxl
import pytest

from crankwise.exact.number import PI
from crankwise.part.divisions import EqualSteps
from crankwise.part.part import Part
from crankwise.plan.passes import Pass
from crankwise.plan.plan import Plan, planned
from crankwise.sheets.csv_table import csv_bytes
from crankwise.sheets.html_page import html_bytes
from crankwise.sheets.run_workbook import run_workbook_bytes
from crankwise.sheets.sheet import sheet_of
from crankwise.sheets.table import table_of
from tests.gear import MILL_TABLE, head


def rack() -> Plan:
    plan = planned(head(MILL_TABLE), Part(EqualSteps(60, PI), work="space"))
    assert plan is not None
    return plan


def read_back(plan: Plan) -> list[dict[str, str]]:
    text = csv_bytes(plan, "Rack").decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


def test_every_row_of_the_table_is_what_plain_fractions_say() -> None:
    rows = read_back(rack())
    assert len(rows) == 60, "a rack has no closing row"
    for number, row in enumerate(rows):
        # 5 mm a turn, 100 marks read to a half: places of 0.025 mm.
        place = round(PI * number / Fraction(1, 40))
        assert (int(row["whole turns since zero"]), Fraction(row["dial reading (marks)"])) == (
            place // 200,
            Fraction(place % 200, 2),
        )
        assert abs(Fraction(row["target (mm)"]) - PI * number) <= Fraction(1, 2_000_000)
        assert abs(Fraction(row["target (in)"]) - PI * number * 5 / 127) <= Fraction(1, 20_000_000)
        out = Fraction(place, 40) - PI * number
        assert abs(Fraction(row["error (µm)"]) - out * 1000) <= Fraction(1, 2000)
        assert abs(Fraction(row["error (thou)"]) - out * 5 / 127 * 1000) <= Fraction(1, 20_000)


def test_no_angle_stands_in_the_table() -> None:
    assert not [name for name in read_back(rack())[0] if "degree" in name or "arc" in name or "rim" in name]


def test_the_workbook_holds_lengths_as_numbers() -> None:
    book = openpyxl.load_workbook(io.BytesIO(run_workbook_bytes(rack(), "Rack")))
    headings, *rows = book.worksheets[0].iter_rows(values_only=True)
    at = headings.index("target (mm)")
    assert rows[59][at] == pytest.approx(185.353966, abs=1e-6)
    assert headings[at : at + 4] == ("target (mm)", "target (in)", "error (µm)", "error (thou)")


def test_the_page_says_slide_and_not_head() -> None:
    page = html_bytes(sheet_of(rack(), "Rack")).decode()
    assert "one turn of the screw = 5 mm (about 0.1969 in)" in page
    assert "185.354 mm" in page
    assert "7.2974 in" in page


def test_depths_of_a_rack_are_from_its_top() -> None:
    columns, _ = table_of(rack(), "Rack", (Pass("finish", depth_mm=Fraction("2.25")),))
    assert "depth from the top (mm)" in [column.heading for column in columns]
