"""Making a sheet and writing it: the form from the ending, whole or not at all."""

import errno
import os
from pathlib import Path

import pytest

from crankwise.errors import BadDivisions, BadFile, UnknownThing
from crankwise.tasks.divide import asked_part, divide
from crankwise.tasks.sheet import (
    Form,
    chosen_way,
    form_of,
    read_paper,
    read_work,
    sheet_bytes,
    title_for,
    write_sheet,
)
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, head
from tests.sheets.plans import plan, tide_ring

BEGINS = {"pdf": b"%PDF-", "html": b"<!doctype html>", "csv": b"\xef\xbb\xbfposition,"}


@pytest.mark.parametrize("form", BEGINS)
def test_the_ending_says_the_form_in_capitals_or_not(form: str, tmp_path: Path) -> None:
    for ending in (form, form.upper()):
        path = tmp_path / f"run.{ending}"
        written = write_sheet(tide_ring(), "Tide ring", str(path))
        assert written.form == form
        assert path.read_bytes().startswith(BEGINS[form])
        assert path.stat().st_size == written.size
        assert written.paper == ("A4" if form == "pdf" else None)


@pytest.mark.parametrize(
    ("path", "found"),
    [
        (
            "run.xls",
            r"run\.xls: the ending \.xls is no form of a sheet; end it in \.pdf, \.html, \.xlsx or \.csv",
        ),
        ("run", "run: a name without an ending is no form of a sheet"),
        (".pdf", r"\.pdf: a name without an ending is no form"),
        ("", "a name without an ending"),
    ],
)
def test_any_other_ending_is_refused(path: str, found: str) -> None:
    with pytest.raises(BadFile, match=found):
        form_of(path)


def test_a_full_disk_leaves_the_old_sheet_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "run.csv"
    path.write_text("the old sheet")

    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(BadFile, match="cannot be written: No space left on device"):
        write_sheet(tide_ring(), "Tide ring", str(path))
    assert path.read_text() == "the old sheet"
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize(("form", "most"), [("pdf", 20_000), ("html", 20_000), ("csv", 200_000)])
def test_a_sheet_that_no_clipboard_could_hold_is_refused(form: Form, most: int) -> None:
    many = plan(BENCH_HEAD, "dial", str(most + 1))
    with pytest.raises(
        BadDivisions, match=rf"{most + 1:,} positions; a {form.upper()} sheet holds {most:,} at most"
    ):
        sheet_bytes(many, "", form)


def test_the_best_way_is_taken_or_the_one_that_is_named() -> None:
    division = divide(head(PLATE_HEAD), asked_part("48"))
    assert chosen_way(division, None) is division.ways[0]
    last = division.ways[-1]
    assert chosen_way(division, last.key) is last
    named = chosen_way(division, "nearest-hole")
    assert named is next(way for way in division.ways if way.method == "nearest-hole")


def test_a_way_that_there_is_not_earns_the_list_of_those_there_are() -> None:
    division = divide(head(BENCH_HEAD), asked_part("149"))
    with pytest.raises(UnknownThing, match=r"way: 'plain' is none of .* the best first: dial, "):
        chosen_way(division, "plain")


def test_a_long_list_of_ways_is_cut_short() -> None:
    division = divide(head(PLATE_HEAD), asked_part("127"))
    with pytest.raises(UnknownThing, match=rf" and {len(division.ways) - 12} more$"):
        chosen_way(division, "dial")


def test_no_way_within_the_tolerance_is_an_answer_even_for_the_one_named() -> None:
    division = divide(head(BENCH_HEAD), asked_part("149"), "10arcsec")
    assert chosen_way(division, None) is None
    assert chosen_way(division, "dial") is None


def test_no_way_at_all_is_an_answer_too() -> None:
    assert chosen_way(divide(head(BULL_WHEEL), asked_part("7")), "direct") is None


def test_paper_and_work_are_read_in_capitals_or_not() -> None:
    assert (read_paper("a4"), read_paper(" Letter ")) == ("A4", "letter")
    assert read_work("Line") == "line"


def test_another_paper_or_work_is_refused() -> None:
    with pytest.raises(UnknownThing, match="paper: 'A5'; a sheet is laid out for A4 or letter"):
        read_paper("A5")
    with pytest.raises(
        UnknownThing, match="work: 'teeth'; what is made at each position is one of space, line,"
    ):
        read_work("teeth")


def test_a_job_without_a_name_is_named_after_its_work_and_head() -> None:
    assert title_for(asked_part("149", work="line"), "Bench head") == "149 lines on the Bench head"
