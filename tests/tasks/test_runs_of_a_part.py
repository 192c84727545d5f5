"""A hole plate as its jobs: all made at once, known by their numbers, led through in order."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from crankwise.errors import BadDivisions
from crankwise.files.job_toml import Job, asked_part
from crankwise.run.journal import Entry
from crankwise.tasks.job_plan import asked_of
from crankwise.tasks.runs_of_a_part import every_run, keep_every_run, next_run, together
from crankwise.tasks.workshop import Asked, KeptJob, Workshop, open_workshop
from tests.gear import BENCH_HEAD, BULL_WHEEL

PLATE = Job(asked_part("holes", {"plate": "6,8,9", "circle": "80mm", "hole": "3mm", "apart": "8mm"}))
SPLINES = Job(asked_part("splines", {"size": "6x23x26"}), name="Winding square")
NOON = 1_770_000_000.0


@pytest.fixture
def workshop(tmp_path: Path) -> Iterator[Workshop]:
    with open_workshop(str(tmp_path / "workshop.sqlite")) as workshop:
        yield workshop


@pytest.fixture
def plate(workshop: Workshop) -> tuple[KeptJob, ...]:
    return keep_every_run(workshop, workshop.keep_head(BENCH_HEAD).id, PLATE)


def finished(workshop: Workshop, job: KeptJob) -> KeptJob:
    """Run a job to its end, and return it as it then is kept."""
    run = workshop.begin_run(job.id)
    workshop.tap(run.id, Entry("began", "b", NOON, numbers_grow=True))
    for row in run.rows:
        workshop.tap(run.id, Entry("done", f"d-{row.index}", NOON, row.index))
    return workshop.job(job.id)


def test_a_plate_is_a_job_a_circle_the_most_holes_first(plate: tuple[KeptJob, ...]) -> None:
    assert [len(job.plan.part.divisions) for job in plate] == [9, 8, 6]
    assert [job.name.partition(":")[0] for job in plate] == [
        "Circle 1 (9 holes)",
        "Circle 2 (8 holes)",
        "Circle 3 (6 holes)",
    ]


def test_a_name_that_was_typed_is_said_of_which_run() -> None:
    assert [one.name for one in every_run(SPLINES)] == ["Winding square, keys", "Winding square, floors"]


def test_a_job_that_says_which_is_that_one_alone() -> None:
    second = replace(PLATE, part=asked_part("holes", PLATE.part.values | {"which": "2"}))
    assert every_run(second) == (second,)
    spur = Job(asked_part("spur", {"teeth": "40", "module": "1"}))
    assert every_run(spur) == (spur,)


def test_a_wheel_and_its_pinion_are_two_pieces_of_work() -> None:
    wheel = Job(asked_part("clock-wheel", {"teeth": "60", "pinion": "8", "module": "0.5"}))
    assert every_run(wheel) == (wheel,)


def test_each_of_them_knows_all_and_what_is_set_for_each(
    workshop: Workshop, plate: tuple[KeptJob, ...]
) -> None:
    for job in plate:
        found = together(workshop, job)
        assert [one.job.id for one in found] == [one.id for one in plate]
        assert [one.number for one in found] == [1, 2, 3]
    assert [one.sets[0].partition(";")[0] for one in together(workshop, plate[0])] == [
        "circle 1 (9 holes): offset from the centre: 40.000 mm (1.5748 in)",
        "circle 2 (8 holes): offset from the centre: 32.000 mm (1.2598 in)",
        "circle 3 (6 holes): offset from the centre: 24.000 mm (0.9449 in)",
    ]
    assert (
        together(workshop, plate[0], inch_first=True)[0]
        .sets[0]
        .startswith("circle 1 (9 holes): offset from the centre: 1.5748 in (40.000 mm)")
    )


def test_two_plates_alike_are_told_apart(workshop: Workshop, plate: tuple[KeptJob, ...]) -> None:
    other = keep_every_run(workshop, workshop.heads()[0].id, PLATE)
    assert {one.job.id for one in together(workshop, plate[2])} == {job.id for job in plate}
    assert {one.job.id for one in together(workshop, other[0])} == {job.id for job in other}


def test_neighbours_that_are_no_part_of_it_are_left_out(workshop: Workshop) -> None:
    head_id = workshop.keep_head(BENCH_HEAD).id
    workshop.new_job(head_id, Asked(count="7"))
    alone = replace(PLATE, part=asked_part("holes", PLATE.part.values | {"which": "2"}))
    job = workshop.new_job(head_id, asked_of(alone))
    workshop.new_job(head_id, asked_of(alone))
    assert together(workshop, job) == ()


def test_a_circle_whose_job_was_dropped_is_left_out(workshop: Workshop, plate: tuple[KeptJob, ...]) -> None:
    workshop.drop_job(plate[1].id)
    assert [one.number for one in together(workshop, plate[0])] == [1, 3]


def test_jobs_kept_before_they_said_which_are_found_too(workshop: Workshop) -> None:
    head_id = workshop.keep_head(BENCH_HEAD).id
    first = workshop.new_job(head_id, asked_of(PLATE))
    second = replace(PLATE, part=asked_part("holes", PLATE.part.values | {"which": "2"}))
    workshop.new_job(head_id, asked_of(second))
    assert [one.number for one in together(workshop, first)] == [1, 2]


def test_it_goes_on_with_the_next_that_is_not_done_and_then_with_what_was_left(
    workshop: Workshop, plate: tuple[KeptJob, ...]
) -> None:
    runs = together(workshop, finished(workshop, plate[1]))
    assert [one.is_finished for one in runs] == [False, True, False]
    assert next_run(runs, plate[1].id) == runs[2]
    runs = together(workshop, finished(workshop, plate[2]))
    assert next_run(runs, plate[2].id) == runs[0]
    assert next_run(together(workshop, finished(workshop, plate[0])), plate[0].id) is None


def test_none_is_kept_where_the_head_cannot_make_one_of_them(workshop: Workshop) -> None:
    head_id = workshop.keep_head(BULL_WHEEL).id
    with pytest.raises(BadDivisions, match="9 parts are no whole number of notches"):
        keep_every_run(workshop, head_id, PLATE)
    assert workshop.jobs() == ()
