from fractions import Fraction
from pathlib import Path

import pytest

from crankwise.tasks.divide import read_within
from crankwise.tasks.workshop import Asked, Workshop, open_workshop
from crankwise.ways.ranking import is_within
from crankwise.ways.way import Setting
from tests.gear import BENCH_HEAD


def heads_of(workshop: Workshop) -> list[tuple[str, bool]]:
    return [(kept.head.name, kept.is_demo) for kept in workshop.heads()]


@pytest.fixture
def folder(tmp_path: Path) -> str:
    return str(tmp_path)


def test_it_is_the_slipway_shed(folder: str) -> None:
    with open_workshop(folder, demo=True) as workshop:
        assert workshop.has_demo
        assert heads_of(workshop) == [
            ("Bench head", True),
            ("Plate head", True),
            ("Round table", True),
            ("Bull wheel", True),
            ("Bench head, measured", True),
            ("Mill table", True),
        ]
        assert [kept.head.ratio for kept in workshop.heads()[:5]] == [72, 40, 90, None, 72]
        measured, table = workshop.heads()[4:]
        assert len(measured.head.calibrations) == 1
        assert table.head.slide is not None
        jobs = workshop.jobs()
    assert all(job.is_demo for job in jobs)
    assert [len(job.plan.part.divisions) for job in jobs] == [149, 251, 127, 59, 12, 5, 127, 60]
    works = ["line", "space", "space", "line", "hole", "hole", "space", "space"]
    assert [job.plan.part.work for job in jobs] == works
    assert [job.plan.way.corrects for job in jobs] == [False] * 6 + [True, False]


def test_every_job_of_it_is_within_its_tolerance(folder: str) -> None:
    """So that a newcomer first meets answers that are yes."""
    with open_workshop(folder, demo=True) as workshop:
        asked = [job for job in workshop.jobs() if job.asked.within]
        assert asked
        for job in asked:
            tolerance = read_within(job.plan.part, job.asked.within)
            assert is_within(job.plan.way, tolerance), job.name


def test_the_power_went_at_177_of_251(folder: str) -> None:
    with open_workshop(folder, demo=True) as workshop:
        (run_id,) = (run_id for job in workshop.jobs() for run_id in job.run_ids)
        run = workshop.run(run_id)
        assert run.is_demo
        assert run.guide.done == 177
        assert len(run.plan.part.divisions) == 251
        assert run.guide.row is not None
        # 177/251 of 72 turns is 50.7729 turns: 50 turns and 77.29 marks, set to 77.5.
        assert run.guide.row.reached.setting == Setting(50, Fraction("77.5"))
        assert run.state.last_at == 1_773_521_520.0
        assert len(workshop.journal(run_id)) == 178


def test_it_is_loaded_once(folder: str) -> None:
    for _ in range(2):
        with open_workshop(folder, demo=True) as workshop:
            assert len(workshop.heads()) == 6


def test_it_is_loaded_only_when_asked(folder: str) -> None:
    with open_workshop(folder) as workshop:
        assert not workshop.has_demo
        assert workshop.heads() == ()


def test_it_is_removed_in_one_call_and_stays_away(folder: str) -> None:
    with open_workshop(folder, demo=True) as workshop:
        workshop.drop_demo()
        assert not workshop.has_demo
        assert (workshop.heads(), workshop.jobs()) == ((), ())
    with open_workshop(folder, demo=True) as workshop:
        assert (workshop.heads(), workshop.jobs()) == ((), ())


def test_removing_it_leaves_what_is_ones_own(folder: str) -> None:
    with open_workshop(folder, demo=True) as workshop:
        bench_head = workshop.heads()[0].id
        own = workshop.keep_head(BENCH_HEAD)
        job = workshop.new_job(bench_head, Asked(count="127"))
        run = workshop.begin_run(job.id)
        workshop.drop_demo()
        assert workshop.heads() == (own,)
        assert [kept.id for kept in workshop.jobs()] == [job.id]
        assert workshop.run(run.id).rows == run.rows


def test_a_head_of_it_that_was_edited_is_ones_own(folder: str) -> None:
    with open_workshop(folder, demo=True) as workshop:
        edited = workshop.keep_head(BENCH_HEAD.replace("72", "60"), workshop.heads()[0].id)
        workshop.drop_demo()
        assert workshop.heads() == (edited,)


def test_a_workshop_that_is_not_empty_does_not_get_it(folder: str) -> None:
    with open_workshop(folder) as workshop:
        workshop.keep_head(BENCH_HEAD)
    with open_workshop(folder, demo=True) as workshop:
        assert heads_of(workshop) == [("Bench head", False)]


def test_half_of_it_is_never_loaded(folder: str, monkeypatch: pytest.MonkeyPatch) -> None:
    with monkeypatch.context() as patch:
        patch.setattr("crankwise.tasks.demo.runs.add_run", lambda *_: 1 // 0)
        with pytest.raises(ZeroDivisionError):
            open_workshop(folder, demo=True)
    with open_workshop(folder) as workshop:
        assert workshop.heads() == ()
    with open_workshop(folder, demo=True) as workshop:
        assert len(workshop.heads()) == 6
