"""A part measured from files: with its job and without, and the report that is kept with it."""

from pathlib import Path

import pytest

from crankwise.errors import BadDivisions, BadFile, BadNumber, UnknownThing
from crankwise.tasks.job_file import load_job
from crankwise.tasks.measure_part import measured_part, measured_part_answer, plan_of, read_date, write_report
from tests.house.tracked import HOUSE

JOB = str(HOUSE / "examples/jobs/wheel-127.toml")
PITCHES = str(HOUSE / "examples/wheel-pitches.csv")
PLATES = str(HOUSE / "examples/plate-head.toml")


def test_a_job_says_the_part_the_head_and_the_way() -> None:
    answer = measured_part_answer(measured_part(PITCHES, job=JOB))
    assert (answer["part"], answer["head"]) == ("Wheel of 127", "Bench head")
    assert answer["predicted"] is not None
    assert "of" not in answer


def test_another_head_goes_before_the_jobs_own() -> None:
    found = measured_part(PITCHES, job=JOB, head=PLATES)
    assert found.plan is not None
    assert found.plan.head.name == "Plate head"


def test_without_a_job_nothing_is_predicted() -> None:
    found = measured_part(PITCHES, teeth="127", module="1")
    assert (found.plan, found.judged.predicted) == (None, None)
    assert {"part", "head", "way"}.isdisjoint(measured_part_answer(found))


def test_a_line_of_the_card_is_named_in_the_answer(tmp_path: Path) -> None:
    spans = tmp_path / "spans.txt"
    spans.write_text("44.57\n44.56\n", encoding="utf-8")
    found = measured_part(str(spans), job=JOB, column="size_mm", of="SPAN over 15")
    assert measured_part_answer(found)["of"] == "span over 15 teeth"


@pytest.mark.parametrize(
    ("words", "kind", "told"),
    [
        (
            {"of": "span over 15"},
            BadDivisions,
            "of: a line of the measuring card, so name the job too: --job",
        ),
        ({"job": JOB, "teeth": "127"}, BadDivisions, "given beside a job, which says them itself"),
        ({"job": JOB, "column": "chords"}, BadNumber, "measured: 'chords'; one of pitch_um"),
        ({"job": JOB, "way": "by magic"}, UnknownThing, "way: 'by magic' is none of the ways"),
    ],
)
def test_what_does_not_go_together_is_refused(
    words: dict[str, str], kind: type[Exception], told: str
) -> None:
    with pytest.raises(kind, match=told):
        measured_part(PITCHES, **words)


def test_a_job_that_names_no_head_asks_for_one() -> None:
    loaded = load_job(JOB, with_head=False)
    with pytest.raises(BadDivisions, match="head: the job file names none; name it, --head"):
        plan_of(loaded)
    assert plan_of(loaded, PLATES).head.name == "Plate head"


def test_a_report_is_whole_or_not_there(tmp_path: Path) -> None:
    found = measured_part(PITCHES, job=JOB)
    report = tmp_path / "wheel.PDF"
    write_report(found, str(report), "2026-03-14", note="by lamp light")
    assert report.read_bytes().startswith(b"%PDF")
    with pytest.raises(BadFile, match=r"a report is written as PDF; let the name end with \.pdf"):
        write_report(found, str(tmp_path / "wheel.txt"))
    with pytest.raises(BadNumber, match="is no day"):
        write_report(found, str(tmp_path / "other.pdf"), "yesterday")
    assert [path.name for path in tmp_path.iterdir()] == ["wheel.PDF"]


@pytest.mark.parametrize("typed", ["", "14.3.26", "2026-02-30"])
def test_what_is_no_day_is_refused(typed: str) -> None:
    assert read_date(" 2026-03-14 ") == "2026-03-14"
    with pytest.raises(BadNumber, match="is no day; write it as 2026-03-14"):
        read_date(typed)
