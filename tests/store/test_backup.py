import sqlite3
import threading
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from crankwise.errors import BadFile, Mendable, StoreTrouble
from crankwise.store.backup import Backup, make_backup
from crankwise.store.store import Store


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    (tmp_path / "kept").mkdir()
    with closing(Store(tmp_path / "kept" / "workshop.sqlite")) as store:
        with store.writing() as connection:
            add_heads(connection, 3)
        yield store


def add_heads(connection: sqlite3.Connection, count: int) -> None:
    for _ in range(count):
        connection.execute("INSERT INTO head (toml, is_demo) VALUES (?, 0)", ("#" * 200,))


def names_in(folder: Path) -> set[str]:
    return {file.name for file in folder.iterdir()}


def test_a_backup_of_a_store_in_use_is_one_whole_file(store: Store, tmp_path: Path) -> None:
    out = tmp_path / "backup.sqlite"
    backup = make_backup(store.path, out)
    assert backup == Backup(out, out.stat().st_size, heads=3, jobs=0, runs=0, taps=0)
    assert names_in(tmp_path) == {"kept", "backup.sqlite"}
    with closing(Store(out)) as copy, copy.reading() as connection:
        assert connection.execute("SELECT count(*) FROM head").fetchone() == (3,)


def test_whoever_may_read_the_store_may_read_its_backup(store: Store, tmp_path: Path) -> None:
    store.path.chmod(0o640)
    make_backup(store.path, tmp_path / "backup.sqlite")
    assert (tmp_path / "backup.sqlite").stat().st_mode & 0o777 == 0o640


def test_an_older_backup_is_replaced(store: Store, tmp_path: Path) -> None:
    out = tmp_path / "backup.sqlite"
    make_backup(store.path, out)
    with store.writing() as connection:
        add_heads(connection, 2)
    before = out.read_bytes()
    with out.open("rb") as older:
        assert make_backup(store.path, out).heads == 5
        assert older.read() == before, "the older one must stay whole until the new one takes its name"


def test_a_backup_can_be_looked_at_where_nothing_may_be_written(folder_of_an_ordinary_user: Path) -> None:
    path, safe = folder_of_an_ordinary_user / "workshop.sqlite", folder_of_an_ordinary_user / "safe"
    safe.mkdir()
    Store(path).close()
    make_backup(path, safe / "backup.sqlite")
    safe.chmod(0o500)
    address = f"{(safe / 'backup.sqlite').as_uri()}?mode=ro"
    with closing(sqlite3.connect(address, uri=True)) as connection:
        assert connection.execute("SELECT count(*) FROM head").fetchone() == (0,)


def test_an_empty_file_may_take_the_backup(store: Store, tmp_path: Path) -> None:
    out = tmp_path / "backup.sqlite"
    out.touch()
    assert make_backup(store.path, out).heads == 3


def test_a_backup_is_of_one_moment_while_others_write(store: Store, tmp_path: Path) -> None:
    """Heads are only ever added in fours, three first: a copy of half a transaction would show."""
    stop = threading.Event()

    def write() -> None:
        while not stop.is_set():
            with store.writing() as connection:
                add_heads(connection, 4)

    writer = threading.Thread(target=write)
    writer.start()
    try:
        counts = [make_backup(store.path, tmp_path / f"{number}.sqlite").heads for number in range(20)]
    finally:
        stop.set()
        writer.join()
    assert [count % 4 for count in counts] == [3] * 20
    assert counts == sorted(counts)
    assert counts[-1] > counts[0]


def files_in(folder: Path) -> dict[Path, bytes]:
    """Return what each file holds, but for the memory that readers of a store share."""
    files = (file for file in folder.iterdir() if file.is_file())
    return {file: b"" if file.name.endswith("-shm") else file.read_bytes() for file in files}


def refused(store: Path, out: Path, error: type[Mendable], sentence: str) -> None:
    """Assert that this backup is refused with this sentence, and that nothing around it changes."""
    before = files_in(out.parent)
    with pytest.raises(error, match=sentence):
        make_backup(store, out)
    assert files_in(out.parent) == before


