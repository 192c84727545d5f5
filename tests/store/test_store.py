import os
import sqlite3
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

import crankwise.store.store
from crankwise.errors import StoreTrouble
from crankwise.store.migrations import VERSION
from crankwise.store.store import APPLICATION, Store


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "workshop.sqlite"


def keep_heads(path: Path, count: int = 1) -> None:
    """Make a store with some heads in it: a page of the file holds about ten of them."""
    with closing(Store(path)) as store, store.writing() as connection:
        for number in range(count):
            connection.execute("INSERT INTO head (toml, is_demo) VALUES (?, 0)", (f"# {number}\n" * 60,))


def heads_in(store: Store) -> int:
    with store.reading() as connection:
        (count,) = connection.execute("SELECT count(*) FROM head").fetchone()
    return int(count)


def changed(path: Path, statement: str) -> bytes:
    """Run one statement on a store, as another program would, and return what the file then holds."""
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute(statement)
    return path.read_bytes()


def test_a_new_store_is_made_with_its_folder(tmp_path: Path) -> None:
    path = tmp_path / "boathouse" / "clock" / "workshop.sqlite"
    with closing(Store(path)) as store:
        assert heads_in(store) == 0
    assert path.exists()


def test_an_empty_file_becomes_a_store(path: Path) -> None:
    path.touch()
    keep_heads(path)
    with closing(Store(path)) as store:
        assert heads_in(store) == 1


def test_it_is_set_to_outlive_a_power_cut(path: Path) -> None:
    with closing(Store(path)) as store, store.reading() as connection:
        settings = [
            connection.execute(f"PRAGMA {name}").fetchone()[0]
            for name in ("journal_mode", "synchronous", "foreign_keys", "fullfsync")
        ]
    assert settings == ["wal", 2, 1, 1]


def test_the_file_says_whose_it_is(path: Path) -> None:
    keep_heads(path)
    header = path.read_bytes()[:72]
    assert header[60:64] == VERSION.to_bytes(4, "big")
    assert header[68:72] == APPLICATION.to_bytes(4, "big") == b"CrKw"


def test_what_was_not_ended_well_is_not_kept(path: Path) -> None:
    def begin_and_fail(store: Store) -> None:
        with store.writing() as connection:
            connection.execute("INSERT INTO head (toml, is_demo) VALUES ('', 0)")
            raise ZeroDivisionError

    with closing(Store(path)) as store:
        with pytest.raises(ZeroDivisionError):
            begin_and_fail(store)
        assert heads_in(store) == 0


@pytest.mark.parametrize(
    "name", ["tide & moon #1.sqlite", "100% ?.sqlite", "Møre 🌑.sqlite", "file:odd.sqlite"]
)
def test_any_name_will_do(tmp_path: Path, name: str) -> None:
    keep_heads(tmp_path / name, 3)
    with closing(Store(tmp_path / name)) as store:
        assert heads_in(store) == 3
    assert [file.name for file in tmp_path.iterdir()] == [name]


def test_a_mistake_of_ours_stays_loud(path: Path) -> None:
    with (
        closing(Store(path)) as store,
        pytest.raises(sqlite3.OperationalError, match="no such table"),
        store.reading() as connection,
    ):
        connection.execute("SELECT * FROM heads_and_tails")


def test_many_may_make_the_same_new_store_at_once(path: Path) -> None:
    """Both threads and processes: each finds the tables made once."""
    opens = f"from pathlib import Path; from crankwise.store.store import Store; Store(Path({str(path)!r})).close()"
    others = [subprocess.Popen([sys.executable, "-c", opens]) for _ in range(4)]
    with ThreadPoolExecutor(8) as pool:
        for store in pool.map(lambda _: Store(path), range(16)):
            store.close()
    assert [other.wait(60) for other in others] == [0] * 4
    with closing(Store(path)) as store, store.reading() as connection:
        (steps,) = connection.execute("SELECT count(*) FROM migration").fetchone()
    assert steps == VERSION


class MadeMeanwhile(sqlite3.Connection):
    """Looks at a file while another program makes its tables, just after the mark of whose it is was read."""

    def execute(self, sql: str, parameters: Any = (), /) -> sqlite3.Cursor:
        found = super().execute(sql, parameters)
        if sql == "PRAGMA application_id":
            (path,) = (row[2] for row in super().execute("PRAGMA database_list"))
            Store(Path(path)).close()
        return found


