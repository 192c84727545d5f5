"""The journals of runs: read from where one left off, added to at the end."""

from fractions import Fraction
from sqlite3 import Connection
from typing import Any

from crankwise.run.journal import Entry

_COLUMNS = "kind, tap, at, row, numbers_grow, seen, reading, angle, joint, since, note, of, off_mm, means"


def entries_after(connection: Connection, run_id: int, seq: int) -> tuple[Entry, ...]:
    """Return the entries of a run after the first `seq` of them, in order."""
    rows = connection.execute(
        f"SELECT {_COLUMNS} FROM journal WHERE run_id = ? AND seq > ? ORDER BY seq", (run_id, seq)
    )
    return tuple(_entry(*row) for row in rows)


def has_tap(connection: Connection, run_id: int, tap: str) -> bool:
    """Return whether a tap of this name has counted in this run."""
    found = connection.execute("SELECT 1 FROM journal WHERE run_id = ? AND tap = ?", (run_id, tap))
    return found.fetchone() is not None


def add(connection: Connection, run_id: int, seq: int, entry: Entry) -> None:
    """Add the entry number `seq`, counted from 1, to the end of a journal."""
    connection.execute(
        f"INSERT INTO journal (run_id, seq, {_COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (
            run_id,
            seq,
            entry.kind,
            entry.tap,
            entry.at,
            entry.row,
            entry.numbers_grow,
            entry.seen,
            _exact(entry.reading),
            _exact(entry.angle),
            entry.joint,
            entry.since,
            entry.note,
            entry.of,
            _exact(entry.off_mm),
            entry.means,
        ),
    )


def _exact(value: Fraction | None) -> str | None:
    return None if value is None else str(value)


def _entry(
    kind: Any,
    tap: str,
    at: float,
    row: int | None,
    grow: int | None,
    seen: int | None,
    reading: str | None,
    angle: str | None,
    joint: Any,
    since: int | None,
    note: str | None,
    of: str | None,
    off_mm: str | None,
    means: Any,
) -> Entry:
    return Entry(
        kind,
        tap,
        at,
        row,
        None if grow is None else bool(grow),
        seen,
        None if reading is None else Fraction(reading),
        None if angle is None else Fraction(angle),
        joint,
        since,
        note,
        of,
        None if off_mm is None else Fraction(off_mm),
        means,
    )
