from pathlib import Path

import pytest

from crankwise.store.place import data_folder, store_path

HOME = Path("/somebody")


@pytest.mark.parametrize(
    ("platform", "environment", "folder"),
    [
        ("linux", {}, HOME / ".local/share/crankwise"),
        ("linux", {"XDG_DATA_HOME": "/data"}, Path("/data/crankwise")),
        ("linux", {"XDG_DATA_HOME": ""}, HOME / ".local/share/crankwise"),
        ("linux", {"XDG_DATA_HOME": "not/absolute"}, HOME / ".local/share/crankwise"),
        ("darwin", {"XDG_DATA_HOME": "/data"}, HOME / "Library/Application Support/crankwise"),
        ("win32", {"APPDATA": "/roaming"}, Path("/roaming/crankwise")),
        ("win32", {}, HOME / "AppData/Roaming/crankwise"),
    ],
)
def test_each_platform_has_its_own_place(platform: str, environment: dict[str, str], folder: Path) -> None:
    assert data_folder(platform, environment, HOME) == folder


def test_a_named_folder_goes_before_the_platforms() -> None:
    assert store_path("clock") == Path("clock/workshop.sqlite")


def test_without_a_name_the_store_is_in_the_platforms_place(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("crankwise.store.place.sys.platform", "linux")
    assert store_path() == data_folder() / "workshop.sqlite"
    assert store_path("") == store_path()
