"""Which measurements are of one part: by piece, else by run, else nobody knows."""

from crankwise.part.divisions import EqualDivisions
from crankwise.store.kept import KeptMeasurement, TypedMeasurement
from crankwise.tasks.same_part import parts_of, usual_choice
from tests.tasks.plans import plan_of

PLAN = plan_of(EqualDivisions(50))


def kept(
    number: int, run: int | None = None, piece: str = "", date: str = "2026-03-14", job: int = 1
) -> KeptMeasurement:
    return KeptMeasurement(number, job, run, PLAN, TypedMeasurement("pitch_um", "1", piece=piece), date, "")


def test_pieces_and_runs_tell_parts_apart() -> None:
    parts = parts_of([kept(1, piece="2"), kept(2, piece=" 2 "), kept(3, piece="3"), kept(4, 7), kept(5, 8)])
    assert parts[1] == parts[2]
    assert len(set(parts.values())) == 4


def test_a_run_and_its_piece_are_one_part() -> None:
    parts = parts_of([kept(1, 7), kept(2, 7, "B"), kept(3, piece="b")])
    assert len(set(parts.values())) == 1


def test_a_stack_cut_in_one_run_is_told_by_its_pieces_alone() -> None:
    parts = parts_of([kept(1, 7, "1"), kept(2, 7, "2"), kept(3, 7)])
    assert parts[1] != parts[2]
    assert parts[3] == ""


def test_where_nothing_is_said_all_of_one_job_are_one_part() -> None:
    assert len(set(parts_of([kept(1), kept(2), kept(3, job=2)]).values())) == 2
    assert parts_of([kept(1), kept(2, 7)])[1] == ""


def test_of_each_part_the_latest_counts() -> None:
    measured = [
        kept(1, piece="1", date="2026-03-20"),
        kept(2, piece="1", date="2026-03-02"),
        kept(3),
        kept(4, 5),
    ]
    assert usual_choice(measured) == {1, 4}
    assert usual_choice([kept(1), kept(2)]) == {2}
    assert usual_choice([]) == set()
