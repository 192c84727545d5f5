"""The whole grammar of the command line: one line for each command."""

import argparse
import re
from collections.abc import Callable
from functools import partial
from importlib import import_module
from typing import NoReturn

from crankwise import __version__
from crankwise.errors import Mendable

COMMANDS = (
    "divide",
    "sheet",
    "chart",
    "train",
    "gear",
    "graduate",
    "holes",
    "flats",
    "angles",
    "worm-wheel",
    "rack",
    "ratchet",
    "splines",
    "sprocket",
    "clock-wheel",
    "picture",
    "budget",
    "tolerance",
    "measure",
    "centre",
    "head",
    "pocket",
    "serve",
    "demo",
    "backup",
)
"""Each is a module of this room, an underscore for a hyphen, and its docstring is the command's help."""

HELP = partial(argparse.RawDescriptionHelpFormatter, width=100)
"""Help of one width everywhere: the docs are made from it, and asking the terminal costs time at each start."""

_SENTENCES = (
    (r"unrecognized arguments: (.+)", r"\1: this is not known here"),
    (r"the following arguments are required: COMMAND", r"no command given"),
    (r"the following arguments are required: (.+)", r"\1: missing"),
    (
        r"argument (\S+): expected one argument",
        r"\1: it needs a value after it; a value that begins with a minus is written \1=-5",
    ),
    (
        r"argument (\S+): not allowed with argument (\S+)",
        r"\1: it does not go with \2; give one or the other",
    ),
    (r"argument (\S+): ignored explicit argument (.+)", r"\1: it takes no value, and \2 was given"),
    (r"argument \S+: invalid choice: ('[^']*').*", r"\1: there is no such command"),
    (r"argument (\S+): invalid int value: (.+)", r"\1: \2 is not a whole number"),
    (r"argument (\S+): (.+)", r"\1: \2"),
)
"""What argparse says, and what we say."""


class BadCommand(Mendable):
    """A command line that cannot be understood."""


class Parser(argparse.ArgumentParser):
    """A parser that raises one clear sentence and knows no abbreviated options, which could not stay stable."""

    def __init__(self, *arguments: object, **options: object) -> None:
        super().__init__(*arguments, **{"allow_abbrev": False, "formatter_class": HELP} | options)  # type: ignore[arg-type]

    told_by = ""
    """The command whose help tells what is right, where that is not this parser's own."""

    def error(self, message: str) -> NoReturn:
        """Raise BadCommand: what was found, and where the right is told."""
        for pattern, sentence in _SENTENCES:
            match = re.fullmatch(pattern, message, re.DOTALL)
            if match:
                message = match.expand(sentence)
                break
        raise BadCommand(f"{message}; see {self.told_by or self.prog} --help")


def parser(only: str | None = None) -> Parser:
    """Return the parser of all commands, or of one only, so that no command waits for the others to load."""
    top = Parser(
        prog="crankwise",
        description="Divide the circle by hand: every way your own gear can do it, its true error,\n"
        "the settings to turn and read, and a guide through the run.",
        epilog="Exit code 0: answered. 1: the answer is no. 2: the input is wrong.",
    )
    top.told_by = f"crankwise {only}" if only in COMMANDS else ""
    top.add_argument("--version", action="version", version=f"crankwise {__version__}")
    commands = top.add_subparsers(metavar="COMMAND", required=True, prog="crankwise", parser_class=Parser)
    for name in [only] if only in COMMANDS else COMMANDS:
        command = import_module(f"crankwise.cli.{name.replace('-', '_')}")
        add_command(commands, name, command.__doc__ or "", command.arguments, getattr(command, "run", None))
    return top


def add_command(
    commands: "argparse._SubParsersAction[Parser]",
    name: str,
    told: str,
    arguments: Callable[[argparse.ArgumentParser], None],
    run: Callable[[argparse.Namespace], int] | None = None,
) -> None:
    """Add one command; `told` is its summary, an empty line, and its worked examples.

    A command that has commands of its own needs no `run`: theirs is run.
    """
    summary, _, examples = told.partition("\n\n")
    sub = commands.add_parser(name, help=summary.rstrip("."), description=summary, epilog=examples)
    arguments(sub)
    if run:
        sub.set_defaults(run=run)
