"""Say how far out a class lets the pitch of a gear be, and which class a gear reaches.

examples:
  crankwise tolerance --module 2 --teeth 50 --class 8
      single and cumulative pitch tolerance by ISO 1328-1:2013
  crankwise tolerance --module 2 --teeth 50 --measured-single 18um --measured-cumulative 50um
      the class that a measured gear reaches
  crankwise tolerance --dp 24 --teeth 36 --class 9 --measured-single 0.7thou --measured-cumulative 2thou
      whether it keeps class 9; exit code 1 when it does not
  crankwise tolerance --module 2 --teeth 30 --helix 30 --class 9
      of a helical gear, by its normal module
  crankwise tolerance --module 2 --teeth 50 --class 8 --standard iso-1995 --json
      by the older edition, for a program
"""

import argparse
import json
import sys

from crankwise.cli.asking import json_argument


def gear_arguments(command: argparse.ArgumentParser) -> None:
    """Add --teeth, --module, --dp and --helix."""
    command.add_argument("--teeth", metavar="Z", help="number of teeth, 3 or more")
    command.add_argument("--module", metavar="M", help="normal module, in mm")
    command.add_argument(
        "--dp", metavar="P", help="diametral pitch, in teeth to an inch of diameter, instead"
    )
    command.add_argument(
        "--helix",
        metavar="A",
        help="helix angle in degrees, to 60 (default 0: a spur gear); the module is the normal one",
    )


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    gear_arguments(command)
    command.add_argument("--class", dest="grade", metavar="A", help="class of the standard, 1 to 11")
    command.add_argument(
        "--standard",
        default="iso-2013",
        metavar="NAME",
        help="iso-2013 (default), iso-1995 or jis-1976; the formulas of the first two are recalled, not read",
    )
    command.add_argument(
        "--measured-single",
        metavar="LENGTH",
        help="largest deviation of a single pitch as measured: 18um or 0.7thou (bare: micrometres)",
    )
    command.add_argument(
        "--measured-cumulative",
        metavar="LENGTH",
        help="height of the cumulative curve as measured: 50um or 2thou (bare: micrometres)",
    )
    json_argument(command)


def run(arguments: argparse.Namespace) -> int:
    """Print the tolerance; 1 when the measured gear does not keep the class."""
    from crankwise.tasks.tolerance import asked_gear_size, tolerance, tolerance_answer

    found = tolerance(
        asked_gear_size(arguments.teeth, arguments.module, arguments.dp, arguments.helix),
        arguments.grade,
        arguments.standard,
        arguments.measured_single,
        arguments.measured_cumulative,
    )
    if arguments.json:
        print(json.dumps(tolerance_answer(found), ensure_ascii=False))
    else:
        from crankwise.wording.tolerance import tolerance_lines

        print(*tolerance_lines(found), sep="\n")
    for sentence in found.outside:
        print(f"crankwise: {sentence}; the figures go beyond it", file=sys.stderr)
    return 0 if found.keeps_it else 1
