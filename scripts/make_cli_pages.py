"""Make docs/commands.md from what --help says, so that the page cannot lie."""

import argparse
import sys
from collections.abc import Iterator
from pathlib import Path

from crankwise.cli.parser import parser

PAGE = Path(__file__).parents[1] / "docs" / "commands.md"
_OPENING = """# The commands

This page is made by `make docs` from what `--help` says; the tests fail when it is stale.

Results go to standard output, everything else to standard error. Every command has `--json`; what is promised
about those answers is told in [json.md](json.md). The file that describes your gear is told in
[head-file.md](head-file.md).
"""


def page() -> str:
    """Return the whole page."""
    top = parser()
    sections = [f"## {name}\n\n```\n{help_text}```\n" for name, help_text in _helps("crankwise", top)]
    return "\n".join([_OPENING, *sections])


def _helps(name: str, command: argparse.ArgumentParser) -> Iterator[tuple[str, str]]:
    yield name, command.format_help()
    for action in command._actions:
        if isinstance(action, argparse._SubParsersAction):
            for word, sub in action.choices.items():
                yield from _helps(f"{name} {word}", sub)


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
    sys.stdout.write(f"{PAGE.name} written\n")
