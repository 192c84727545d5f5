"""The heads owned: kept as head files, so that what is kept can be read without us."""

from sqlite3 import Connection

from crankwise.errors import UnknownThing
from crankwise.files.head_toml import read_head, write_head
from crankwise.head.head import Head
from crankwise.store.kept import KeptHead
from crankwise.store.store import number_of


def all_heads(connection: Connection) -> tuple[KeptHead, ...]:
    """Return every head, the oldest first."""
    rows = connection.execute("SELECT id, toml, is_demo FROM head ORDER BY id")
    return tuple(_kept(row) for row in rows)


def one_head(connection: Connection, head_id: int) -> KeptHead:
    """Return one head. Raises UnknownThing."""
    row = connection.execute("SELECT id, toml, is_demo FROM head WHERE id = ?", (head_id,)).fetchone()
    if row is None:
        raise UnknownThing(f"head {head_id}: there is no such head; it may have been dropped")
    return _kept(row)


def add_head(connection: Connection, head: Head, is_demo: bool = False) -> int:
    """Keep a new head and return its number."""
    added = connection.execute("INSERT INTO head (toml, is_demo) VALUES (?, ?)", (write_head(head), is_demo))
    return number_of(added)


def change_head(connection: Connection, head_id: int, head: Head) -> None:
    """Put another description in a head's place; one of the demo workshop becomes the person's own."""
    connection.execute("UPDATE head SET toml = ?, is_demo = 0 WHERE id = ?", (write_head(head), head_id))


def drop_head(connection: Connection, head_id: int) -> None:
    """Drop a head; the jobs planned on it have their own copy."""
    connection.execute("DELETE FROM head WHERE id = ?", (head_id,))


def _kept(row: tuple[int, str, int]) -> KeptHead:
    head_id, toml, is_demo = row
    return KeptHead(head_id, read_head(toml), bool(is_demo))
