"""Every page is run: the commands it shows say what it shows, and its sums come out.

A block marked `console` holds commands after "$ " with what they print; a line "..." stands for any
lines, and "..." in a line for the rest of it. A block marked `sums` holds the arithmetic as a machinist
writes it: `what: 40 / 28 = 1 3/7`, where x is times and a value that is rounded says "about".
"""

import ast
import operator
import re
import shlex
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest

from crankwise.exact.number import read_number
from crankwise.wording.figures import decimal
from crankwise.wording.ways import METHODS
from tests.cli.conftest import Typed, typed
from tests.house.tracked import HOUSE

__all__ = ["typed"]  # the fixture that runs a command

PAGES = [HOUSE / "README.md", *sorted((HOUSE / "docs").rglob("*.md"))]
_BLOCK = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_SUM = re.compile(r"(?:(?P<what>.+): )?(?P<sum>[^=:]+) = (?P<about>about )?(?P<value>-?[\d ./]+)(?: .*)?")
_DO = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
}


def blocks(kind: str) -> Iterator[tuple[str, str]]:
    for page in PAGES:
        for found in _BLOCK.finditer(page.read_text(encoding="utf-8")):
            if found[1] == kind:
                line = page.read_text(encoding="utf-8")[: found.start()].count("\n") + 2
                yield f"{page.relative_to(HOUSE).as_posix()}:{line}", found[2]


def commands() -> Iterator[tuple[str, str, str]]:
    for place, block in blocks("console"):
        for piece in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
            command, _, shown = piece.partition("\n")
            yield place, command, shown


@pytest.mark.parametrize(
    ("place", "command", "shown"), [*commands()], ids=lambda text: text.split("\n")[0][:60]
)
def test_a_command_says_what_the_page_shows(
    typed: Typed, place: str, command: str, shown: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(HOUSE)
    program, *words = shlex.split(command)
    assert program == "crankwise", place
    ran = typed(*words)
    expected = "".join(
        r"(?:.*\n)+?" if line == "..." else re.escape(line).replace(r"\.\.\.", ".*") + r"\n"
        for line in shown.splitlines()
    )
    said = re.sub(r"[ ]+$", "", ran.out + ran.err, flags=re.MULTILINE)
    gone = [line for line in shown.splitlines() if "..." not in line and line not in said.splitlines()]
    assert re.fullmatch(expected, said), (
        f"{place} is stale: no longer said: {gone}; it says now:\n{said[:2000]}"
    )


def worked(expression: str) -> Fraction:
    """Return a sum's value: whole numbers, decimals, + - x / and brackets, exactly."""

    def value(node: ast.expr) -> Fraction:
        if isinstance(node, ast.BinOp) and type(node.op) in _DO:
            done: Fraction = _DO[type(node.op)](value(node.left), value(node.right))
            return done
        if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
            return -value(node.operand)
        assert isinstance(node, ast.Constant), expression
        return Fraction(str(node.value))

    return value(ast.parse(expression.replace(" x ", " * ").strip(), mode="eval").body)


def sums() -> Iterator[tuple[str, str]]:
    for place, block in blocks("sums"):
        for line in block.splitlines():
            if line.strip():
                yield place, line


@pytest.mark.parametrize(("place", "line"), [*sums()], ids=lambda text: text[:60])
def test_a_sum_comes_out(place: str, line: str) -> None:
    match = _SUM.fullmatch(line)
    assert match, f"{place}: not a sum: {line}"
    value, said = worked(match["sum"]), match["value"].strip()
    if match["about"]:
        assert decimal(value, len(said.partition(".")[2])) == said, place
    else:
        assert value == read_number(said), place


def test_pages_are_run_at_all() -> None:
    assert len(list(commands())) >= 6
    assert len(list(sums())) >= 15


@pytest.mark.parametrize("method", METHODS)
def test_every_method_has_its_page_with_a_worked_example(method: str) -> None:
    page = HOUSE / f"docs/trade/{method}.md"
    assert page.is_file()
    text = page.read_text(encoding="utf-8")
    assert "```sums" in text
    assert "```console" in text


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_every_link_leads_somewhere(page: Path) -> None:
    for target in re.findall(r"\]\(([^)#]+)(?:#[^)]*)?\)", page.read_text(encoding="utf-8")):
        if "://" not in target:
            assert (page.parent / target).exists(), f"{page.name}: {target}"
