"""Exit codes, and one clear sentence for each thing that was typed wrong."""

import os
import subprocess
import sys

import pytest

from crankwise import __version__
from tests.cli.conftest import Typed


def test_alone_it_prints_its_help(typed: Typed) -> None:
    ran = typed()
    assert (ran.code, ran.err) == (0, "")
    assert "COMMAND" in ran.out
    assert "divide" in ran.out


def test_the_version_is_told(typed: Typed) -> None:
    assert typed("--version").out == f"crankwise {__version__}\n"


@pytest.mark.parametrize("words", [["--within", ""], ["--within="], ["--rim", "8in", "--first", ""]])
def test_an_option_without_its_value_is_told(typed: Typed, words: list[str]) -> None:
    ran = typed("divide", "12", "--head", "examples/plate-head.toml", *words)
    option = words[-2] if words[-1] == "" else "--within"
    assert (ran.code, ran.out) == (2, "")
    assert ran.err == (
        f"crankwise: {option}: nothing is given after it; give a value, or leave the option out\n"
    )


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["divde", "3"], "'divde' is not a command; did you mean divide?"),
        (["--foo"], "no command given; see crankwise --help"),
        (["divide", "127"], "--head: missing; see crankwise divide --help"),
        (
            ["divide", "127", "--head"],
            (
                "--head: it needs a value after it; a value that begins with a minus is written --head=-5; "
                "see crankwise divide --help"
            ),
        ),
        (
            ["divide", "127", "--head", "x", "--foo"],
            "--foo: this is not known here; see crankwise divide --help",
        ),
        (["divide", "127", "128", "--head", "x"], "128: this is not known here; see crankwise divide --help"),
        (["divide", "127", "--hea", "x"], "--hea x: this is not known here; see crankwise divide --help"),
        (
            ["divide", "127", "--head", "x", "--json=yes"],
            "--json: it takes no value, and 'yes' was given; see crankwise divide --help",
        ),
        (["head"], "no command given; see crankwise head --help"),
        (["head", "chek", "x"], "'chek': there is no such command; see crankwise head --help"),
        (["chart", "--head", "x", "--to", "3"], "--from: missing; see crankwise chart --help"),
        (
            ["chart", "--head", "x", "--from", "2", "--to", "3", "--json", "--csv"],
            "--csv: it does not go with --json; give one or the other; see crankwise chart --help",
        ),
    ],
)
def test_a_command_typed_wrong_earns_one_sentence_and_2(
    typed: Typed, words: list[str], sentence: str
) -> None:
    ran = typed(*words)
    assert (ran.code, ran.out, ran.err) == (2, "", f"crankwise: {sentence}\n")


def test_a_word_that_is_near_no_command_earns_the_list_of_them(typed: Typed) -> None:
    ran = typed("zzz")
    assert ran.code == 2
    assert ran.err.startswith("crankwise: 'zzz' is not a command; the commands are divide, ")


def test_with_json_an_error_goes_to_the_other_side_as_text(typed: Typed) -> None:
    ran = typed("divide", "0", "--head", "examples/bench-head.toml", "--json")
    assert (ran.code, ran.out) == (2, "")
    assert ran.err == "crankwise: divisions: 0; a circle is divided into 1 part or more\n"


def test_a_reader_that_has_seen_enough_is_no_fault_of_ours() -> None:
    command = [sys.executable, "-m", "crankwise", "chart", "--head", "examples/plate-head.toml"]
    with subprocess.Popen(
        [*command, "--from", "2", "--to", "5000", "--csv"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env={**os.environ, "PYTHONIOENCODING": "utf-8"},
    ) as running:
        assert running.stdout is not None
        assert running.stderr is not None
        running.stdout.readline()
        running.stdout.close()
        assert running.stderr.read() == b""
        assert running.wait() == 0
