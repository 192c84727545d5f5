import sqlite3
from fractions import Fraction

import pytest

from crankwise.run.journal import Entry
from crankwise.store.journals import add, entries_after, has_tap
from crankwise.store.migrations import MIGRATIONS, apply_next

TAPS = (
    Entry("began", "b", 1.5, numbers_grow=False, seen=0),
    Entry("done", "d0", 2.5, 0, seen=1),
    Entry("back", "back", -3.0, 0),
    Entry("ring", "ring", 4.0, 7, seen=3, reading=Fraction(360, 127)),
    Entry("slipped", "slip", 5.0, 7, angle=Fraction(-31, 36000), joint="spindle", since=2),
    Entry("note", "note", 6.0, note="Öl \N{WRENCH} <b>"),
    Entry("undone", "undo", 7.0, of="note"),
    Entry("returned", "later", 8.0, 7),
    Entry("returned", "first", 9.0, 7, off_mm=Fraction(-41, 100), means="loupe"),
)


@pytest.fixture
def connection() -> sqlite3.Connection:
    connection = sqlite3.connect(":memory:", isolation_level=None)
    for _ in MIGRATIONS:
        apply_next(connection)
    for run_id in (1, 2):
        for seq, tap in enumerate(TAPS, 1):
            add(connection, run_id, seq, tap)
    return connection


@pytest.mark.parametrize("seq", range(len(TAPS) + 1))
def test_a_journal_is_read_from_where_one_left_off(connection: sqlite3.Connection, seq: int) -> None:
    assert entries_after(connection, 1, seq) == TAPS[seq:]


def test_a_run_that_is_not_there_has_no_entries(connection: sqlite3.Connection) -> None:
    assert entries_after(connection, 3, 0) == ()


def test_a_tap_is_known_in_its_own_run_only(connection: sqlite3.Connection) -> None:
    add(connection, 2, len(TAPS) + 1, Entry("done", "another", 0.0, 0))
    assert has_tap(connection, 2, "another")
    assert not has_tap(connection, 1, "another")
