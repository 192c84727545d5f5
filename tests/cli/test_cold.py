"""A cold command loads nothing heavy that it does not use."""

import subprocess
import sys

import pytest

HEAVY = {
    "jinja2",
    "starlette",
    "uvicorn",
    "reportlab",
    "xlsxwriter",
    "sqlite3",
    "asyncio",
    "difflib",
    "pathlib",
}
LOADED = (
    "import sys; from crankwise.cli import main; main(sys.argv[1:]); print(*sys.modules, file=sys.stderr)"
)


def loaded(*words: str) -> set[str]:
    ran = subprocess.run([sys.executable, "-c", LOADED, *words], capture_output=True, text=True, check=True)
    return set(ran.stderr.split())


@pytest.mark.parametrize(
    "words",
    [
        ["divide", "127", "--head", "examples/bench-head.toml", "--json"],
        ["divide", "28", "--head", "examples/plate-head.toml", "--positions"],
        ["head", "check", "examples/bench-head.toml"],
    ],
    ids=" ".join,
)
def test_nothing_heavy_is_loaded(words: list[str]) -> None:
    modules = loaded(*words)
    assert "crankwise.files.head_toml" in modules
    assert modules & HEAVY == set()


def test_only_the_methods_that_the_head_has_the_means_for_are_loaded() -> None:
    modules = loaded("divide", "127", "--head", "examples/bench-head.toml", "--json")
    assert "crankwise.ways.dial" in modules
    assert "crankwise.ways.compound" not in modules
    assert "crankwise.cli.sheet" not in modules
