"""The store's file: opened, checked, brought up to date, and written by one hand at a time."""

import sqlite3
import threading
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from crankwise.errors import StoreTrouble
from crankwise.store.migrations import VERSION, apply_next, version_of
from crankwise.store.troubles import told

PATIENCE = 10.0
"""Seconds to wait for another program that holds the file."""

APPLICATION = 0x43724B77
"""Marks an SQLite file as ours ("CrKw" in its header)."""

_RETRY_SECONDS = 0.02


class Store:
    """One open store. Threads may share it: they take turns, so none ever meets another's lock."""

    def __init__(self, path: Path, patience: float = PATIENCE) -> None:
        """Open the store at this path, made new where there is none.

        patience  seconds to wait for another program that holds the file

        Raises StoreTrouble, and leaves the file as it is, when it is damaged, not ours, locked, may
        not be written, or comes from a newer version.
        """
        self.path = path
        self._patience = patience
        self._turn = threading.RLock()
        self._file: tuple[int, int] | None = None
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise StoreTrouble(
                f"{path.parent}: this folder cannot be made ({error.strerror}); name another folder"
            ) from None
        check(path, patience)
        with told(path, patience):
            self._connection = sqlite3.connect(
                path, timeout=patience, isolation_level=None, check_same_thread=False
            )
            try:
                self._prepare()
                self._file = _file_at(path)
            except BaseException:
                self._connection.close()
                raise

    def _prepare(self) -> None:
        execute = self._connection.execute
        execute("PRAGMA foreign_keys = ON")
        self._to_write_ahead()
        execute("PRAGMA synchronous = FULL")
        execute("PRAGMA fullfsync = ON")  # on a Mac an ordinary sync stops at the disk's own memory
        while version_of(self._connection) < VERSION:
            with self.writing() as connection:
                # Another process may have done it while this one waited for its turn.
                if version_of(connection) < VERSION:
                    connection.execute(f"PRAGMA application_id = {APPLICATION}")
                    apply_next(connection)
        with self.writing() as connection:
            # Writes nothing, but a file that may only be read is told now, not at the first tap.
            connection.execute("DELETE FROM happened WHERE FALSE")
            (found,) = connection.execute("PRAGMA quick_check(1)").fetchone()
        if found != "ok":
            raise _damage(str(found))

    def _to_write_ahead(self) -> None:
        """Change to write-ahead mode; SQLite does not wait by itself when another process does the same now.

        Where the platform has no shared memory it stays in rollback mode, which is as durable.
        """
        until = time.monotonic() + self._patience
        while True:
            try:
                self._connection.execute("PRAGMA journal_mode = WAL")
            except sqlite3.OperationalError as error:
                if error.sqlite_errorcode & 0xFF != sqlite3.SQLITE_BUSY or time.monotonic() > until:
                    raise
                time.sleep(_RETRY_SECONDS)
            else:
                return

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """Give the connection for reading: all that is read is of one moment."""
        with self._transaction("BEGIN") as connection:
            yield connection

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """Give the connection for writing: all of it is kept, durably, when this ends well; else nothing."""
        with self._transaction("BEGIN IMMEDIATE") as connection:
            if self._file and _file_at(self.path) != self._file:
                # Most systems let a file be written on when it is no longer there: all of it would be lost.
                raise StoreTrouble(
                    f"{self.path}: this file was moved, deleted or replaced while it was in use, so nothing was "
                    "changed; start Crankwise again"
                )
            yield connection

    @contextmanager
    def _transaction(self, begin: str) -> Iterator[sqlite3.Connection]:
        connection = self._connection
        with self._turn, told(self.path, self._patience):
            connection.execute(begin)
            try:
                yield connection
                connection.execute("COMMIT")
            except BaseException:
                # A full disk may have ended the transaction already.
                if connection.in_transaction:
                    connection.execute("ROLLBACK")
                raise

    def close(self) -> None:
        """Close the file; what was kept is in it."""
        with self._turn:
            self._connection.close()


def _file_at(path: Path) -> tuple[int, int] | None:
    """Return what tells the file at a path from any other that takes its place; None where there is none."""
    try:
        found = path.stat()
    except FileNotFoundError:
        return None
    return found.st_dev, found.st_ino


def _damage(found: str) -> sqlite3.DatabaseError:
    """Return the error that SQLite raises for a damaged page, for damage that its check finds."""
    error = sqlite3.DatabaseError(found)
    error.sqlite_errorcode = sqlite3.SQLITE_CORRUPT
    return error


def check(path: Path, patience: float = PATIENCE) -> None:
    """Look at a store without changing it, where there is one.

    Raises StoreTrouble when it is not a file, not ours, damaged at the first look, or from a newer
    version.
    """
    if not path.exists() or (path.is_file() and path.stat().st_size == 0):
        return
    if not path.is_file():
        raise StoreTrouble(f"{path}: this is not a file; name the folder that holds the workshop's file")
    with told(path, patience), closing(reader(path, patience)) as connection:
        # All of one moment: another process may make its tables, and mark it as ours, just now.
        connection.execute("BEGIN")
        version = version_of(connection)
        (application,) = connection.execute("PRAGMA application_id").fetchone()
        (tables,) = connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
    if application != APPLICATION and tables:
        raise StoreTrouble(
            f"{path}: this file belongs to another program, and was left as it is; name another folder"
        )
    if version > VERSION:
        raise StoreTrouble(
            f"{path}: this workshop was kept by a newer version of Crankwise (its step {version}, and this one "
            f"knows {VERSION}), and was left as it is; use that version"
        )


def reader(path: Path, patience: float = PATIENCE) -> sqlite3.Connection:
    """Return a connection that cannot change the file."""
    return sqlite3.connect(
        f"{path.resolve().as_uri()}?mode=ro", uri=True, timeout=patience, isolation_level=None
    )


def number_of(added: sqlite3.Cursor) -> int:
    """Return the number that an INSERT gave to its row."""
    assert added.lastrowid is not None, "an INSERT has a row"
    return added.lastrowid
