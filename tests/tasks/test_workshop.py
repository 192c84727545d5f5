from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from fractions import Fraction
from pathlib import Path

import pytest

from crankwise.errors import BadDivisions, BadTap, FaultsFound, Mendable, StoreTrouble, UnknownThing
from crankwise.head.calibrated import with_calibration, with_in_force
from crankwise.head.known_errors import KnownErrors, TablePoint
from crankwise.run.journal import Entry, Kind
from crankwise.tasks.workshop import Asked, KeptRun, Workshop, open_workshop
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD

ZERO, HALF, ONE = Fraction(0), Fraction(1, 2), Fraction(1)
NOON = 1_770_000_000.0


@pytest.fixture
def workshop(tmp_path: Path) -> Iterator[Workshop]:
    with open_workshop(str(tmp_path / "workshop.sqlite")) as workshop:
        yield workshop


@pytest.fixture
def bench_head(workshop: Workshop) -> int:
    return workshop.keep_head(BENCH_HEAD).id


@pytest.fixture
def run(workshop: Workshop, bench_head: int) -> KeptRun:
    """A run of 7 divisions: 7 rows and the closing one."""
    return workshop.begin_run(workshop.new_job(bench_head, Asked(count="7")).id)


def began(tap: str = "b", seen: int | None = None) -> Entry:
    return Entry("began", tap, NOON, numbers_grow=True, seen=seen)


def entry(kind: Kind, tap: str, row: int | None, seen: int | None = None, at: float = NOON) -> Entry:
    return Entry(kind, tap, at, row, seen=seen)


# Opening


def test_a_folder_may_be_named_instead_of_the_file(tmp_path: Path) -> None:
    with open_workshop(str(tmp_path)) as workshop:
        workshop.keep_head(BENCH_HEAD)
    with open_workshop(str(tmp_path / "workshop.sqlite")) as workshop:
        assert len(workshop.heads()) == 1


def test_without_a_name_it_is_in_the_platforms_place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("crankwise.store.place.data_folder", lambda: tmp_path / "crankwise")
    open_workshop().close()
    assert (tmp_path / "crankwise" / "workshop.sqlite").exists()


# Heads


def test_a_head_is_kept_as_it_was_described(tmp_path: Path) -> None:
    with open_workshop(str(tmp_path)) as workshop:
        kept = workshop.keep_head(PLATE_HEAD)
    with open_workshop(str(tmp_path)) as workshop:
        assert workshop.heads() == (kept,)
        assert workshop.head(kept.id) == kept
    assert kept.head.circles[:3] == (15, 16, 17)
    assert not kept.is_demo


def test_a_head_is_edited_in_its_place(workshop: Workshop, bench_head: int) -> None:
    kept = workshop.keep_head(BENCH_HEAD.replace("72", "60"), bench_head)
    assert kept.id == bench_head
    assert workshop.head(bench_head).head.ratio == 60


def test_a_head_that_is_wrong_changes_nothing(workshop: Workshop, bench_head: int) -> None:
    before = workshop.heads()
    with pytest.raises(FaultsFound, match="0 marks; a dial has 2 or more"):
        workshop.keep_head(BENCH_HEAD.replace("marks = 100", "marks = 0"), bench_head)
    assert workshop.heads() == before


def test_what_is_not_there_is_told(workshop: Workshop) -> None:
    for asks, sentence in (
        (lambda: workshop.head(9), "head 9: there is no such head"),
        (lambda: workshop.keep_head(BENCH_HEAD, 9), "head 9: there is no such head"),
        (lambda: workshop.drop_head(9), "head 9: there is no such head"),
        (lambda: workshop.new_job(9, Asked(count="7")), "head 9: there is no such head"),
        (lambda: workshop.job(9), "job 9: there is no such job"),
        (lambda: workshop.choose_way(9, "dial"), "job 9: there is no such job"),
        (lambda: workshop.rename_job(9, "a"), "job 9: there is no such job"),
        (lambda: workshop.drop_job(9), "job 9: there is no such job"),
        (lambda: workshop.begin_run(9), "job 9: there is no such job"),
        (lambda: workshop.run(9), "run 9: there is no such run"),
        (lambda: workshop.tap(9, began()), "run 9: there is no such run"),
        (lambda: workshop.journal(9), "run 9: there is no such run"),
    ):
        with pytest.raises(UnknownThing, match=sentence):
            asks()


