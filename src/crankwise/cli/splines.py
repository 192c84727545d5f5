"""Size straight-sided splines: two circuits for the sides of the keys, one for the floors.

examples:
  crankwise splines 6x23x26
      six keys on 23 mm, 26 mm over them; ISO 14 tells their width
  crankwise splines 6x20x25x5 --floor-cutter 4mm
      a size of your own, keys 5 mm wide; where the floors are cut with a cutter of 4 mm
  crankwise splines 4x3/4inx1inx1/4in
      in inches
  crankwise splines 6x23x26 --json
      for a program: lengths as numbers in millimetres
"""

import argparse

from crankwise.cli.sized import take, tell, typed

_SIZE = "keys x diameter over floors x over keys, as 6x23x26 (bare: mm), and x width of a key"
_SPLINES = {
    "--floor-cutter": ("LENGTH", "width of the cutter for the floors, as 4mm: tells where they are cut"),
}


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    command.add_argument(
        "size",
        nargs="?",
        metavar="SIZE",
        default="",
        help=_SIZE,
    )
    take(command, _SPLINES)


def run(arguments: argparse.Namespace) -> int:
    """Print the cards, or the answer as JSON."""
    from crankwise.tasks.splines import SplinesTyped, splines_answer

    asked = SplinesTyped(arguments.size, **typed(arguments, _SPLINES))
    return tell(splines_answer(asked), arguments, asked)
