"""Lay out holes on circles: coordinates for the mill's dials, chords to check by, and what is left between.

examples:
  crankwise holes 7 --circle 60mm --hole 6mm
      seven holes all round: where each lies, and what callipers must read between them
  crankwise holes 12 --circle 4in --hole 1/4in --first-at straddle --centre 3in,2in
      two holes either side of the top; the dials read 3 in and 2 in over the centre
  crankwise holes 24 --circle 100mm --first 3 --last 9
      part of a circle: holes 3 to 9 of 24
  crankwise holes --angles "0, 30, 75, 190" --circle 80mm --hole 5mm
      holes at angles of your own
  crankwise holes 37 --circle 80mm --hole 3mm --also "41 on 90mm, 49 on 105mm" --blank 120mm
      several circles in one blank, as in a hole plate: a run for each
  crankwise holes --plate 15,16,17,18,19,20 --circle 110mm --hole 2.5mm --apart 7mm --blank 125mm
      the same for a whole hole plate, the circle with the most holes outermost
  crankwise holes 7 --circle 60mm --leadscrew 5mm --marks 100
      what the dials of both slides must show, by turns and marks
  crankwise holes 7 --circle 60mm --hole 6mm --json
      for a program: lengths as numbers in millimetres
"""

import argparse

from crankwise.cli.sized import LEADSCREW, take, tell, typed

_HOLES = {
    "--circle": ("DIAMETER", "of the circle through the holes' centres, as 60mm or 4in (bare: mm)"),
    "--hole": ("DIAMETER", "of the holes, as 6mm or 1/4in"),
    "--angles": ("LIST", "angles instead of N, rising, separated by commas (bare numbers are degrees)"),
    "--first": ("P", "first position drilled, from 0 (default 0)"),
    "--last": ("P", "last position that may be drilled (default N - 1)"),
    "--every": ("K", "drill only every K-th position (default 1)"),
    "--first-at": (
        "A",
        "position 0: right (default), top, left, bottom, straddle the top, or degrees anticlockwise from the right",
    ),
    "--centre": ("X,Y", "what both dials read over the circle's centre, as 40mm,25mm (default 0,0)"),
    "--also": (
        "LIST",
        "further circles in the same blank: 41 on 90mm, or 41 on 90mm hole 3mm; separated by commas",
    ),
    "--plate": (
        "LIST",
        "instead of N: a hole plate, the holes of each circle, as 15,16,17,18; the most on --circle, the others inward",
    ),
    "--apart": ("LENGTH", "with --plate: from one circle in to the next (default: twice the hole)"),
    "--blank": ("DIAMETER", "of a round blank, as 120mm: no hole may break out of it"),
    "--tolerance": ("LENGTH", "how far the distance of two holes may be out (default 0.1 mm)"),
}


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    command.add_argument("count", nargs="?", metavar="N", default="", help="holes all round")
    command.add_argument(
        "--clockwise", action="store_true", help="the positions go round clockwise (default: anticlockwise)"
    )
    take(command, _HOLES, LEADSCREW)


def run(arguments: argparse.Namespace) -> int:
    """Print the coordinates and the cards, or the answer as JSON."""
    from crankwise.tasks.holes import HolesTyped, holes_answer

    asked = HolesTyped(
        arguments.count, clockwise=arguments.clockwise, **typed(arguments, (*_HOLES, *LEADSCREW))
    )
    return tell(holes_answer(asked), arguments, asked)
