"""The journals of runs: read from where one left off, added to at the end."""

from sqlite3 import Connection

from crankwise.run.journal import Entry

_COLUMNS = "kind, tap, at, row, numbers_grow, seen"


def entries_after(connection: Connection, run_id: int, seq: int) -> tuple[Entry, ...]:
    """Return the entries of a run after the first `seq` of them, in order."""
    rows = connection.execute(
        f"SELECT {_COLUMNS} FROM journal WHERE run_id = ? AND seq > ? ORDER BY seq", (run_id, seq)
    )
    return tuple(
        Entry(kind, tap, at, row, None if grow is None else bool(grow), seen)
        for kind, tap, at, row, grow, seen in rows
    )


def has_tap(connection: Connection, run_id: int, tap: str) -> bool:
    """Return whether a tap of this name has counted in this run."""
    found = connection.execute("SELECT 1 FROM journal WHERE run_id = ? AND tap = ?", (run_id, tap))
    return found.fetchone() is not None


def add(connection: Connection, run_id: int, seq: int, entry: Entry) -> None:
    """Add the entry number `seq`, counted from 1, to the end of a journal."""
    connection.execute(
        f"INSERT INTO journal (run_id, seq, {_COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        (run_id, seq, entry.kind, entry.tap, entry.at, entry.row, entry.numbers_grow, entry.seen),
    )
