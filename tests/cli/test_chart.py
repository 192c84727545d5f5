"""crankwise chart: a row a number, on the screen, as CSV and as JSON."""

import csv
import io
import json
from pathlib import Path

import pytest

from tests.cli.conftest import Typed

PLATES = ("chart", "--head", "examples/plate-head.toml")


def test_a_row_says_the_way_its_set_up_and_its_error(typed: Typed) -> None:
    ran = typed("chart", "--head", "examples/bench-head.toml", "--from", "126", "--to", "128")
    assert ran.code == 0
    headings, *rows = ran.out.split("\n\n")[0].splitlines()
    assert headings.split("  ") == ["parts", "best way", *headings.split("  ")[2:]]
    assert [row.split()[0] for row in rows] == ["126", "127", "128"]
    assert rows[1].endswith('±44.6"')


def test_as_json_a_row_has_the_best_way_and_the_best_exact_one(typed: Typed) -> None:
    ran = typed(*PLATES, "--from", "49", "--to", "49", "--json")
    found = json.loads(ran.out)
    plain = {
        "method": "plain",
        "exact": True,
        "worst_error_arcsec": 0.0,
        "worst_error_turns": "0",
        "setup": {"circle": 49, "turns": 0, "holes": 40},
    }
    assert found["ratio"] == "40"
    assert found["rows"] == [{"divisions": 49, "best": plain, "best_exact": plain}]


def test_within_a_tolerance_the_simplest_comes_first_and_the_exact_one_stands_beside_it(typed: Typed) -> None:
    ran = typed(*PLATES, "--from", "77", "--to", "77", "--within", "1deg", "--json")
    [row] = json.loads(ran.out)["rows"]
    assert (row["best"]["method"], row["best"]["exact"]) == ("ring", False)
    assert (row["best_exact"]["method"], row["best_exact"]["exact"]) == ("compound", True)


def test_a_number_that_cannot_be_divided_has_an_empty_row(typed: Typed) -> None:
    ran = typed("chart", "--head", "examples/bull-wheel.toml", "--from", "6", "--to", "7", "--json")
    assert ran.code == 0
    assert json.loads(ran.out)["rows"][1] == {"divisions": 7, "best": None, "best_exact": None}


def test_where_none_can_be_divided_the_answer_is_no(typed: Typed) -> None:
    ran = typed("chart", "--head", "examples/bull-wheel.toml", "--from", "7", "--to", "9")
    assert (ran.code, ran.err) == (1, "crankwise: this head can divide none of these numbers\n")


def test_a_rim_tells_the_error_as_a_length(typed: Typed) -> None:
    ran = typed("chart", "--head", "examples/bench-head.toml", "--from", "127", "--to", "127", "--rim", "200")
    assert "21.6 µm (8.5 tenths of a thou)" in ran.out


def test_the_csv_on_the_screen_and_in_a_file_are_the_same(typed: Typed, tmp_path: Path) -> None:
    path = tmp_path / "chart.csv"
    shown = typed(*PLATES, "--from", "2", "--to", "60", "--csv").out
    ran = typed(*PLATES, "--from", "2", "--to", "60", "--out", str(path))
    assert (ran.code, ran.out) == (0, f"59 rows written to {path}\n")
    rows = list(csv.DictReader(io.StringIO(path.read_text(encoding="utf-8-sig"))))
    assert rows == list(csv.DictReader(io.StringIO(shown)))
    assert rows[49 - 2] == {
        "divisions": "49",
        "method": "Plain indexing",
        "set-up": "49 circle, 40 holes each move",
        "worst error (arcsec)": "0.0",
        "worst error (um at the rim)": "",
        "exact method": "Plain indexing",
        "exact set-up": "49 circle, 40 holes each move",
    }


@pytest.mark.parametrize("there", [True, False])
def test_a_chart_that_cannot_be_written_leaves_what_was_there(
    typed: Typed, tmp_path: Path, there: bool
) -> None:
    folder = tmp_path / "chart.csv"
    if there:
        folder.mkdir()
        sentence = f"{folder}: this is a folder; give the path of a file to write"
    else:
        folder = tmp_path / "gone" / "chart.csv"
        sentence = f"{folder}: the folder {str(folder.parent)!r} is not there; make it first, or name another"
    ran = typed(*PLATES, "--from", "2", "--to", "6", "--out", str(folder))
    assert (ran.code, ran.out, ran.err) == (2, "", f"crankwise: {sentence}\n")
    assert list(tmp_path.iterdir()) == ([folder] if there else [])