def test_a_number_is_never_given_twice(workshop: Workshop) -> None:
    """A page left open on a dropped head must not come to show another one."""
    first = workshop.keep_head(BENCH_HEAD).id
    workshop.drop_head(first)
    assert workshop.keep_head(PLATE_HEAD).id > first


# Jobs


def test_a_job_keeps_what_was_typed_and_the_best_way(tmp_path: Path) -> None:
    asked = Asked(count="127", rim="200mm", within="30um", work="line")
    with open_workshop(str(tmp_path)) as workshop:
        job = workshop.new_job(workshop.keep_head(BENCH_HEAD).id, asked, "  Ring\n of 127 ")
    with open_workshop(str(tmp_path)) as workshop:
        assert workshop.jobs() == (job,)
        assert workshop.job(job.id) == job
    assert (job.name, job.asked, job.run_ids, job.is_demo) == ("Ring of 127", asked, (), False)
    assert job.plan.way.method == "dial"
    assert job.plan.part.rim_mm == 200
    assert job.plan.part.work == "line"


@pytest.mark.parametrize(
    ("asked", "name"),
    [
        (Asked(count="127"), "127 divisions on Bench head"),
        (Asked(count="1"), "1 division on Bench head"),
        (Asked(count="10", every="5"), "10 divisions on Bench head"),
        (Asked(angles="0, 12.5, 30d15m"), "3 angles on Bench head"),
    ],
)
def test_a_job_without_a_name_gets_a_plain_one(
    workshop: Workshop, bench_head: int, asked: Asked, name: str
) -> None:
    assert workshop.new_job(bench_head, asked).name == name


def test_an_empty_name_brings_back_the_plain_one(workshop: Workshop, bench_head: int) -> None:
    job = workshop.new_job(bench_head, Asked(count="127"), "Moon wheel")
    assert workshop.rename_job(job.id, "Tide wheel").name == "Tide wheel"
    assert workshop.rename_job(job.id, " ").name == "127 divisions on Bench head"


@pytest.mark.parametrize(
    ("asked", "name", "sentence"),
    [
        (Asked(), "", "divisions: nothing given"),
        (Asked(count="0"), "", "divisions: 0; a circle is divided into 1 part or more"),
        (Asked(count="12.5"), "", "divisions: 12.5 is not a whole number"),
        (Asked(count="12", rim="wide"), "", "rim: 'wide'"),
        (Asked(count="12", within="20um"), "", "20um|rim"),
        (
            Asked(count="12", work="tooth"),
            "",
            "work: 'tooth'; what is made at a position is one of space, line",
        ),
        (Asked(count="12"), "x" * 201, "name: 201 characters; 200 at most"),
    ],
)
def test_a_job_that_is_wrong_is_not_kept(
    workshop: Workshop, bench_head: int, asked: Asked, name: str, sentence: str
) -> None:
    with pytest.raises(Mendable, match=sentence):
        workshop.new_job(bench_head, asked, name)
    assert workshop.jobs() == ()


def test_a_head_with_no_way_to_divide_it_is_told(workshop: Workshop) -> None:
    odd = workshop.keep_head(
        'name = "Odd head"\n[worm]\nratio = "1/7"\n[dial]\nmarks = 10\nnumbered_every = 0\n'
    )
    with pytest.raises(BadDivisions, match="Odd head: no way: on no scale of this head does a full circle"):
        workshop.new_job(odd.id, Asked(count="5"))


def test_another_way_can_be_chosen(workshop: Workshop) -> None:
    head_id = workshop.keep_head(PLATE_HEAD).id
    job = workshop.new_job(head_id, Asked(count="60"))
    other = "plain:circle=18:turns=0:holes=12"
    assert job.plan.way.key != other
    assert workshop.choose_way(job.id, other).plan.way.key == other
    assert workshop.job(job.id).plan.way.key == other
    assert workshop.new_job(head_id, Asked(count="60"), way_key=other).plan.way.key == other


