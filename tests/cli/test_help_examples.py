"""Every worked example of the help does what it says, in a folder that holds the files it names."""

import re
import shlex
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from crankwise.tasks.workshop import open_workshop
from tests.cli.conftest import Typed
from tests.cli.test_help import ALL
from tests.house.tracked import HOUSE

KEPT = {
    "wheel.toml": "jobs/wheel-127.toml",
    "wheel-127.toml": "jobs/wheel-127.toml",
    "ring.toml": "jobs/tide-ring.toml",
    "measured-head.toml": "measured-bench-head.toml",
    "readings.csv": "bench-readings.csv",
    "closure.csv": "bench-closure.csv",
    "pitches.csv": "wheel-pitches.csv",
    "a.toml": "jobs/wheel-127.toml",
    "b.toml": "jobs/wheel-127.toml",
    "c.toml": "jobs/wheel-127.toml",
    "a.csv": "wheel-pitches.csv",
    "b.csv": "wheel-pitches-2.csv",
    "c.csv": "wheel-pitches-3.csv",
    "again.csv": "wheel-pitches-4.csv",
}
"""What an example calls a file of its reader's, and which of ours stands for it."""
TYPED = {
    "spans.csv": "place,size_mm\n1,44.56\n2,44.57\n3,44.56\n",
    "chords.csv": "hole,chord_mm\n1,30.01\n2,29.99\n3,30.00\n4,30.02\n5,29.98\n6,30.00\n",
    "lines.csv": "line,position_deg\n0,0\n1,60.002\n2,119.999\n3,180.001\n4,240\n5,299.998\n",
}
"""Files of readings that no example of ours has."""
TRIED_ELSEWHERE = ("serve", "demo", "pocket")
"""Commands that go on until they are stopped, or need a run: test_serve.py, test_pocket.py."""


def examples() -> Iterator[tuple[str, str]]:
    """Yield each example as typed, on one line, and what is said of it."""
    for name, command in ALL.items():
        if name not in TRIED_ELSEWHERE:
            told = (command.epilog or "").partition("examples:\n")[2].replace("\\\n", " ")
            for found in re.finditer(r"^  (crankwise .*)\n((?:      .*\n?)+)", told, re.MULTILINE):
                yield " ".join(found[1].split()), " ".join(found[2].split())


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder with our examples under the names that the help gives to its reader's files."""
    shutil.copytree(HOUSE / "examples", tmp_path / "examples")
    shutil.copytree(HOUSE / "docs/trade", tmp_path / "docs/trade")
    for file in (HOUSE / "examples").glob("*.*"):
        shutil.copy(file, tmp_path)
    for name, kept in KEPT.items():
        text = (HOUSE / "examples" / kept).read_text(encoding="utf-8")
        (tmp_path / name).write_text(text.replace('"../', '"'), encoding="utf-8")
    for name, text in TYPED.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    for variable in ("HOME", "XDG_DATA_HOME", "APPDATA"):
        monkeypatch.setenv(variable, str(tmp_path))
    open_workshop().close()  # where a command looks that is not told where
    (tmp_path / "clock").mkdir()
    open_workshop(str(tmp_path / "clock")).close()
    shutil.copy(tmp_path / "clock/workshop.sqlite", tmp_path / "shed-2026-03-14.sqlite")
    monkeypatch.chdir(tmp_path)


@pytest.mark.parametrize(("example", "said"), [*examples()], ids=lambda text: text[:80])
@pytest.mark.usefixtures("shop")
def test_an_example_is_answered(typed: Typed, example: str, said: str) -> None:
    words = shlex.split(example.partition(" > ")[0])[1:]
    ran = typed(*words)
    assert ran.code == (1 if "exit code 1" in said and "when" not in said else 0), ran.err