def test_a_store_that_is_made_while_it_is_looked_at_is_not_taken_for_anothers(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with closing(sqlite3.connect(path)) as begun:
        begun.execute("PRAGMA journal_mode = WAL")
    real = crankwise.store.store.reader

    def reader(path: Path, patience: float) -> sqlite3.Connection:
        monkeypatch.setattr(crankwise.store.store, "reader", real)
        uri = f"{path.resolve().as_uri()}?mode=ro"
        return sqlite3.connect(uri, uri=True, isolation_level=None, factory=MadeMeanwhile)

    monkeypatch.setattr(crankwise.store.store, "reader", reader)
    Store(path).close()


# Files that cannot be used, and stay as they are


def test_a_store_of_a_newer_version_is_refused_and_left_as_it_is(path: Path) -> None:
    keep_heads(path)
    before = changed(path, f"PRAGMA user_version = {VERSION + 1}")
    with pytest.raises(StoreTrouble, match=r"kept by a newer version of Crankwise .* was left as it is"):
        Store(path)
    assert path.read_bytes() == before


def test_a_newer_version_is_seen_even_before_its_journal_is_written_back(path: Path) -> None:
    keep_heads(path)
    with closing(sqlite3.connect(path, isolation_level=None)) as newer:
        newer.execute(f"PRAGMA user_version = {VERSION + 1}")
        with pytest.raises(StoreTrouble, match="kept by a newer version"):
            Store(path)


def test_a_file_of_another_program_is_refused_and_left_as_it_is(path: Path) -> None:
    before = changed(path, "CREATE TABLE recipe (name)")
    with pytest.raises(StoreTrouble, match="belongs to another program, and was left as it is"):
        Store(path)
    assert path.read_bytes() == before


@pytest.mark.parametrize(
    "content", [b"name = 'Bench head'\n" * 400, b"\0" * 8192, b"SQLite", bytes(range(256))]
)
def test_what_is_no_store_is_refused_and_left_as_it_is(path: Path, content: bytes) -> None:
    path.write_bytes(content)
    with pytest.raises(StoreTrouble, match="not a workshop file of Crankwise, and it was left as it is"):
        Store(path)
    assert path.read_bytes() == content


@pytest.mark.parametrize("part", [0.2, 0.5, 0.9])
def test_a_truncated_store_is_refused_and_left_as_it_is(path: Path, part: float) -> None:
    keep_heads(path, 200)
    whole = path.read_bytes()
    cut = whole[: int(len(whole) * part)]
    path.write_bytes(cut)
    with pytest.raises(StoreTrouble, match=r"the file is damaged: .* put your last backup in its place"):
        Store(path)
    assert path.read_bytes() == cut


def test_a_store_with_a_ruined_page_is_refused(path: Path) -> None:
    keep_heads(path, 200)
    content = bytearray(path.read_bytes())
    middle = len(content) // 2 // 4096 * 4096
    content[middle : middle + 4096] = b"\xa5" * 4096
    path.write_bytes(content)
    with pytest.raises(StoreTrouble, match="the file is damaged"):
        Store(path)


@pytest.mark.skipif(os.name == "nt", reason="Windows does not let go of a file in use")
@pytest.mark.parametrize("replaced", [False, True])
def test_a_store_that_is_taken_away_in_use_is_written_no_more(path: Path, replaced: bool) -> None:
    keep_heads(path, 2)
    with closing(Store(path)) as store:
        if replaced:
            keep_heads(path.with_name("backup.sqlite"))
            path.with_name("backup.sqlite").replace(path)
        else:
            path.unlink()
        with pytest.raises(
            StoreTrouble, match=r"moved, deleted or replaced while it was in use, so nothing was"
        ):
            fill(store)


def test_a_folder_in_the_files_place_is_refused(path: Path) -> None:
    path.mkdir()
    with pytest.raises(StoreTrouble, match="this is not a file"):
        Store(path)


def test_a_folder_that_cannot_be_made_is_told(tmp_path: Path) -> None:
    (tmp_path / "clock").write_text("a file", encoding="utf-8")
    with pytest.raises(StoreTrouble, match=r"clock: this folder cannot be made .*; name another folder"):
        Store(tmp_path / "clock" / "workshop.sqlite")


def test_a_read_only_folder_is_told(folder_of_an_ordinary_user: Path) -> None:
    folder_of_an_ordinary_user.chmod(0o500)
    with pytest.raises(
        StoreTrouble, match="it cannot be opened; see that its folder is there and may be written"
    ):
        Store(folder_of_an_ordinary_user / "workshop.sqlite")


def test_a_store_in_a_folder_made_read_only_is_told(folder_of_an_ordinary_user: Path) -> None:
    path = folder_of_an_ordinary_user / "workshop.sqlite"
    keep_heads(path)
    folder_of_an_ordinary_user.chmod(0o500)
    with pytest.raises(StoreTrouble, match=r"it cannot be opened|it can be read but not written"):
        Store(path)


def test_a_read_only_file_is_told(folder_of_an_ordinary_user: Path) -> None:
    path = folder_of_an_ordinary_user / "workshop.sqlite"
    keep_heads(path)
    before = path.read_bytes()
    path.chmod(0o400)
    with pytest.raises(StoreTrouble, match="it can be read but not written, so nothing was changed"):
        Store(path)
    assert path.read_bytes() == before


def test_a_file_that_may_not_be_read_is_told(folder_of_an_ordinary_user: Path) -> None:
    path = folder_of_an_ordinary_user / "workshop.sqlite"
    keep_heads(path)
    path.chmod(0o000)
    with pytest.raises(StoreTrouble, match="it cannot be opened"):
        Store(path)


HOLDER = """
import sqlite3, sys
connection = sqlite3.connect(sys.argv[1], isolation_level=None)
connection.execute("PRAGMA locking_mode = EXCLUSIVE")
connection.execute("BEGIN EXCLUSIVE")
connection.execute("INSERT INTO head (toml, is_demo) VALUES ('', 0)")
print("held", flush=True)
sys.stdin.readline()
"""


def test_a_store_that_another_program_holds_is_told_and_can_be_opened_later(path: Path) -> None:
    keep_heads(path)
    with subprocess.Popen(
        [sys.executable, "-c", HOLDER, path], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as holder:
        assert holder.stdout is not None
        assert holder.stdout.readline() == "held\n"
        with pytest.raises(
            StoreTrouble, match=r"another program has held on to it for 0\.2 seconds; close that one"
        ):
            Store(path, patience=0.2)
        holder.communicate("\n", timeout=60)
    with closing(Store(path, patience=0.2)) as store:
        assert heads_in(store) == 1


def test_a_store_that_another_program_writes_is_waited_for(path: Path) -> None:
    with (
        closing(Store(path, patience=0.2)) as store,
        closing(sqlite3.connect(path, isolation_level=None)) as other,
    ):
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(StoreTrouble, match="another program has held on to it"), store.writing():
            pass
        other.execute("COMMIT")
        with store.writing() as connection:
            connection.execute("INSERT INTO head (toml, is_demo) VALUES ('', 0)")
        assert heads_in(store) == 1


def test_a_full_disk_is_told_and_the_store_goes_on_when_there_is_room(path: Path) -> None:
    with closing(Store(path)) as store:
        with store.reading() as connection:
            (pages,) = connection.execute("PRAGMA page_count").fetchone()
            connection.execute(f"PRAGMA max_page_count = {pages}")
        with pytest.raises(StoreTrouble, match="no room left on its disk, so nothing was changed; make room"):
            fill(store)
        assert heads_in(store) == 0
        with store.reading() as connection:
            connection.execute("PRAGMA max_page_count = 1000000")
        fill(store)
        assert heads_in(store) == 100


def fill(store: Store) -> None:
    with store.writing() as connection:
        for _ in range(100):
            connection.execute("INSERT INTO head (toml, is_demo) VALUES (?, 0)", ("#" * 1000,))


@pytest.mark.skipif(os.name == "nt", reason="a limit on the size of files is set as on Unix")
def test_a_write_that_the_system_refuses_is_told(path: Path) -> None:
    """A limit on the size of files stands for a disk that takes no more: the write itself fails."""
    script = """
import resource, sys
from pathlib import Path
from typing import Any
from crankwise.errors import StoreTrouble
from crankwise.store.store import Store
sys.path.insert(0, sys.argv[2])
from tests.store.test_store import fill, heads_in
store = Store(Path(sys.argv[1]))
resource.setrlimit(resource.RLIMIT_FSIZE, (160_000, resource.RLIM_INFINITY))
kept = 0
try:
    while True:
        with store.writing() as connection:
            connection.execute("INSERT INTO head (toml, is_demo) VALUES (?, 0)", ("#" * 1000,))
        kept += 1
except StoreTrouble as trouble:
    print(trouble)
assert heads_in(store) == kept > 0, (heads_in(store), kept)
resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
fill(store)
store.close()
print(kept + 100)
"""
    house = Path(__file__).parents[2]
    ran = subprocess.run(
        [sys.executable, "-c", script, path, house], capture_output=True, text=True, check=False
    )
    assert ran.returncode == 0, ran.stderr
    sentence, kept = ran.stdout.splitlines()
    assert "so nothing was changed" in sentence
    with closing(Store(path)) as store:
        assert heads_in(store) == int(kept)
