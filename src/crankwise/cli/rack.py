"""Size a straight rack, and tell where the slide's dial stands for each of its spaces.

With --head the slide is one that you have described under [slide] in a head file. With --job a job file is
written, and the slide with it.

examples:
  crankwise rack 40 --module 1 --leadscrew 5mm --marks 100
      where each of 40 spaces lies, in turns and marks of the screw; nothing is ever stepped
  crankwise rack 60 --dp 24 --leadscrew 1/10in --marks 100 --read-to 1/2
      by diametral pitch, on an inch screw whose marks are read to a half
  crankwise rack 60 --module 1 --head examples/mill-table.toml
      on a slide of your own, whose travel its file says too
  crankwise rack 200 --module 1.5 --travel 400mm
      whether the slide goes so far, and how many spaces it does
  crankwise rack 40 --module 1 --json
      for a program: lengths as numbers in millimetres
"""

import argparse

from crankwise.cli.sized import LEADSCREW, take, tell, typed

_RACK = {
    "--module": ("M", "module in mm, as 1 or 0.8"),
    "--dp": ("P", "instead of a module: diametral pitch, teeth to an inch of pitch diameter, as 24"),
    "--pitch": ("LENGTH", "instead of a module: from tooth to tooth, as 1/8in or 3mm"),
    "--pressure-angle": ("A", "in degrees, 10 to 35 (default 20)"),
    "--travel": (
        "LENGTH",
        "how far the slide goes, as 400mm, where its head file does not say: says when the rack is too long for it",
    ),
}


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    command.add_argument("teeth", nargs="?", metavar="N", default="", help="spaces to cut, 1 to 10,000")
    take(command, _RACK, LEADSCREW)


def run(arguments: argparse.Namespace) -> int:
    """Print the cards, or the answer as JSON."""
    from crankwise.tasks.heads import load_head
    from crankwise.tasks.rack import RackTyped, rack_answer

    asked = RackTyped(arguments.teeth, **typed(arguments, (*_RACK, *LEADSCREW)))
    slide = load_head(arguments.head) if arguments.head else None
    return tell(rack_answer(asked, slide), arguments, asked, uses_head=True)
