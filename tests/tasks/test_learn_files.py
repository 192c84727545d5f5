"""Learning from files: each part is named by its readings, and so is what is wrong with it."""

from pathlib import Path

import pytest

from crankwise.errors import BadDivisions, BadFile, BadNumber, FaultsFound
from crankwise.tasks.learn_files import learn_from_files
from tests.house.tracked import HOUSE

HEAD = str(HOUSE / "examples/bench-head.toml")
JOB = str(HOUSE / "examples/jobs/wheel-127.toml")
NAMES = ("wheel-pitches.csv", *(f"wheel-pitches-{number}.csv" for number in range(2, 6)))
PARTS = [(JOB, str(HOUSE / "examples" / name)) for name in NAMES]


def test_parts_go_by_the_names_of_their_readings() -> None:
    found = learn_from_files(HEAD, PARTS)
    assert tuple(part.name for part in found.used) == NAMES
    assert (found.head.name, found.left_out, found.source) == ("Bench head", (), "5 measured parts")
    assert found.lesson.learned


def test_a_piece_that_was_measured_twice_counts_once() -> None:
    first, second, *others = PARTS
    found = learn_from_files(HEAD, [(*first, "1"), (*second, "1"), *others])
    assert (found.lesson.parts, found.source) == (4, "4 measured parts (5 measurements)")
    copied = learn_from_files(HEAD, [*PARTS, PARTS[0]])
    assert copied.lesson.parts == 5
    ((_, why),) = copied.left_out
    assert why == "the very readings of wheel-pitches.csv: one part, counted once"


def test_a_part_of_sizes_only_is_left_out_with_the_reason(tmp_path: Path) -> None:
    spans = tmp_path / "spans.csv"
    spans.write_text("size_mm\n44.57\n44.56\n44.55\n", encoding="utf-8")
    found = learn_from_files(HEAD, [*PARTS[:3], (JOB, str(spans))])
    ((part, why),) = found.left_out
    assert part.name == "spans.csv"
    assert why == "a size was measured, and that says nothing of the dividing"


def test_what_is_wrong_names_the_file_of_readings(tmp_path: Path) -> None:
    short = tmp_path / "short.csv"
    short.write_text("1\n2\n3\n", encoding="utf-8")
    with pytest.raises(BadDivisions, match=r"/short\.csv: 3 readings, and the gear has 127 teeth"):
        learn_from_files(HEAD, [*PARTS, (JOB, str(short))])
    short.write_text("1\nx\n", encoding="utf-8")
    with pytest.raises(FaultsFound, match=r"pitch_um \(short\.csv, line 2\)"):
        learn_from_files(HEAD, [(JOB, str(short))])


def test_a_column_and_a_file_that_are_not_there_are_refused(tmp_path: Path) -> None:
    with pytest.raises(BadNumber, match="measured: 'teeth'; one of pitch_um"):
        learn_from_files(HEAD, PARTS, "teeth")
    with pytest.raises(BadFile, match=r"none\.csv"):
        learn_from_files(HEAD, [(JOB, str(tmp_path / "none.csv"))])
