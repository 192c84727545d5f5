"""One wrong input a file; its first line is the exact message that it must earn.

The first lines of a case say `# says: ` (one line for each sentence) and `# run: `, the command as
typed. In the command, HEAD stands for the case's own file, whose lines are numbered as they stand;
in the message HEAD is that file's name.
"""

import shlex
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.cli.conftest import Typed, typed
from tests.house.tracked import HOUSE

__all__ = ["typed"]  # the fixture that runs a command

CASES = sorted((Path(__file__).parent / "cases").iterdir())


@dataclass(frozen=True)
class Case:
    """A wrong input, and what it must earn."""

    says: tuple[str, ...]
    words: tuple[str, ...]


def case_of(path: Path) -> Case:
    says, run = [], ""
    for line in path.read_bytes().decode("utf-8", errors="replace").splitlines():
        if line.startswith("# says: "):
            says.append(line.removeprefix("# says: ").replace("HEAD", path.name))
        elif line.startswith("# run: "):
            run = line.removeprefix("# run: ")
            break
    assert says, f"{path.name}: its first line says no message"
    program, *words = shlex.split(run)
    assert program == "crankwise"
    return Case(tuple(says), tuple(str(path) if word == "HEAD" else word for word in words))


def test_there_are_cases() -> None:
    assert len(CASES) > 50


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_a_wrong_input_earns_its_sentence_and_leaves_nothing(
    typed: Typed, path: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    (tmp_path / "examples").symlink_to(HOUSE / "examples")
    monkeypatch.chdir(tmp_path)
    case = case_of(path)
    ran = typed(*case.words)
    assert tuple(ran.err.splitlines()) == case.says
    assert (ran.code, ran.out) == (2, "")
    assert [left.name for left in tmp_path.iterdir()] == ["examples"]
