"""Measured parts are kept with their job, outlive a backup, and go with their job alone."""

from dataclasses import replace
from pathlib import Path

import pytest

from crankwise.errors import UnknownThing
from crankwise.store.kept import TypedMeasurement
from crankwise.tasks.workshop import Asked, Workshop, open_workshop
from tests.gear import BENCH_HEAD, PLATE_HEAD

TYPED = TypedMeasurement("pitch_um", "1,5\n-2\n0\n<b>", rim="100mm")


def with_a_job(folder: Path) -> tuple[Workshop, int, int]:
    workshop = open_workshop(str(folder))
    head_id = workshop.keep_head(BENCH_HEAD).id
    return workshop, head_id, workshop.new_job(head_id, Asked(count="4")).id


def test_a_measurement_is_kept_with_the_plan_of_its_run(tmp_path: Path) -> None:
    workshop, head_id, job_id = with_a_job(tmp_path)
    with workshop:
        run = workshop.begin_run(job_id)
        workshop.keep_head(PLATE_HEAD, head_id)
        kept = workshop.keep_measurement(job_id, TYPED, "2026-03-14", run.id, "brass \N{WRENCH}")
        assert workshop.measurements(job_id) == (kept,)
        assert workshop.measurements_on(head_id) == (kept,)
        assert (kept.typed, kept.date, kept.note, kept.run_id) == (
            TYPED,
            "2026-03-14",
            "brass \N{WRENCH}",
            run.id,
        )
        assert kept.plan == run.plan
        another = workshop.keep_measurement(job_id, replace(TYPED, of="span"), "2026-03-15")
        assert [one.id for one in workshop.measurements(job_id)] == [kept.id, another.id]
        workshop.drop_measurement(kept.id)
        assert workshop.measurements(job_id) == (another,)
        with pytest.raises(UnknownThing, match=f"measurement {kept.id}: there is no such one"):
            workshop.measurement(kept.id)


def test_the_very_same_is_kept_once(tmp_path: Path) -> None:
    workshop, _, job_id = with_a_job(tmp_path)
    with workshop:
        run = workshop.begin_run(job_id)
        for made_by in (None, run.id):
            kept = workshop.keep_measurement(job_id, TYPED, "2026-03-14", made_by)
            assert workshop.keep_measurement(job_id, TYPED, "2026-03-14", made_by) == kept
        assert len(workshop.measurements(job_id)) == 2
        workshop.keep_measurement(job_id, TYPED, "2026-03-14", note="the other face")
        assert len(workshop.measurements(job_id)) == 3


def test_which_piece_it_is_can_be_said_later(tmp_path: Path) -> None:
    workshop, _, job_id = with_a_job(tmp_path)
    with workshop:
        kept = workshop.keep_measurement(job_id, TYPED, "2026-03-14")
        workshop.say_piece(kept.id, "3")
        assert workshop.measurement(kept.id) == replace(kept, typed=replace(TYPED, piece="3"))
        workshop.say_piece(kept.id, "")
        assert workshop.keep_measurement(job_id, TYPED, "2026-03-14") == kept
        with pytest.raises(UnknownThing, match="measurement 99: there is no such one"):
            workshop.say_piece(99, "3")


def test_a_piece_is_said_without_finding_the_way_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """That can take a while, and a tap would have to wait for the store."""
    workshop, _, job_id = with_a_job(tmp_path)
    with workshop:
        kept = workshop.keep_measurement(job_id, TYPED, "2026-03-14")
        with monkeypatch.context() as slow:
            slow.delattr("crankwise.store.measurements.read_plan")
            workshop.say_piece(kept.id, "3")
        assert workshop.measurement(kept.id).typed.piece == "3"


def test_it_goes_with_its_job_and_outlives_its_head(tmp_path: Path) -> None:
    workshop, head_id, job_id = with_a_job(tmp_path)
    with workshop:
        kept = workshop.keep_measurement(job_id, TYPED, "2026-03-14")
        workshop.drop_head(head_id)
        assert workshop.measurement(kept.id) == kept
        assert workshop.measurements_on(head_id) == ()
        workshop.drop_job(job_id)
        with pytest.raises(UnknownThing):
            workshop.measurement(kept.id)


def test_a_run_of_another_job_did_not_make_it(tmp_path: Path) -> None:
    workshop, head_id, job_id = with_a_job(tmp_path)
    with workshop:
        other = workshop.begin_run(workshop.new_job(head_id, Asked(count="5")).id)
        with pytest.raises(UnknownThing, match=f"run {other.id}: it is no run of this job"):
            workshop.keep_measurement(job_id, TYPED, "2026-03-14", other.id)
        with pytest.raises(UnknownThing, match="job 77"):
            workshop.keep_measurement(77, TYPED, "2026-03-14")
        assert workshop.measurements(job_id) == ()


def test_a_backup_carries_it(tmp_path: Path) -> None:
    workshop, _, job_id = with_a_job(tmp_path)
    with workshop:
        kept = workshop.keep_measurement(job_id, TYPED, "2026-03-14")
        workshop.backup(str(tmp_path / "copy.sqlite"))
    with open_workshop(str(tmp_path / "copy.sqlite")) as copy:
        assert copy.measurements(job_id) == (kept,)
