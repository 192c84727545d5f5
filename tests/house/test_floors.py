"""The floors: who may import whom, and what the trade may know of the machine that it runs on."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
from importlinter.cli import lint_imports

from tests.house.tracked import HOUSE, place, tracked_files

THE_TRADE = ("errors", "exact", "head", "part", "ways", "plan", "run", "accuracy")

# Parts of Python's own library that have no screen, no disk, no clock and no chance in them.
ALLOWED = {
    "__future__",
    "abc",
    "bisect",
    "collections",
    "contextlib",
    "dataclasses",
    "decimal",
    "enum",
    "fractions",
    "functools",
    "heapq",
    "itertools",
    "math",
    "numbers",
    "operator",
    "re",
    "statistics",
    "string",
    "types",
    "typing",
    "unicodedata",
}
# What one file may take beyond that; docs/decisions/0008 says why.
ALSO_ALLOWED = {"src/crankwise/accuracy/simulate.py": {"numpy"}}
# Builtins that reach a disk, a screen or code that nobody reads.
NEVER_CALLED = {"open", "print", "input", "exec", "eval", "__import__", "breakpoint"}


def files_of_the_trade() -> list[Path]:
    return [
        path
        for room in THE_TRADE
        for path in tracked_files(f"src/crankwise/{room}.py", f"src/crankwise/{room}/*.py")
    ]


def imports_from_outside(tree: ast.Module) -> Iterator[tuple[int, str]]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and node.level == 0:
            names = [node.module or ""]
        else:
            continue
        for name in names:
            package = name.split(".")[0]
            if package != "crankwise":
                yield node.lineno, package


def test_you_may_only_look_down(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.chdir(HOUSE)
    assert lint_imports(no_cache=True, no_logo=True) == 0, capsys.readouterr().out


def room_of(path: Path) -> str:
    return path.relative_to(HOUSE / "src/crankwise").parts[0].removesuffix(".py")


def test_the_contract_names_every_room_of_the_trade() -> None:
    contract = (HOUSE / ".importlinter").read_text(encoding="utf-8")
    rooms = {room_of(path) for path in files_of_the_trade()}
    assert rooms
    unnamed = {room for room in rooms if f"    crankwise.{room}\n" not in contract}
    assert unnamed == set(), "add these to source_modules in .importlinter"


@pytest.mark.parametrize("path", files_of_the_trade(), ids=place)
def test_the_trade_imports_only_what_has_no_screen_disk_or_clock(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    allowed = ALLOWED | ALSO_ALLOWED.get(place(path), set())
    assert [found for found in imports_from_outside(tree) if found[1] not in allowed] == []


@pytest.mark.parametrize("path", files_of_the_trade(), ids=place)
def test_the_trade_calls_nothing_that_reaches_a_screen_or_a_disk(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    calls = [
        (node.lineno, node.func.id)
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in NEVER_CALLED
    ]
    assert calls == []
