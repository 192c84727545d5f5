"""Lay out a list of angles of your own, each with a text that is told at its position.

examples:
  crankwise angles "0: top; 32d30m: inlet opens; 180: bottom; 245: inlet closes"
      four angles with their texts, and the angles from each to the next
  crankwise angles "0; 90; 135; 270" --rim 60mm
      angles without texts
  crankwise angles --file docs/trade/cam-angles.txt
      from a file, one angle: text a line; lines that begin with # are passed over
  crankwise angles "0: top; 180: bottom" --json
      for a program: exact angles as text
"""

import argparse

from crankwise.cli.parser import BadCommand
from crankwise.cli.sized import take, tell, typed

_LIST = {
    "--file": ("FILE", "instead of LIST: a text file, one angle: text a line"),
    "--rim": ("DIAMETER", "diameter at which errors are told as lengths: 200mm or 8in (bare: mm)"),
}


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    command.add_argument(
        "angles",
        nargs="?",
        metavar="LIST",
        default="",
        help="angle: text, rising, separated by semicolons (bare numbers are degrees)",
    )
    take(command, _LIST)


def run(arguments: argparse.Namespace) -> int:
    """Print the positions, or the answer as JSON."""
    from crankwise.tasks.own_list import ListTyped, list_answer, list_file

    if bool(arguments.angles) == bool(arguments.file):
        given = "both given" if arguments.file else "nothing given"
        raise BadCommand(
            f"LIST and --file: {given}; give the list itself, as '0: open; 90: close', or its file"
        )
    told = list_file(arguments.file) if arguments.file else arguments.angles
    asked = ListTyped(told, typed(arguments, ["--rim"])["rim"])
    return tell(list_answer(asked), arguments, asked)
