"""Taps of a device that was away, taken in by the workshop: none doubled, none lost, none guessed."""

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest

from crankwise.errors import BadTap, FaultsFound
from crankwise.plan.passes import rough_then_finish
from crankwise.run.journal import Entry, fresh_state, replayed
from crankwise.tasks.batch import MOST_TAPS
from crankwise.tasks.workshop import Asked, KeptRun, Workshop, open_workshop
from tests.gear import BENCH_HEAD

BEGAN = Entry("began", "b", 1.0, numbers_grow=True)


def dones(*rows: int, name: str = "away") -> tuple[Entry, ...]:
    return tuple(Entry("done", f"{name}-{row}", 10.0 + row, row) for row in rows)


@pytest.fixture
def workshop(tmp_path: Path) -> Iterator[Workshop]:
    with open_workshop(str(tmp_path)) as opened:
        yield opened


@pytest.fixture
def run(workshop: Workshop) -> KeptRun:
    job = workshop.new_job(workshop.keep_head(BENCH_HEAD).id, Asked(count="60", work="line"))
    begun = workshop.begin_run(job.id)
    return workshop.tap(begun.id, BEGAN)[0]


def test_every_kind_of_tap_is_kept_and_folds_to_the_same_after_a_restart(tmp_path: Path) -> None:
    with open_workshop(str(tmp_path)) as workshop:
        job = workshop.new_job(workshop.keep_head(BENCH_HEAD).id, Asked(count="60"))
        run_id = workshop.begin_run(job.id, rough_then_finish(Fraction(1), Fraction(3, 2))).id
        taps = (
            BEGAN,
            *dones(0, 1, 2),
            Entry("skipped", "s", 20.0, 3),
            Entry("overshot", "o", 21.0, 4),
            Entry("ring", "r", 22.0, 4, reading=Fraction(121, 5)),
            Entry("bad", "x", 23.0, 2, note="torn"),
            Entry("slipped", "w", 24.0, 4, angle=Fraction(1, 1000), joint="work", since=1),
            Entry("good", "g", 25.0, 1),
            Entry("note", "n", 26.0, note="oil"),
            Entry("undone", "u", 27.0, of="n"),
            Entry("back", "k", 28.0, 3),
            Entry("paused", "p", 29.0),
        )
        kept, merged = workshop.take_in(run_id, taps)
        assert (merged.said_twice, merged.conflicts) == ((), ())
    with open_workshop(str(tmp_path)) as workshop:
        again = workshop.run(run_id)
        assert again.state == kept.state == replayed(fresh_state(again.rows), workshop.journal(run_id))
        assert len(again.rows) == 122
        assert (again.state.suspect, again.state.bad) == ((2,), {2: "torn"})
        assert again.state.paused


def test_taps_go_on_from_what_the_device_had_seen(workshop: Workshop, run: KeptRun) -> None:
    kept, merged = workshop.take_in(run.id, dones(0, 1), seen=1)
    assert [entry.tap for entry in merged.added] == ["away-0", "away-1"]
    assert kept.state.at_row == 2
    _, again = workshop.take_in(run.id, dones(0, 1, 2), seen=1)
    assert [entry.tap for entry in again.added] == ["away-2"]


def test_the_same_row_done_on_both_is_done_once(workshop: Workshop, run: KeptRun) -> None:
    workshop.tap(run.id, Entry("done", "here", 5.0, 0))
    kept, merged = workshop.take_in(run.id, dones(0, 1), seen=1)
    assert [entry.tap for entry in merged.said_twice] == ["away-0"]
    assert [entry.tap for entry in merged.added] == ["away-1"]
    assert kept.state.at_row == 2


def test_what_contradicts_is_handed_back(workshop: Workshop, run: KeptRun) -> None:
    workshop.tap(run.id, Entry("skipped", "here", 5.0, 0))
    kept, merged = workshop.take_in(run.id, dones(0, 1), seen=1)
    (conflict,) = merged.conflicts
    assert (conflict.reason, conflict.theirs) == ("reopened", dones(0, 1))
    assert kept.state.skipped == (0,)


def test_taps_for_another_run_are_refused(workshop: Workshop, run: KeptRun) -> None:
    other = workshop.begin_again(run.id)
    assert other.identity != run.identity
    with pytest.raises(BadTap, match="were made for another run, and nothing was taken in"):
        workshop.take_in(other.id, dones(0), identity=run.identity)
    workshop.take_in(run.id, dones(0), identity=run.identity)


def test_taps_that_make_no_sense_are_told_all_at_once_and_none_is_kept(
    workshop: Workshop, run: KeptRun
) -> None:
    spoilt = (
        *dones(0),
        Entry("done", "", 1.0, 1),
        Entry("ring", "r", 1.0, 1),
        Entry("slipped", "s", 1.0, 1, angle=Fraction(2), joint="work"),
        Entry("slipped", "s2", 1.0, 1, angle=Fraction(1, 9)),
        Entry("note", "n", 1.0, note=" "),
        Entry("bad", "x", 1.0, 1, note="x" * 501),
        Entry("undone", "u", 1.0),
        Entry("slipped", "s3", 1.0, 1, angle=Fraction(1, 9), joint="dial", since=99),
    )
    with pytest.raises(FaultsFound) as refused:
        workshop.take_in(run.id, spoilt)
    assert [fault.place for fault in refused.value.faults] == [f"taps[{number}]" for number in range(1, 9)]
    assert workshop.run(run.id).state.at_row == 0


def test_too_many_at_once_are_refused(workshop: Workshop, run: KeptRun) -> None:
    many = tuple(Entry("note", f"n{number}", 1.0, note="x") for number in range(MOST_TAPS + 1))
    with pytest.raises(BadTap, match="5,001 at once; 5,000 at most"):
        workshop.take_in(run.id, many)


def test_a_device_that_has_seen_more_than_there_is_was_given_another_run(
    workshop: Workshop, run: KeptRun
) -> None:
    with pytest.raises(BadTap, match="seen: 4; this run has 1 entries"):
        workshop.take_in(run.id, dones(0), seen=4)
