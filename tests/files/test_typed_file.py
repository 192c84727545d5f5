from pathlib import Path

import pytest

from crankwise.errors import BadFile
from crankwise.files.typed_file import typed_bytes, typed_text


def read(path: Path | str, most: int = 10) -> str:
    return typed_text(str(path), "a list", " (text)", most, "a few lines")


def test_a_file_is_read_whole_up_to_its_most(tmp_path: Path) -> None:
    file = tmp_path / "list.txt"
    file.write_bytes(b"0123456789")

    assert read(file) == "0123456789"


def test_a_longer_file_is_refused_and_never_cut_short(tmp_path: Path) -> None:
    file = tmp_path / "list.txt"
    file.write_bytes(b"1234567890.5")

    with pytest.raises(BadFile, match=r"^list.txt: 12 bytes; a list is a few lines, 10 bytes at most$"):
        read(file)


def test_the_mark_that_some_editors_put_first_is_no_part_of_the_text(tmp_path: Path) -> None:
    file = tmp_path / "list.txt"
    file.write_bytes("10 = 2°".encode("utf-8-sig"))

    assert read(file, 20) == "10 = 2°"


def test_what_is_no_text_is_told_by_its_line(tmp_path: Path) -> None:
    file = tmp_path / "list.txt"
    file.write_bytes(b"10\n20\n\xff\n")

    with pytest.raises(
        BadFile, match=r"^list.txt, line 3: this is not text in UTF-8; save it again as UTF-8$"
    ):
        read(file)


def test_a_file_that_is_not_there_is_told_with_what_to_give(tmp_path: Path) -> None:
    with pytest.raises(BadFile, match=r"gone.txt: there is no such file; give the path of a list \(text\)$"):
        read(tmp_path / "gone.txt")


def test_what_to_do_may_be_said_instead(tmp_path: Path) -> None:
    with pytest.raises(BadFile, match=r"gone.txt: there is no such file; type it instead$"):
        typed_bytes(str(tmp_path / "gone.txt"), "a list", "", 10, missing="type it instead")


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    with pytest.raises(BadFile, match=r": this is a folder; give the path of a list \(text\)$"):
        read(tmp_path)


def test_a_path_that_cannot_be_is_a_sentence() -> None:
    with pytest.raises(BadFile, match="it cannot be read"):
        read("a\0b")
