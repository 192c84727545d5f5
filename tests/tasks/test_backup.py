from pathlib import Path

import pytest

from crankwise.errors import StoreTrouble
from crankwise.tasks.backup import back_up
from crankwise.tasks.workshop import open_workshop
from tests.gear import BENCH_HEAD


def test_the_workshop_of_a_folder_is_backed_up_while_it_is_in_use(tmp_path: Path) -> None:
    (tmp_path / "shed").mkdir()
    with open_workshop(str(tmp_path / "shed")) as workshop:
        workshop.keep_head(BENCH_HEAD)
        backup = back_up(str(tmp_path / "backup.sqlite"), str(tmp_path / "shed"))
    assert (backup.path, backup.heads) == (tmp_path / "backup.sqlite", 1)


def test_without_a_folder_it_is_the_platforms_own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("crankwise.store.place.data_folder", lambda: tmp_path / "crankwise")
    open_workshop().close()
    assert back_up(str(tmp_path / "backup.sqlite")).heads == 0


def test_a_folder_without_a_workshop_is_told_and_stays_without(tmp_path: Path) -> None:
    with pytest.raises(StoreTrouble, match="there is no workshop here yet; name the folder that holds one"):
        back_up(str(tmp_path / "backup.sqlite"), str(tmp_path))
    assert list(tmp_path.iterdir()) == []
