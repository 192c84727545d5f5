"""Size flats on a bar: the bar they need, how deep each is cut, and what to measure.

examples:
  crankwise flats 6 --across-flats 17mm
      a hexagon: the smallest bar with sharp corners, and the depth from it
  crankwise flats 4 --across-flats 1/2in --bar 5/8in
      a square on the bar at hand, whose round is left at the corners
  crankwise flats 3 --height 8mm
      an odd number of flats, by the height of each over the centre
  crankwise flats 2 --across-flats 14mm --bar 18mm
      two flats for a spanner
  crankwise flats --unequal "0: 8mm, 90: 9mm, 180: 8mm, 270: 7.5mm" --bar 22mm
      flats of different heights over the centre
  crankwise flats 6 --across-flats 17mm --json
      for a program: lengths as numbers in millimetres
"""

import argparse

from crankwise.cli.sized import take, tell, typed

_FLATS = {
    "--across-flats": ("LENGTH", "over two opposite flats, as 17mm or 1/2in (bare: mm)"),
    "--across-corners": (
        "LENGTH",
        "over two opposite sharp corners, or twice from the centre to one, as 20mm",
    ),
    "--side": ("LENGTH", "width of each flat between sharp corners, as 10mm"),
    "--height": ("LENGTH", "from the centre to each flat, as 8.5mm"),
    "--depth": ("LENGTH", "how deep each is cut, as 1.5mm; with --bar"),
    "--bar": ("DIAMETER", "of the bar (default: the smallest with sharp corners)"),
    "--unequal": (
        "LIST",
        "instead of N: each flat as its angle in degrees and its height, as 0: 8mm, 120: 9mm",
    ),
    "--tolerance": ("LENGTH", "how much smaller a distance across flats may come out (default 0.1 mm)"),
}


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    command.add_argument("count", nargs="?", metavar="N", default="", help="equal flats, 1 to 1000")
    take(command, _FLATS)


def run(arguments: argparse.Namespace) -> int:
    """Print the cards, or the answer as JSON."""
    from crankwise.tasks.flats import FlatsTyped, flats_answer

    asked = FlatsTyped(arguments.count, **typed(arguments, _FLATS))
    return tell(flats_answer(asked), arguments, asked)
