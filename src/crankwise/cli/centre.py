"""Say how far off centre something runs, which way, and how to move it, from indicator readings.

Turn the work under an indicator that stands still. The angle is the work's mark under the indicator; the
indicator rises where the surface stands out.

examples:
  crankwise centre --readings 0:0.00,90:0.03,180:0.05,270:0.02
      four readings in millimetres: how far, which way, how much at each of four jaws
  crankwise centre --readings 0:0,120:1.5,240:0.5 --unit thou --screws 0,120,240
      in thousandths of an inch, three screws
  crankwise centre --readings 0:0.00,90:0.03,180:0.05,270:0.02 --diameter 120mm --json
      a ring of 120 mm: how far out it reads for it; for a program
  crankwise centre --pointers 359.96:180.04,60:240,120.04:299.96,180.04:359.96,240:60,299.96:120.04 --diameter 120mm
      a ring read at two opposite pointers: each setting free of its being off centre, how far off it is, which way
"""

import argparse
import json
from fractions import Fraction

from crankwise.cli.asking import json_argument


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    command.add_argument(
        "--readings",
        metavar="LIST",
        help="angle and reading of 3 places or more, as 0:0.00,90:0.03 (angles in degrees)",
    )
    command.add_argument(
        "--pointers",
        metavar="LIST",
        help="a scale's readings at two opposite pointers instead, as 359.96:180.04,60:240 (angles in degrees)",
    )
    command.add_argument("--file", metavar="FILE", help="a CSV file with angle_deg and reading, instead")
    command.add_argument(
        "--unit", default="mm", metavar="UNIT", help="of the readings: mm (default), um, in, thou"
    )
    command.add_argument(
        "--screws", metavar="LIST", help="where the jaws or screws stand, in degrees (default 0,90,180,270)"
    )
    command.add_argument(
        "--diameter", metavar="LENGTH", help="of the scale that is read, where it is one: 120mm"
    )
    json_argument(command)


def run(arguments: argparse.Namespace) -> int:
    """Print how far off it is and what to do."""
    from crankwise.errors import BadNumber
    from crankwise.exact.length import read_diameter
    from crankwise.tasks.centre import IN_INCHES, centre, centre_answer, screw_angles

    diameter = read_diameter(arguments.diameter) if arguments.diameter else None
    screws = screw_angles(arguments.screws)
    if arguments.pointers:
        if arguments.readings or arguments.file:
            raise BadNumber("pointers", "given beside readings of an indicator; give one or the other")
        return _pointers(arguments.pointers, diameter, screws, arguments.json)
    found = centre(arguments.readings, arguments.file, arguments.unit)
    if arguments.json:
        print(json.dumps(centre_answer(found, screws, diameter), ensure_ascii=False))
        return 0
    from crankwise.wording.measure import centre_lines

    told = centre_lines(found, screws, diameter, inch_first=arguments.unit in IN_INCHES)
    print(*told, sep="\n")
    return 0


def _pointers(typed: str, diameter: Fraction | None, screws: tuple[Fraction, ...], as_json: bool) -> int:
    from crankwise.tasks.centre import both_pointers, pointers_answer

    both = both_pointers(typed, diameter)
    if as_json:
        print(json.dumps(pointers_answer(both, screws, diameter), ensure_ascii=False))
        return 0
    from crankwise.cli.tables import printed
    from crankwise.wording.measure import NOT_YET_CENTRED, centre_lines, pointer_table

    print(printed(*pointer_table(both.rows, both.told)))
    lines = centre_lines(both.found, screws, diameter, by_pointers=True) if both.found else [NOT_YET_CENTRED]
    print("", *lines, sep="\n")
    return 0
