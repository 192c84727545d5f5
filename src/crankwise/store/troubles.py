"""The troubles of a file, told as a machinist would understand them."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from crankwise.errors import StoreTrouble

_SENTENCES = {
    sqlite3.SQLITE_BUSY: "another program has held on to it for {patience:g} seconds; close that one, and try again",
    sqlite3.SQLITE_LOCKED: "another program has held on to it for {patience:g} seconds; close that one, and try again",
    sqlite3.SQLITE_FULL: "there is no room left on its disk, so nothing was changed; make room, and do it again",
    sqlite3.SQLITE_READONLY: "it can be read but not written, so nothing was changed; "
    "allow writing to the file and its folder, or name another folder",
    sqlite3.SQLITE_PERM: "this user may not use it; allow reading and writing, or name another folder",
    sqlite3.SQLITE_CANTOPEN: "it cannot be opened; see that its folder is there and may be written to, "
    "or name another folder",
    sqlite3.SQLITE_CORRUPT: "the file is damaged: a part of it is missing or makes no sense; "
    "move it away with any file of its name that ends in -wal or -shm, and put your last backup in its place",
    sqlite3.SQLITE_NOTADB: "this is not a workshop file of Crankwise, and it was left as it is; "
    "put your last backup in its place, or name another folder",
    sqlite3.SQLITE_IOERR: "its disk could not read or write, so nothing was changed; "
    "see that the disk is there and has room, and do it again",
}


@contextmanager
def told(path: Path, patience: float) -> Iterator[None]:
    """Turn the troubles of the file into StoreTrouble; a mistake of ours stays as loud as it is.

    patience  how long a lock was waited for, in seconds
    """
    try:
        yield
    except sqlite3.Error as error:
        code = getattr(error, "sqlite_errorcode", None)
        sentence = _SENTENCES.get(code & 0xFF) if code is not None else None
        if sentence is None:
            raise
        raise StoreTrouble(f"{path}: {sentence.format(patience=patience)}") from error
