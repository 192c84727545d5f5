"""crankwise sheet: what it writes, what it says, and when it writes nothing."""

import csv
import io
import json
from pathlib import Path

import pypdf
import pytest

from tests.cli.conftest import Typed

TIDE_RING = ("sheet", "149", "--head", "examples/bench-head.toml", "--work", "line", "--rim", "150mm")


def test_a_pdf_for_the_clipboard(typed: Typed, tmp_path: Path) -> None:
    out = tmp_path / "tide-ring.pdf"
    ran = typed(*TIDE_RING, "--title", "Tide ring", "--out", str(out))
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines()[0] == f"{out}: Tide ring"
    assert '±44.7"' in ran.out
    pages = pypdf.PdfReader(out).pages
    assert pages[0].mediabox.height == pytest.approx(297 / 25.4 * 72, abs=0.01)
    assert "Tide ring" in pages[0].extract_text()


def test_letter_paper(typed: Typed, tmp_path: Path) -> None:
    out = tmp_path / "tide-ring.pdf"
    assert typed(*TIDE_RING, "--paper", "Letter", "--out", str(out)).code == 0
    assert pypdf.PdfReader(out).pages[0].mediabox[2:] == [612, 792]


def test_a_table(typed: Typed, tmp_path: Path) -> None:
    out = tmp_path / "run.csv"
    assert typed(*TIDE_RING, "--out", str(out)).code == 0
    rows = list(csv.DictReader(io.StringIO(out.read_bytes().decode("utf-8-sig"), newline="")))
    assert len(rows) == 150
    assert rows[89]["whole turns since zero"] == "43"
    assert rows[89]["dial reading (marks)"] == "0.5"
    assert rows[89]["job"] == "149 lines on the Bench head"


def test_as_json_it_says_what_was_written(typed: Typed, tmp_path: Path) -> None:
    out = tmp_path / "run.html"
    ran = typed(*TIDE_RING, "--out", str(out), "--json")
    found = json.loads(ran.out)
    assert found["way"].pop("worst_error_arcsec") == pytest.approx(44.698, abs=0.001)
    assert found["way"]["method"] == found["way"]["key"] == "dial"
    expected = {
        "format": 1,
        "out": str(out),
        "form": "html",
        "paper": None,
        "positions": 149,
        "wall": False,
        "near": False,
    }
    assert {name: found[name] for name in expected} == expected
    assert found["bytes"] == out.stat().st_size
    assert [one["name"] for one in found["passes"]] == ["work"]


def test_the_passes_that_are_asked_for_have_their_ticks(typed: Typed, tmp_path: Path) -> None:
    out = tmp_path / "tide-ring.pdf"
    passes = ("--trace", "--cuts", "two", "--rough-depth", "0.1mm", "--finish-depth", "0.15mm")
    ran = typed(*TIDE_RING, *passes, "--out", str(out), "--json")
    assert (ran.code, ran.err) == (0, "")
    assert [(one["name"], one["depth_mm"], one["positions"]) for one in json.loads(ran.out)["passes"]] == [
        ("trace", None, 149),
        ("rough", "0.1", 149),
        ("finish", "0.15", 149),
    ]
    first = " ".join(pypdf.PdfReader(out).pages[0].extract_text().split())
    assert "Passes 1 trace; 2 roughing, 0.10 mm deep; 3 finishing, 0.15 mm deep" in first
    assert "trace rough finish position" in first


def test_long_lines_first_is_a_list_for_each_length(typed: Typed, tmp_path: Path) -> None:
    out = tmp_path / "tide-ring.html"
    assert typed(*TIDE_RING, "--order", "lengths", "--lengths", "12", "--out", str(out)).code == 0
    page = out.read_text(encoding="utf-8")
    assert "<h2>Every 12th, pass 1 of 2: 13 lines</h2>" in page
    assert "<h2>All but every 12th, pass 2 of 2: 136 lines</h2>" in page


def test_the_form_for_the_wall(typed: Typed, tmp_path: Path) -> None:
    out = tmp_path / "wall.pdf"
    ran = typed(*TIDE_RING, "--wall", "--paper", "letter", "--out", str(out), "--json")
    assert (json.loads(ran.out)["wall"], json.loads(ran.out)["near"]) == (True, False)
    pages = pypdf.PdfReader(out).pages
    assert pages[0].mediabox[2:] == [792, 612]
    assert "to be read from 1.9 m" in pages[0].extract_text()


def test_the_way_that_is_named_is_the_one_on_the_sheet(typed: Typed, tmp_path: Path) -> None:
    out = tmp_path / "run.csv"
    ran = typed(
        "sheet", "127", "--head", "examples/plate-head.toml", "--way", "nearest-hole", "--out", str(out)
    )
    assert ran.code == 0
    assert "Nearest hole of one circle" in out.read_text(encoding="utf-8")


def test_a_list_of_angles(typed: Typed, tmp_path: Path) -> None:
    out = tmp_path / "holes.html"
    ran = typed(
        "sheet", "--angles", "0, 12.5, 30d15m", "--head", "examples/bench-head.toml", "--out", str(out)
    )
    assert ran.code == 0
    assert "3 positions at a list of angles" in out.read_text(encoding="utf-8")


def test_when_no_way_is_within_the_tolerance_nothing_is_written(typed: Typed, tmp_path: Path) -> None:
    out = tmp_path / "run.pdf"
    ran = typed(*TIDE_RING, "--within", "10arcsec", "--out", str(out))
    assert (ran.code, ran.out) == (1, "")
    assert ran.err.startswith('crankwise: no way within 10.0"; the nearest is dial, nearest reading')
    assert ran.err.endswith("; nothing was written\n")
    assert not out.exists()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (
            ("--out", "run.doc"),
            "run.doc: the ending .doc is no form of a sheet; end it in .pdf, .html, .xlsx or .csv",
        ),
        (
            ("--out", "run.pdf", "--way", "plain"),
            "way: 'plain' is none of the ways to divide this; there are,",
        ),
        (("--out", "run.pdf", "--paper", "A5"), "paper: 'A5'; a sheet is laid out for A4 or letter"),
        (("--out", "run.pdf", "--work", "teeth"), "work: 'teeth'; what is made at each position is one of"),
        (
            ("--out", "run.pdf", "--near"),
            "--near: goes with the form for the wall; type --wall --near",
        ),
        (
            ("--out", "run.csv", "--wall"),
            "wall: the form for the wall is a PDF, not CSV; end the file in .pdf",
        ),
        (("--out", "run.pdf", "--order", "spread"), "circuits: ''; a whole number from 2 to 100"),
        (("--out", "run.pdf", "--cuts", "three"), "cuts: 'three'; cuts are one of one, two"),
        (("--out", "run.pdf", "--circuits", "3"), "circuits: given, but the order is not spread"),
        (("--out", "no/such/run.pdf"), "no/such/run.pdf: the folder 'no/such' is not there"),
        ((), "--out: missing"),
    ],
)
def test_what_is_typed_wrong_is_told_in_one_sentence(typed: Typed, words: tuple[str, ...], says: str) -> None:
    ran = typed(*TIDE_RING, *words)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith(f"crankwise: {says}")
    assert ran.err.count("\n") == 1


def test_a_folder_is_no_place_to_write(typed: Typed, tmp_path: Path) -> None:
    (tmp_path / "run.pdf").mkdir()
    ran = typed(*TIDE_RING, "--out", str(tmp_path / "run.pdf"))
    assert ran.code == 2
    assert "this is a folder" in ran.err
