"""Size a clock wheel for its pinion: pitch circles, the height of its cycloidal teeth, the depthing.

examples:
  crankwise clock-wheel 60 --pinion 8 --module 0.5
      a wheel of 60 that drives a pinion of 8 leaves
  crankwise clock-wheel 96 --pinion 12 --module 0.8 --tip-share 1
      teeth of their full height
  crankwise clock-wheel 60 --pinion 8 --module 0.5 --json
      for a program: lengths as numbers in millimetres
"""

import argparse

from crankwise.cli.sized import take, tell, typed

_WHEEL = {
    "--pinion": ("N", "leaves of the pinion that it drives, 6 to 20"),
    "--module": ("M", "module in mm, as 1 or 0.8"),
    "--dp": ("P", "instead of a module: diametral pitch, teeth to an inch of pitch diameter, as 24"),
    "--tip-share": ("PART", "how much of the teeth's full height is kept, 0.8 to 1 (default 0.95)"),
}


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    command.add_argument("teeth", nargs="?", metavar="N", default="", help="teeth of the wheel, 20 to 500")
    take(command, _WHEEL)


def run(arguments: argparse.Namespace) -> int:
    """Print the cards, or the answer as JSON."""
    from crankwise.tasks.clock_wheel import ClockWheelTyped, clock_wheel_answer

    asked = ClockWheelTyped(arguments.teeth, **typed(arguments, _WHEEL))
    return tell(clock_wheel_answer(asked), arguments, asked)
