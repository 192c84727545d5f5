"""Measure the head: plan it, find its errors from the readings, and look at the finished part.

examples:
  crankwise measure plan --head bench-head.toml --points 36 --reference index
      which settings to measure, so that wheel and worm can be told apart
  crankwise measure fit readings.csv --head bench-head.toml --out measured-head.toml
      the errors of wheel and worm, and a head file that knows them: divide --corrected uses it
  crankwise measure part pitches.csv --teeth 127 --module 1
      the deviations of a finished gear, the class it reaches, what they point to
  crankwise measure parts --head bench-head.toml --part a.toml a.csv --part b.toml b.csv --part c.toml c.csv
      what several finished parts tell of their head
"""

import argparse
from importlib import import_module

from crankwise.cli.parser import Parser, add_command

COMMANDS = ("plan", "fit", "kept", "part", "parts")
"""Each is a module of this room, measure_plan and so on, made as every command is."""


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the commands about measuring are."""
    commands = command.add_subparsers(metavar="COMMAND", required=True, parser_class=Parser)
    for name in COMMANDS:
        one = import_module(f"crankwise.cli.measure_{name}")
        add_command(commands, name, one.__doc__ or "", one.arguments, one.run)
