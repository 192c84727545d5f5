import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from crankwise.store import store as the_store
from crankwise.store.migrations import MIGRATIONS, VERSION, apply_next, version_of
from crankwise.store.store import Store


@pytest.fixture
def connection() -> sqlite3.Connection:
    return sqlite3.connect(":memory:", isolation_level=None)


def test_each_step_is_applied_once_and_recorded(connection: sqlite3.Connection) -> None:
    for _ in MIGRATIONS:
        apply_next(connection)
    assert version_of(connection) == VERSION
    recorded = connection.execute("SELECT number, name FROM migration ORDER BY number").fetchall()
    assert recorded == [(number, step.__name__) for number, step in enumerate(MIGRATIONS, 1)]


def test_a_step_that_fails_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def half_a_step(connection: sqlite3.Connection) -> None:
        connection.execute("CREATE TABLE half (a)")
        raise ZeroDivisionError

    path = tmp_path / "workshop.sqlite"
    Store(path).close()
    monkeypatch.setattr("crankwise.store.migrations.MIGRATIONS", (*MIGRATIONS, half_a_step))
    monkeypatch.setattr(the_store, "VERSION", VERSION + 1)
    with pytest.raises(ZeroDivisionError):
        Store(path)
    with closing(sqlite3.connect(path)) as connection:
        assert version_of(connection) == VERSION
        assert connection.execute("SELECT 1 FROM sqlite_master WHERE name = 'half'").fetchall() == []


def test_an_older_store_is_brought_up_to_date(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def one_more(connection: sqlite3.Connection) -> None:
        connection.execute("ALTER TABLE head ADD COLUMN note TEXT NOT NULL DEFAULT ''")

    path = tmp_path / "workshop.sqlite"
    with closing(Store(path)) as store, store.writing() as connection:
        connection.execute("INSERT INTO head (toml, is_demo) VALUES ('a head', 0)")
    monkeypatch.setattr("crankwise.store.migrations.MIGRATIONS", (*MIGRATIONS, one_more))
    monkeypatch.setattr(the_store, "VERSION", VERSION + 1)
    with closing(Store(path)) as store, store.reading() as connection:
        assert connection.execute("SELECT toml, note FROM head").fetchall() == [("a head", "")]
        assert version_of(connection) == VERSION + 1


JOURNAL_OF_TWO = """
INSERT INTO job (id, name, plan, asked, is_demo) VALUES (1, 'a', '', '', 0), (2, 'b', '', '', 0);
INSERT INTO run (id, job_id, plan, schedule) VALUES (1, 1, '', ''), (2, 2, '', '');
INSERT INTO journal (run_id, seq, tap, kind, at) VALUES (1, 1, 'x', 'began', 0);
INSERT INTO journal (run_id, seq, tap, kind, at) VALUES (1, 2, 'y', 'done', 0);
INSERT INTO journal (run_id, seq, tap, kind, at) VALUES (2, 1, 'x', 'began', 0);
"""


@pytest.fixture
def with_journals(connection: sqlite3.Connection) -> sqlite3.Connection:
    for _ in MIGRATIONS:
        apply_next(connection)
    connection.execute("PRAGMA foreign_keys = ON")
    connection.executescript(JOURNAL_OF_TWO)
    return connection


@pytest.mark.parametrize(
    ("statement", "sentence"),
    [
        ("UPDATE journal SET row = 7", "a journal is never changed"),
        ("DELETE FROM journal WHERE seq = 2", "a journal goes only with its run"),
        ("DELETE FROM journal", "a journal goes only with its run"),
        (
            "INSERT INTO journal (run_id, seq, tap, kind, at) VALUES (1, 4, 'z', 'done', 0)",
            "a journal is added to at its end",
        ),
        (
            "INSERT OR REPLACE INTO journal (run_id, seq, tap, kind, at) VALUES (1, 2, 'z', 'done', 0)",
            "a journal is added to at its end",
        ),
        (
            "INSERT INTO journal (run_id, seq, tap, kind, at) VALUES (1, 3, 'y', 'done', 0)",
            "UNIQUE constraint failed: journal.run_id, journal.tap",
        ),
        (
            "INSERT INTO journal (run_id, seq, tap, kind, at) VALUES (3, 1, 'y', 'began', 0)",
            "FOREIGN KEY constraint failed",
        ),
    ],
)
def test_a_journal_is_only_added_to(with_journals: sqlite3.Connection, statement: str, sentence: str) -> None:
    before = with_journals.execute("SELECT * FROM journal").fetchall()
    with pytest.raises(sqlite3.IntegrityError, match=sentence):
        with_journals.execute(statement)
    assert with_journals.execute("SELECT * FROM journal").fetchall() == before


@pytest.mark.parametrize("statement", ["DELETE FROM run WHERE id = 1", "DELETE FROM job WHERE id = 1"])
def test_a_journal_goes_with_its_run_or_job(with_journals: sqlite3.Connection, statement: str) -> None:
    with_journals.execute(statement)
    assert with_journals.execute("SELECT run_id, seq FROM journal").fetchall() == [(2, 1)]
