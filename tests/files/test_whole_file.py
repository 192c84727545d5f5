"""A file is written whole or not at all."""

import errno
import os
import tempfile
from pathlib import Path

import pytest

from crankwise.errors import BadFile
from crankwise.files.whole_file import write_whole


def test_a_new_file_takes_the_place_of_the_old_one(tmp_path: Path) -> None:
    path = tmp_path / "chart.csv"
    write_whole(str(path), b"old")
    write_whole(str(path), b"new")
    assert path.read_bytes() == b"new"
    assert [left.name for left in tmp_path.iterdir()] == ["chart.csv"]


def test_it_can_be_read_by_whom_any_new_file_can_be_read(tmp_path: Path) -> None:
    path, plain = tmp_path / "chart.csv", tmp_path / "plain"
    write_whole(str(path), b"x")
    plain.write_bytes(b"x")
    assert path.stat().st_mode == plain.stat().st_mode


def test_a_link_keeps_pointing_where_it_does(tmp_path: Path) -> None:
    (tmp_path / "kept").mkdir()
    link = tmp_path / "chart.csv"
    link.symlink_to(tmp_path / "kept" / "real.csv")
    write_whole(str(link), b"x")
    assert link.is_symlink()
    assert (tmp_path / "kept" / "real.csv").read_bytes() == b"x"


def test_what_is_no_file_is_written_straight_to(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    reader = os.open(pipe, os.O_RDONLY | os.O_NONBLOCK)
    write_whole(str(pipe), b"rows")
    assert os.read(reader, 10) == b"rows"
    os.close(reader)


def test_a_disk_that_fills_up_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "chart.csv"
    path.write_bytes(b"old")

    def full(handle: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(
        BadFile, match=r"chart\.csv: it cannot be written: No space left on device; name another"
    ):
        write_whole(str(path), b"new")
    assert path.read_bytes() == b"old"
    assert [left.name for left in tmp_path.iterdir()] == ["chart.csv"]


def test_a_folder_that_may_not_be_written_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(**_: object) -> tuple[int, str]:
        raise PermissionError(errno.EACCES, "Permission denied")

    monkeypatch.setattr(tempfile, "mkstemp", refused)
    with pytest.raises(
        BadFile, match=r"chart\.csv: it cannot be written: Permission denied; name another place"
    ):
        write_whole(str(tmp_path / "chart.csv"), b"x")
    assert list(tmp_path.iterdir()) == []