def test_a_way_that_is_not_there_is_told(workshop: Workshop, bench_head: int) -> None:
    job = workshop.new_job(bench_head, Asked(count="127"))
    with pytest.raises(
        UnknownThing, match="way 'by the stars': Bench head has no such way to divide this part"
    ):
        workshop.choose_way(job.id, "by the stars")
    assert workshop.job(job.id) == job


def test_a_job_outlives_its_head(workshop: Workshop, bench_head: int) -> None:
    job = workshop.new_job(bench_head, Asked(count="127"))
    workshop.drop_head(bench_head)
    kept = workshop.job(job.id)
    assert kept.head_id is None
    assert kept.plan == job.plan


def test_dropping_a_job_drops_its_runs(workshop: Workshop, run: KeptRun) -> None:
    workshop.tap(run.id, began())
    workshop.drop_job(run.job_id)
    assert workshop.jobs() == ()
    with pytest.raises(UnknownThing, match="there is no such run; it may have been dropped with its job"):
        workshop.run(run.id)


# Runs


def test_a_new_run_asks_for_the_direction(workshop: Workshop, run: KeptRun) -> None:
    assert not run.state.began
    assert run.guide.row is None
    assert (run.guide.done, run.guide.of) == (0, 8)
    assert workshop.job(run.job_id).run_ids == (run.id,)
    assert workshop.run(run.id) == run


def test_a_job_names_its_runs_the_oldest_first(workshop: Workshop, run: KeptRun) -> None:
    later = [workshop.begin_run(run.job_id).id for _ in range(12)]
    assert workshop.job(run.job_id).run_ids == (run.id, *later)


def test_a_run_goes_from_the_first_row_to_the_closing_one(workshop: Workshop, run: KeptRun) -> None:
    shown, counted = workshop.tap(run.id, began(seen=0))
    assert counted
    while shown.guide.row is not None:
        row = shown.guide.row.index
        shown, counted = workshop.tap(run.id, entry("done", f"d{row}", row, shown.state.entries))
        assert counted
    assert shown.state.finished
    assert [one.row for one in workshop.journal(run.id)] == [None, *range(8)]
    assert shown == workshop.run(run.id)


def test_a_repeat_counts_once(workshop: Workshop, run: KeptRun) -> None:
    workshop.tap(run.id, began())
    first, counted = workshop.tap(run.id, entry("done", "t", 0))
    again, counted_again = workshop.tap(run.id, entry("done", "t", 0))
    assert (counted, counted_again) == (True, False)
    assert again == first
    assert len(workshop.journal(run.id)) == 2


def test_a_repeat_does_not_count_even_when_its_row_is_reopened(workshop: Workshop, run: KeptRun) -> None:
    for tap in (began(), entry("done", "t", 0), entry("back", "u", 0)):
        workshop.tap(run.id, tap)
    shown, counted = workshop.tap(run.id, entry("done", "t", 0))
    assert not counted
    assert shown.state.at_row == 0


def test_a_late_tap_never_completes_a_row_that_was_reopened(workshop: Workshop, run: KeptRun) -> None:
    """Two phones show row 0. One does it and reopens it; what the other sent before that arrives only now."""
    for tap in (began(seen=0), entry("done", "mine", 0, 1), entry("back", "oops", 0, 2)):
        assert workshop.tap(run.id, tap)[1]
    shown, counted = workshop.tap(run.id, entry("done", "theirs", 0, 1))
    assert not counted
    assert shown.state.at_row == 0
    assert workshop.tap(run.id, entry("done", "now", 0, shown.state.entries))[1]


def test_taps_that_do_not_count_are_not_written(workshop: Workshop, run: KeptRun) -> None:
    workshop.tap(run.id, entry("done", "early", 0))
    workshop.tap(run.id, began())
    for tap in (entry("done", "far", 5), entry("back", "none", 0), began("again")):
        assert not workshop.tap(run.id, tap)[1]
    assert [one.tap for one in workshop.journal(run.id)] == ["b"]


def test_a_clock_that_jumps_back_does_not_matter(workshop: Workshop, run: KeptRun) -> None:
    workshop.tap(run.id, began())
    for row, at in enumerate((NOON + 60, NOON - 86_400, 0.0, -5.0)):
        assert workshop.tap(run.id, entry("done", f"d{row}", row, at=at))[1]
    assert workshop.run(run.id).state.at_row == 4
    assert workshop.run(run.id).state.last_at == -5.0
    assert [one.at for one in workshop.journal(run.id)] == [NOON, NOON + 60, NOON - 86_400, 0.0, -5.0]


