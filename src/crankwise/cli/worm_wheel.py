"""Size a worm wheel: its blank, the tilt of the head, the gashes, and what the hob then finishes.

examples:
  crankwise worm-wheel 72 --module 1 --worm 20mm
      a wheel of 72 teeth for a single-start worm of 20 mm pitch diameter
  crankwise worm-wheel 40 --pitch 1/8in --worm 5/8in --starts 2 --hand left
      by the worm's axial pitch, two starts, left hand
  crankwise worm-wheel 72 --module 1 --worm 20mm --json
      for a program: lengths as numbers in millimetres
"""

import argparse

from crankwise.cli.sized import take, tell, typed

_WHEEL = {
    "--module": ("M", "module in mm, as 1 or 0.8"),
    "--dp": ("P", "instead of a module: diametral pitch, teeth to an inch of pitch diameter, as 24"),
    "--pitch": ("LENGTH", "instead of a module: from tooth to tooth, as 1/8in or 3mm"),
    "--worm": ("DIAMETER", "pitch diameter of the worm and its hob, as 20mm or 5/8in (bare: mm)"),
    "--starts": ("N", "threads of the worm, 1 to 12 (default 1)"),
    "--hand": ("HAND", "of the worm: right or left (default right)"),
    "--pressure-angle": ("A", "in degrees, 10 to 35 (default 20)"),
}


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    command.add_argument("teeth", nargs="?", metavar="N", default="", help="teeth of the wheel, 12 or more")
    take(command, _WHEEL)


def run(arguments: argparse.Namespace) -> int:
    """Print the cards, or the answer as JSON."""
    from crankwise.tasks.worm_wheel import WormWheelTyped, worm_wheel_answer

    asked = WormWheelTyped(arguments.teeth, **typed(arguments, _WHEEL))
    return tell(worm_wheel_answer(asked), arguments, asked)
