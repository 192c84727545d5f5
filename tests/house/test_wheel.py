"""What is built is whole: every file of the package is in the wheel, templates and pictures too."""

import zipfile
from pathlib import Path

import pytest
from flit_core import buildapi  # type: ignore[import-untyped]  # a build back end; it publishes no types

from crankwise import __version__
from tests.house.tracked import HOUSE, tracked_files


def test_every_file_of_the_package_is_in_the_wheel(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(HOUSE)
    name = buildapi.build_wheel(str(tmp_path))
    assert name == f"crankwise-{__version__}-py3-none-any.whl"
    with zipfile.ZipFile(tmp_path / name) as wheel:
        built = set(wheel.namelist())
    package = {path.relative_to(HOUSE / "src").as_posix() for path in tracked_files("src/crankwise")}
    assert package - built == set()