@pytest.mark.parametrize("name", ["workshop.sqlite", "workshop.sqlite-wal", "workshop.sqlite-shm"])
def test_the_store_itself_is_never_overwritten(store: Store, name: str) -> None:
    refused(
        store.path,
        store.path.with_name(name),
        BadFile,
        "this is the workshop itself; give the backup another name",
    )


def test_the_store_is_known_by_any_of_its_names(store: Store, tmp_path: Path) -> None:
    link, other = tmp_path / "link.sqlite", tmp_path / "other.sqlite"
    link.symlink_to(store.path)
    other.hardlink_to(store.path)
    roundabout = tmp_path / "kept" / ".." / "kept" / "workshop.sqlite"
    for out in (link, other, roundabout):
        refused(store.path, out, BadFile, "this is the workshop itself")


def test_another_workshop_in_use_is_never_overwritten(store: Store, tmp_path: Path) -> None:
    with closing(Store(tmp_path / "other.sqlite")):
        refused(store.path, tmp_path / "other.sqlite", BadFile, "this is a workshop in use")


@pytest.mark.parametrize("ending", ["-wal", "-journal"])
def test_a_file_with_a_journal_beside_it_is_never_overwritten(
    store: Store, tmp_path: Path, ending: str
) -> None:
    make_backup(store.path, tmp_path / "other.sqlite")
    (tmp_path / f"other.sqlite{ending}").write_bytes(b"what a power cut left")
    refused(store.path, tmp_path / "other.sqlite", BadFile, "this is a workshop in use")


@pytest.mark.parametrize("content", [b"name = 'Bench head'", b"%PDF-1.4" * 40])
def test_a_file_of_another_kind_is_never_overwritten(store: Store, tmp_path: Path, content: bytes) -> None:
    out = tmp_path / "bench-head.toml"
    out.write_bytes(content)
    refused(store.path, out, BadFile, "there is a file of another kind here")


def test_a_folder_cannot_take_a_backup(store: Store, tmp_path: Path) -> None:
    refused(store.path, tmp_path, BadFile, "this is a folder; give the backup a file name")


def test_a_place_that_is_not_there_is_told(store: Store, tmp_path: Path) -> None:
    out = tmp_path / "nowhere" / "backup.sqlite"
    with pytest.raises(
        BadFile, match=r"the backup cannot be written here \(No such file or directory\); nothing was"
    ):
        make_backup(store.path, out)


def test_a_place_that_cannot_be_written_is_told(folder_of_an_ordinary_user: Path) -> None:
    path = folder_of_an_ordinary_user / "workshop.sqlite"
    Store(path).close()
    shut = folder_of_an_ordinary_user / "shut"
    shut.mkdir(mode=0o500)
    refused(path, shut / "backup.sqlite", BadFile, r"the backup cannot be written here \(Permission denied\)")


def test_a_disk_that_fills_leaves_the_older_backup(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "backup.sqlite"
    make_backup(store.path, out)
    with store.writing() as connection:
        add_heads(connection, 200)
    connect = sqlite3.connect

    def on_a_full_disk(*where: Any, **how: Any) -> sqlite3.Connection:
        connection: sqlite3.Connection = connect(*where, **how)
        connection.execute("PRAGMA max_page_count = 3")
        return connection

    with monkeypatch.context() as patch:
        patch.setattr("crankwise.store.backup.sqlite3.connect", on_a_full_disk)
        refused(store.path, out, BadFile, r"the backup cannot be written here \(database or disk is full\)")
    assert make_backup(store.path, out).heads == 203


def test_without_a_store_there_is_nothing_to_back_up(tmp_path: Path) -> None:
    refused(
        tmp_path / "workshop.sqlite",
        tmp_path / "backup.sqlite",
        StoreTrouble,
        "there is no workshop here yet",
    )


def test_a_damaged_store_is_told_and_the_older_backup_stays(store: Store, tmp_path: Path) -> None:
    out = tmp_path / "backup.sqlite"
    with store.writing() as connection:
        add_heads(connection, 200)
    make_backup(store.path, out)
    store.close()
    content = bytearray(store.path.read_bytes())
    middle = len(content) // 2 // 4096 * 4096
    content[middle : middle + 4096] = b"\xa5" * 4096
    store.path.write_bytes(content)
    refused(store.path, out, StoreTrouble, "no backup was made, for the workshop is damaged")
