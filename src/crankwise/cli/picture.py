"""Draw the part of a job file at full size: a print to check and to mark out by, or a file to engrave by.

examples:
  crankwise picture wheel.toml --out wheel.pdf
      on A4, with bars of 100 mm and 4 in to measure; a large part comes on several sheets to join;
      the job file is kept by any command that sizes a part, with --job
  crankwise picture wheel.toml --out wheel.pdf --scale-measured 99.6mm
      for a printer on which the bar of 100 mm measures 99.6 mm: printed again, it measures 100 mm
  crankwise picture ring.toml --out ring.svg --position 12
      one sheet for a browser or a drawing program, the tool shown at position 12
  crankwise picture ring.toml --out ring.dxf
      for an engraver or a laser: lines along their middle, numerals as strokes, a layer for each
"""

import argparse
import json

from crankwise.cli.asking import json_argument


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    command.add_argument("file", metavar="FILE", help="job file (TOML) of the part; its head is not needed")
    command.add_argument(
        "--out",
        required=True,
        metavar="FILE",
        help="file to write, whole or not at all; its ending says the form: .pdf, .svg or .dxf",
    )
    command.add_argument(
        "--paper",
        default="A4",
        help="paper that a PDF is laid out for: A4 (default), A3 to A0, letter or tabloid",
    )
    command.add_argument(
        "--scale-measured",
        metavar="LENGTH",
        default="",
        help="what the bar of 100 mm measures on your print, as 99.6mm, or of 4 in, as 3.98in; two lengths parted by a "
        "comma for across and down (default: true)",
    )
    command.add_argument(
        "--position", metavar="P", default="", help="show the tool at this position (default: no tool)"
    )
    json_argument(command)


def run(arguments: argparse.Namespace) -> int:
    """Write the drawing and say so."""
    from crankwise.tasks.job_file import load_job
    from crankwise.tasks.picture import write_picture

    made = load_job(arguments.file, with_head=False).made
    written = write_picture(
        made, arguments.out, arguments.paper, arguments.scale_measured, arguments.position
    )
    if arguments.json:
        from crankwise.tasks.answers import FORMAT

        answer = {
            "format": FORMAT,
            "out": written.path,
            "form": written.form,
            "bytes": written.size,
            "name": written.name,
            "sheets": written.sheets,
            "paper": written.paper,
        }
        print(json.dumps(answer, ensure_ascii=False))
    else:
        from crankwise.wording.picture import written_text

        print(
            f"{written.name}\n{written_text(written.path, written.form, written.sheets, written.paper or '')}"
        )
    return 0
