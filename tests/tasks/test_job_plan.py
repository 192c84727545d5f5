"""A job of any kind of part is kept, planned, and found again as it was."""

from pathlib import Path

import pytest

from crankwise.errors import FaultsFound, UnknownThing
from crankwise.files.job_toml import Job, asked_part
from crankwise.tasks.job_plan import asked_of, job_made, job_of
from crankwise.tasks.workshop import Asked, open_workshop
from tests.gear import BENCH_HEAD
from tests.house.tracked import HOUSE

RING = Job(
    asked_part(
        "graduated",
        {"period": "12h25m", "per_line": "5m", "across": "150mm", "face": "14mm", "no_numerals": True},
    ),
    within="1arcmin",
)


def test_what_was_asked_and_what_is_kept_tell_the_same() -> None:
    for job in (RING, Job(asked_part("divisions", {"count": "12", "every": "3"}), rim="8in", work="line")):
        assert job_of(asked_of(job)) == job
    assert asked_of(job) == Asked(count="12", every="3", rim="8in", work="line")


def test_a_part_is_kept_with_its_marks_and_outlives_the_workshop(tmp_path: Path) -> None:
    path = str(tmp_path / "workshop.sqlite")
    with open_workshop(path) as workshop:
        head = workshop.keep_head(BENCH_HEAD)
        job = workshop.new_job(head.id, asked_of(RING))
        run = workshop.begin_run(job.id)
    with open_workshop(path) as workshop:
        again = workshop.job(job.id)
        assert again == workshop.job(job.id)
        assert again.name == "149 equal lines on a flat ring"
        assert again.asked == asked_of(RING)
        assert job_of(again.asked) == RING
        assert again.plan.part == job_made(again.asked).part
        assert again.plan.part.marks[12].line_class == "long"
        assert workshop.run(run.id).plan.part.marks == again.plan.part.marks
        assert workshop.rename_job(job.id, "").name == "149 equal lines on a flat ring"


def test_a_job_without_a_part_is_as_it_always_was(tmp_path: Path) -> None:
    with open_workshop(str(tmp_path / "workshop.sqlite")) as workshop:
        head = workshop.keep_head(BENCH_HEAD)
        job = workshop.new_job(head.id, Asked(count="127"))
        assert (job.name, job.asked.part) == ("127 divisions on Bench head", "")


def test_a_way_that_the_work_leaves_out_cannot_be_chosen(tmp_path: Path) -> None:
    head_text = (HOUSE / "examples/plate-head.toml").read_text(encoding="utf-8")
    typed = {"teeth": "127", "module": "1"}
    with open_workshop(str(tmp_path / "workshop.sqlite")) as workshop:
        head = workshop.keep_head(head_text)
        spur = workshop.new_job(head.id, asked_of(Job(asked_part("spur", typed))))
        helical = asked_of(Job(asked_part("helical", typed | {"helix": "30"})))
        assert spur.plan.way.method == "differential"
        job = workshop.new_job(head.id, helical)
        assert job.plan.way.method == "nearest-hole"
        with pytest.raises(UnknownThing, match="no such way to divide this part"):
            workshop.choose_way(job.id, spur.plan.way.key)
        with pytest.raises(UnknownThing, match="no such way to divide this part"):
            workshop.new_job(head.id, helical, way_key=spur.plan.way.key)


def test_a_kept_job_opens_no_file() -> None:
    part = asked_part("spur", {"teeth": "20", "module": "1", "cutters": "/etc/hosts"})
    with pytest.raises(FaultsFound, match=r"part\.cutters: the path of a file"):
        job_made(asked_of(Job(part)))
