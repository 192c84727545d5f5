"""A backup: the whole store as one file, of one moment, made while the store is in use."""

import os
import shutil
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from crankwise.errors import BadFile, StoreTrouble
from crankwise.store.store import APPLICATION, PATIENCE, check, reader
from crankwise.store.troubles import told


@dataclass(frozen=True, slots=True)
class Backup:
    """What a backup holds."""

    path: Path
    size: int
    heads: int
    jobs: int
    runs: int
    taps: int


def make_backup(store: Path, out: Path, patience: float = PATIENCE) -> Backup:
    """Copy the store to `out`, whole and durable, and return what is in the copy.

    The copy is made beside `out` and takes its name when it is complete, so that an older backup
    there is replaced at once or not at all. Taps may go on meanwhile.

    Raises StoreTrouble when there is no store or it cannot be read; BadFile when `out` cannot be
    written, is the store itself, or is a file of another kind.
    """
    if not store.exists():
        raise StoreTrouble(f"{store}: there is no workshop here yet; name the folder that holds one")
    check(store, patience)
    _refuse_what_must_not_be_lost(store, out)
    with _file_beside(out) as beside:
        with told(store, patience), closing(reader(store, patience)) as source:
            backup = _copied(source, beside, out)
        _put_in_place(store, beside, out)
    return backup


def _refuse_what_must_not_be_lost(store: Path, out: Path) -> None:
    if out.is_dir():
        raise BadFile(f"{out}: this is a folder; give the backup a file name")
    kept = store.resolve()
    for name in (kept, _with(kept, "-wal"), _with(kept, "-shm")):
        if out.resolve() == name or (out.exists() and name.exists() and out.samefile(name)):
            raise BadFile(f"{out}: this is the workshop itself; give the backup another name")
    if not out.exists():
        return
    # A journal beside a file is part of it: beside the copy it would ruin the copy.
    if _with(out, "-wal").exists() or _with(out, "-journal").exists():
        raise BadFile(f"{out}: this is a workshop in use; give the backup another name")
    try:
        with out.open("rb") as file:
            start = file.read(72)
    except OSError as error:
        raise _unwritable(out, error) from None
    if start and start[68:72] != APPLICATION.to_bytes(4, "big"):
        raise BadFile(f"{out}: there is a file of another kind here; give the backup another name")


@contextmanager
def _file_beside(out: Path) -> Iterator[Path]:
    """Give an empty file in the folder of `out`; it is gone afterwards unless it took a name."""
    try:
        handle, name = tempfile.mkstemp(prefix=f".{out.name}.", suffix=".part", dir=out.parent)
    except OSError as error:
        raise _unwritable(out, error) from None
    os.close(handle)
    beside = Path(name)
    try:
        yield beside
    finally:
        beside.unlink(missing_ok=True)


def _copied(source: sqlite3.Connection, beside: Path, out: Path) -> Backup:
    try:
        with closing(sqlite3.connect(beside, isolation_level=None)) as copy:
            source.backup(copy)
            # One file and nothing beside it; it is in write-ahead mode again once it is opened as a store.
            copy.execute("PRAGMA journal_mode = DELETE")
            (found,) = copy.execute("PRAGMA quick_check(1)").fetchone()
            if found != "ok":
                raise StoreTrouble(f"{out}: no backup was made, for the workshop is damaged: {found}")
            heads, jobs, runs, taps = (
                copy.execute(f"SELECT count(*) FROM {table}").fetchone()[0]
                for table in ("head", "job", "run", "journal")
            )
    except sqlite3.Error as error:
        if error.sqlite_errorcode & 0xFF in (sqlite3.SQLITE_FULL, sqlite3.SQLITE_CANTOPEN):
            raise _unwritable(out, error) from None
        raise
    return Backup(out, beside.stat().st_size, heads, jobs, runs, taps)


def _put_in_place(store: Path, beside: Path, out: Path) -> None:
    """Give the finished copy its name; copy and name outlive a power cut from here on."""
    try:
        shutil.copymode(store, beside)  # whoever may read the workshop may read its backup
        with beside.open("rb+") as file:
            os.fsync(file.fileno())
        beside.replace(out)
    except OSError as error:
        raise _unwritable(out, error) from None
    with suppress(OSError):  # some platforms cannot synchronise a folder
        folder = os.open(out.parent, os.O_RDONLY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)


def _with(path: Path, ending: str) -> Path:
    return path.with_name(path.name + ending)


def _unwritable(out: Path, error: Exception) -> BadFile:
    reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    return BadFile(f"{out}: the backup cannot be written here ({reason}); nothing was changed")
