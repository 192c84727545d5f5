"""The whole grammar of the command line: one line for each command."""

import argparse
from functools import partial
from importlib import import_module

from crankwise import __version__

COMMANDS = ("divide",)
"""Each is a module of this room, and its docstring is the command's help."""

_HELP = partial(argparse.RawDescriptionHelpFormatter, width=100)
"""Help of one width everywhere: the docs are made from it, and asking the terminal costs time at each start."""


def parser(only: str | None = None) -> argparse.ArgumentParser:
    """Return the parser of all commands, or of one only, so that no command waits for the others to load."""
    top = argparse.ArgumentParser(
        prog="crankwise",
        description="Divide the circle by hand: every way your own gear can do it, its true error, "
        "the settings to turn and read, and a guide through the run.",
        epilog="Exit code 0: answered. 1: the answer is no. 2: the input is wrong.",
        formatter_class=_HELP,
    )
    top.add_argument("--version", action="version", version=f"crankwise {__version__}")
    commands = top.add_subparsers(metavar="COMMAND", required=True, prog="crankwise")
    for name in [only] if only in COMMANDS else COMMANDS:
        command = import_module(f"crankwise.cli.{name}")
        summary, _, examples = (command.__doc__ or "").partition("\n\n")
        sub = commands.add_parser(
            name,
            help=summary.rstrip("."),
            description=summary,
            epilog=examples,
            formatter_class=_HELP,
        )
        command.arguments(sub)
        sub.set_defaults(run=command.run)
    return top
