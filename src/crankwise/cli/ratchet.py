"""Size a ratchet wheel: the cutter's angle, how far it stands off centre, the infeed.

examples:
  crankwise ratchet 24 --outside 50mm --depth 3mm
      radial faces and sharp tips: the angle of the cutter that makes them
  crankwise ratchet 30 --outside 2in --depth 1/8in --cutter 55 --undercut 5
      by the cutter at hand: the land that it leaves; faces that lean by 5 degrees
  crankwise ratchet 59 --outside 80mm --depth 2mm --land 0.5mm --free clockwise
      a land of 0.5 mm; the wheel turns freely clockwise
  crankwise ratchet 24 --outside 50mm --depth 3mm --json
      for a program: lengths as numbers in millimetres
"""

import argparse

from crankwise.cli.sized import take, tell, typed

_RATCHET = {
    "--outside": ("DIAMETER", "outside diameter, as 50mm or 2in (bare: mm)"),
    "--depth": ("LENGTH", "depth of a tooth along its face, as 3mm"),
    "--land": ("LENGTH", "width left on top of each tooth, as 0.5mm (default 0: sharp)"),
    "--cutter": ("A", "instead of a land: angle of the single-angle cutter, in degrees, as 60"),
    "--undercut": ("A", "how far the faces lean over the space, in degrees, 0 to 20 (default 0: radial)"),
    "--free": ("WAY", "the way it turns freely, seen from the front: clockwise or anticlockwise (default)"),
}


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    command.add_argument("teeth", nargs="?", metavar="N", default="", help="teeth, 3 to 1000")
    take(command, _RATCHET)


def run(arguments: argparse.Namespace) -> int:
    """Print the cards, or the answer as JSON."""
    from crankwise.tasks.ratchet import RatchetTyped, ratchet_answer

    asked = RatchetTyped(arguments.teeth, **typed(arguments, _RATCHET))
    return tell(ratchet_answer(asked), arguments, asked)