def test_the_journal_gives_back_what_was_tapped(workshop: Workshop, run: KeptRun) -> None:
    taps = (
        Entry("began", "b", NOON + 0.125, numbers_grow=None, seen=0),
        entry("done", "ö 🙂", 0, 1),
        entry("back", "c", 0),
    )
    for tap in taps:
        assert workshop.tap(run.id, tap)[1]
    assert workshop.journal(run.id) == taps


@pytest.mark.parametrize("grows", [True, False, None])
def test_the_direction_test_is_kept(workshop: Workshop, run: KeptRun, grows: bool | None) -> None:
    workshop.tap(run.id, Entry("began", "b", NOON, numbers_grow=grows))
    assert workshop.run(run.id).state.numbers_grow is grows
    assert workshop.journal(run.id)[0].numbers_grow is grows


@pytest.mark.parametrize(
    ("tap", "sentence"),
    [
        (entry("done", "t", 8), "tap: row 8; the rows of this run are 0 to 7"),
        (entry("back", "t", -1), "tap: row -1; the rows of this run are 0 to 7"),
        (entry("done", "t", None), "tap: no row; the rows of this run are 0 to 7"),
        (entry("done", "", 0), "tap: a name of 0 characters"),
        (entry("done", "x" * 101, 0), "tap: a name of 101 characters"),
        (entry("done", "t", 0, at=float("nan")), "tap: the time nan; it is seconds since 1970"),
        (entry("done", "t", 0, at=float("inf")), "tap: the time inf"),
        (entry("skip", "t", 0), "tap: 'skip'; a tap is one of began, done, back"),  # type: ignore[arg-type]
    ],
)
def test_a_tap_that_makes_no_sense_is_told(
    workshop: Workshop, run: KeptRun, tap: Entry, sentence: str
) -> None:
    with pytest.raises(BadTap, match=sentence):
        workshop.tap(run.id, tap)
    assert workshop.journal(run.id) == ()


def test_nothing_moves_under_a_run(workshop: Workshop, bench_head: int, run: KeptRun) -> None:
    workshop.tap(run.id, began())
    before = workshop.run(run.id)
    workshop.keep_head(BENCH_HEAD.replace("marks = 100", "marks = 60"), bench_head)
    job = workshop.job(run.job_id)
    other = "ring:ring=360"
    assert job.plan.way.key != other
    assert workshop.choose_way(run.job_id, other).plan.way.key == other
    workshop.drop_head(bench_head)
    after = workshop.run(run.id)
    assert (after.plan, after.rows, after.state) == (before.plan, before.rows, before.state)


def test_a_run_of_more_rows_than_anybody_makes_is_refused(workshop: Workshop, bench_head: int) -> None:
    job = workshop.new_job(bench_head, Asked(count="20001"))
    with pytest.raises(
        BadDivisions, match=r"a run of 20,001 positions; a run has at most 20,000, so work it in parts"
    ):
        workshop.begin_run(job.id)


