from fractions import Fraction

import pytest

from crankwise.errors import Fault, FaultsFound
from crankwise.files.readings_csv import MOST_BYTES, Line, number_in, read_sheet

WANTED = [(Fraction(0), Fraction("0.5")), (Fraction("12.5"), Fraction("-3.25"))]


def numbers(text: str | bytes) -> list[tuple[Fraction | None, Fraction | None]]:
    faults: list[Fault] = []
    found = [
        (number_in(line, "setting_deg", faults), number_in(line, "gauge_arcsec", faults))
        for line in read_sheet(text, "run.csv").lines
    ]
    assert faults == []
    return found


@pytest.mark.parametrize(
    "text",
    [
        "setting_deg,gauge_arcsec\n0,0.5\n12.5,-3.25\n",
        "setting_deg;gauge_arcsec\n0;0,5\n12,5;-3,25\n",
        "setting_deg;gauge_arcsec\n0;0.5\n12.5;-3.25\n",
        "setting_deg\tgauge_arcsec\r\n0\t0,5\r\n12,5\t−3,25\r\n",
        "setting_deg|gauge_arcsec\n0|0.5\n12.5|-3.25",
        "\ufeffSetting deg , Gauge arcsec\n# a remark, with a comma\n\n 0 , 0.5 \n12.5,-3.25,\n,,\n",
        'setting_deg,gauge_arcsec\n"0","0,5"\n"12,5","-3,25"\n',
        "gauge_arcsec,note,setting_deg\n0.5,warm,0\n-3.25,,12.5\n",
    ],
)
def test_any_usual_separator_and_decimal_mark_is_read(text: str) -> None:
    assert numbers(text) == WANTED
    assert numbers(text.encode()) == WANTED
    assert numbers(text.removeprefix("\ufeff").encode("utf-16")) == WANTED


def test_lines_keep_their_numbers() -> None:
    sheet = read_sheet("# head\n\na,b\n1,2\n\n# more\n3,4\n")
    assert [line.number for line in sheet.lines] == [4, 7]
    assert sheet.columns == ("a", "b")


def test_a_cell_left_out_is_empty() -> None:
    assert read_sheet("a,b,c\n1\n").lines == (Line(2, {"a": "1", "b": "", "c": ""}),)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "run.csv: nothing; the first line names the columns"),
        ("a,b\n", "run.csv: only the names of columns; the first line"),
        ("0,0.5\n1,2\n", "run.csv, line 1: figures where the columns should be named"),
        ("a,b,a\n1,2,3\n", "run.csv, line 1: the column a stands here twice"),
        ("a,b\n1,2\n1,5,2,7\n", "run.csv, line 3: 4 cells under 2 names; a comma both separates and marks"),
        (
            "a,b\n0,0,5\n1,5,2,7\n3,1\n",
            "run.csv, line 2: 3 cells under 2 names, and 1 line more like it; a comma both",
        ),
        ("a;b\n1;2;3\n", "run.csv, line 2: 3 cells under 2 names; each line has one cell for each"),
    ],
)
def test_a_file_that_cannot_be_read_says_where(text: str, message: str) -> None:
    with pytest.raises(FaultsFound, match=message):
        read_sheet(text, "run.csv")


def test_what_is_no_text_says_so() -> None:
    with pytest.raises(FaultsFound, match=r"run.csv, line 2: this is not UTF-8 text"):
        read_sheet(b"a,b\n1,\xe9\n", "run.csv")
    with pytest.raises(FaultsFound, match=r"at most 4,000,000 are read"):
        read_sheet(b"x" * (MOST_BYTES + 1), "run.csv")


@pytest.mark.parametrize(
    ("typed", "value"),
    [("12d30m", "12.5"), ("12°30'", "12.5"), ("12,5", "12.5"), ("1/8", "0.125"), ("-3", "-3")],
)
def test_angles_are_read_as_people_write_them(typed: str, value: str) -> None:
    faults: list[Fault] = []
    assert number_in(Line(3, {"setting_deg": typed}), "setting_deg", faults, angle=True) == Fraction(value)
    assert faults == []


@pytest.mark.parametrize(
    ("typed", "angle", "message"),
    [
        ("", False, "nothing; write a number, as 12.5"),
        ("abc", True, "'abc'; write an angle in degrees, as 12.5 or 12d30m"),
        ("1,234,5", False, "'1,234,5'; write a number"),
        ("1.234,5", False, "'1.234,5'; write a number"),
    ],
)
def test_what_is_no_number_is_noted_with_its_line(typed: str, angle: bool, message: str) -> None:
    faults: list[Fault] = []
    assert number_in(Line(7, {"x": typed}), "x", faults, angle) is None
    (fault,) = faults
    assert (fault.place, fault.line) == ("x", 7)
    assert fault.message.startswith(message)


def test_blanks_separate_where_nothing_else_does() -> None:
    sheet = read_sheet("setting_deg   measured_deg\n0  0,01\n10\u00a0  10.02\n")
    assert sheet.columns == ("setting_deg", "measured_deg")
    assert [tuple(line.cells.values()) for line in sheet.lines] == [("0", "0,01"), ("10", "10.02")]
    assert read_sheet("pitch um\n1.5\n2 thou\n").columns == ("pitch_um",)


def test_under_one_name_a_comma_can_only_mark_the_decimals() -> None:
    sheet = read_sheet("pitch_um\n1,5\n-2,25;\n3\n")
    assert [line.cells["pitch_um"] for line in sheet.lines] == ["1,5", "-2,25", "3"]
