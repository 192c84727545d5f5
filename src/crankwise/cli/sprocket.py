"""Size a sprocket for roller chain: diameters, the seats of the rollers, what is read over pins.

examples:
  crankwise sprocket 19 --chain 08B
      19 teeth for a chain of half an inch
  crankwise sprocket 13 --pitch 3/8in --roller 1/4in
      any other chain by its measures
  crankwise sprocket 19 --chain 08B --json
      for a program: lengths as numbers in millimetres
"""

import argparse

from crankwise.cli.sized import take, tell, typed

_SPROCKET = {
    "--chain": ("NUMBER", "number of the chain in ISO 606, as 06B, 08A, 08B"),
    "--pitch": ("LENGTH", "instead of a number: from roller to roller, as 12.7mm or 1/2in (bare: mm)"),
    "--roller": ("DIAMETER", "with --pitch: of a roller, as 8.51mm"),
    "--inner-width": (
        "LENGTH",
        "with --pitch: between the inner plates, as 7.75mm: tells the width of the teeth",
    ),
}


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    command.add_argument("teeth", nargs="?", metavar="N", default="", help="teeth, 6 to 200")
    take(command, _SPROCKET)


def run(arguments: argparse.Namespace) -> int:
    """Print the cards, or the answer as JSON."""
    from crankwise.tasks.sprocket import SprocketTyped, sprocket_answer

    asked = SprocketTyped(arguments.teeth, **typed(arguments, _SPROCKET))
    return tell(sprocket_answer(asked), arguments, asked)
