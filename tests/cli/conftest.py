"""Type a command as a person would, and keep what came back."""

from collections.abc import Callable
from dataclasses import dataclass

import pytest

from crankwise.cli import main


@dataclass(frozen=True)
class Ran:
    """What one command did: its exit code, and what it said on either side."""

    code: int
    out: str
    err: str


Typed = Callable[..., Ran]


@pytest.fixture
def typed(capsys: pytest.CaptureFixture[str]) -> Typed:
    """Return a function that runs the words of one command."""

    def run(*words: str) -> Ran:
        try:
            code: object = main(words)
        except SystemExit as leaving:  # --help and --version leave so
            code = leaving.code
        assert isinstance(code, int)
        said = capsys.readouterr()
        return Ran(code, said.out, said.err)

    return run
