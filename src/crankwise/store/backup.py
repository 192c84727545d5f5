"""A backup: the whole store as one file, of one moment, made while the store is in use."""

import os
import shutil
import sqlite3
import tempfile
import tomllib
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass, replace
from pathlib import Path

from crankwise.errors import BadFile, StoreTrouble
from crankwise.store.store import APPLICATION, PATIENCE, check, reader
from crankwise.store.troubles import told


@dataclass(frozen=True, slots=True)
class Backup:
    """What a backup holds: how many of each kind of thing.

    size          of the file, in bytes
    calibrations  that its heads keep;  measurements  of finished parts
    """

    path: Path
    size: int
    heads: int
    jobs: int
    runs: int
    taps: int
    calibrations: int = 0
    measurements: int = 0


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


def look_at(backup: Path, patience: float = PATIENCE) -> Backup:
    """Return what a backup holds, and leave it as it is.

    Raises BadFile when there is none; StoreTrouble when it is no workshop, is damaged, or of a newer version.
    """
    if not backup.is_file() or not backup.stat().st_size:
        raise BadFile(
            f"{backup}: there is no backup here; give the path of the file that a backup was written to"
        )
    check(backup, patience)
    with told(backup, patience), closing(reader(backup, patience)) as connection:
        (found,) = connection.execute("PRAGMA quick_check(1)").fetchone()
        if found != "ok":
            raise StoreTrouble(f"{backup}: this backup is damaged: {found}; use an older one")
        return _counted(connection, backup, backup.stat().st_size)


def _counted(connection: sqlite3.Connection, path: Path, size: int) -> Backup:
    """Count every kind of thing that a store keeps; what an older store has no table for, it has none of."""
    there = {name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    count = {
        table: connection.execute(f"SELECT count(*) FROM {table}").fetchone()[0] if table in there else 0
        for table in ("head", "job", "run", "journal", "measurement")
    }
    heads = [toml for (toml,) in connection.execute("SELECT toml FROM head")] if count["head"] else []
    return Backup(
        path,
        size,
        heads=count["head"],
        jobs=count["job"],
        runs=count["run"],
        taps=count["journal"],
        calibrations=sum(len(tomllib.loads(toml).get("calibrations", ())) for toml in heads),
        measurements=count["measurement"],
    )


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
            backup = _counted(copy, out, 0)
    except sqlite3.Error as error:
        if error.sqlite_errorcode & 0xFF in (sqlite3.SQLITE_FULL, sqlite3.SQLITE_CANTOPEN):
            raise _unwritable(out, error) from None
        raise
    return replace(backup, size=beside.stat().st_size)


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