def test_a_run_that_this_version_would_set_otherwise_is_not_gone_on_with(
    tmp_path: Path, run: KeptRun, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("crankwise.store.runs.fingerprint_of", lambda plan, passes: "of another version")
    told = "this version of Crankwise would set 'Bench head' otherwise than"
    with open_workshop(str(tmp_path / "workshop.sqlite")) as later:
        with pytest.raises(StoreTrouble, match=told):
            later.tap(run.id, began())
        with pytest.raises(StoreTrouble, match=told):
            later.run(run.id)


def test_two_workshops_on_one_file_see_each_others_taps(tmp_path: Path) -> None:
    with open_workshop(str(tmp_path)) as one, open_workshop(str(tmp_path)) as other:
        job = one.new_job(one.keep_head(BULL_WHEEL).id, Asked(count="12"))
        run = one.begin_run(job.id)
        assert other.tap(run.id, began())[1]
        for row in range(6):
            here, there = (one, other) if row % 2 else (other, one)
            assert here.tap(run.id, entry("done", f"d{row}", row))[1]
            assert there.run(run.id).state.at_row == row + 1
        assert one.run(run.id) == other.run(run.id)


def test_a_backup_holds_every_tap(workshop: Workshop, run: KeptRun, tmp_path: Path) -> None:
    workshop.tap(run.id, began())
    backup = workshop.backup(str(tmp_path / "backup.sqlite"))
    assert (backup.heads, backup.jobs, backup.runs, backup.taps) == (1, 1, 1, 1)
    with open_workshop(str(tmp_path / "backup.sqlite")) as copy:
        assert copy.run(run.id) == workshop.run(run.id)


def test_a_full_disk_refuses_the_tap_and_the_run_goes_on_when_there_is_room(
    workshop: Workshop, bench_head: int
) -> None:
    run = workshop.begin_run(workshop.new_job(bench_head, Asked(count="2000")).id)
    workshop.tap(run.id, began())
    taps = [entry("done", f"a tap with a long name, number {row:04}", row) for row in range(2000)]
    limit(workshop, None)
    acknowledged: list[Entry] = []
    with pytest.raises(StoreTrouble, match="there is no room left on its disk, so nothing was changed"):
        acknowledged.extend(tap for tap in taps if workshop.tap(run.id, tap)[1])
    kept = len(acknowledged)
    assert 0 < kept < 2000
    assert workshop.run(run.id).state.at_row == kept
    assert workshop.journal(run.id)[1:] == tuple(acknowledged)
    limit(workshop, 1_000_000)
    shown, counted = workshop.tap(run.id, taps[kept])
    assert counted
    assert shown.state.at_row == kept + 1


def limit(workshop: Workshop, pages: int | None) -> None:
    """Let the file grow to so many pages, or not at all."""
    with workshop._store.reading() as connection:
        (now,) = connection.execute("PRAGMA page_count").fetchone()
        connection.execute(f"PRAGMA max_page_count = {pages or now}")


# A head changed in one go, and a job planned on it again


def test_a_head_is_changed_with_nothing_kept_of_it_in_between(workshop: Workshop, bench_head: int) -> None:
    known = KnownErrors(
        "2026-03-14", (), (), 1, Fraction(2), (TablePoint(Fraction(0), ZERO), TablePoint(HALF, ONE))
    )
    measured = workshop.change_head(bench_head, lambda head: with_calibration(head, known)).head
    assert measured.calibrations == (known,)
    assert workshop.head(bench_head).head == measured
    assert workshop.change_head(bench_head, lambda head: with_calibration(head, known)).head == measured
    with pytest.raises(UnknownThing, match="calibration 2"):
        workshop.change_head(bench_head, lambda head: with_in_force(head, 1))
    assert workshop.head(bench_head).head == measured
    with pytest.raises(UnknownThing, match="head 99: there is no such head"):
        workshop.change_head(99, lambda head: head)


def test_many_who_measure_at_once_lose_nothing(workshop: Workshop, bench_head: int) -> None:
    points = (TablePoint(Fraction(0), ZERO), TablePoint(HALF, ONE))
    days = [f"2026-03-{day:02d}" for day in range(1, 9)]

    def keep(day: str) -> None:
        known = KnownErrors(day, (), (), 1, Fraction(2), points)
        workshop.change_head(bench_head, lambda head: with_calibration(head, known))

    with ThreadPoolExecutor(4) as pool:
        list(pool.map(keep, days))
    head = workshop.head(bench_head).head
    assert sorted(known.date for known in head.calibrations) == days
    assert head.known_errors is not None
    assert head.known_errors.date == days[-1]


def test_a_job_planned_again_takes_the_head_as_it_is_and_its_runs_do_not(
    workshop: Workshop, bench_head: int, run: KeptRun
) -> None:
    workshop.keep_head(BENCH_HEAD.replace("marks = 100", "marks = 200"), bench_head)
    before = workshop.run(run.id)
    again = workshop.plan_again(run.job_id)
    assert again.plan.head.dial is not None
    assert again.plan.head.dial.marks == 200
    assert workshop.job(run.job_id).plan == again.plan
    assert workshop.run(run.id).rows == before.rows
    workshop.drop_head(bench_head)
    with pytest.raises(UnknownThing, match="its head was dropped; the job keeps its own copy of it"):
        workshop.plan_again(run.job_id)
