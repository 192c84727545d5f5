"""Say which settings to measure, in which order.

At least 8 points lie within one crank turn, at two places, and the rest all round, so that the errors of
wheel and worm cannot pass for each other.

examples:
  crankwise measure plan --head bench-head.toml --points 36 --reference index
      against an index table
  crankwise measure plan --head bench-head.toml --points 36 --reference closure --csv > run.csv
      by one fixed angle stepped round, which needs no reference; a file to fill in
  crankwise measure plan --head bench-head.toml --reference mirror --reverse --json
      there and back, which gives the backlash; for a program
"""

import argparse
import json
import sys

from crankwise.cli.asking import head_argument, json_argument


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    head_argument(command)
    command.add_argument("--points", metavar="N", help="readings wanted, in one direction (default 36)")
    command.add_argument(
        "--reference",
        default="index",
        metavar="KIND",
        help="index (default), polygon, gauges, indicator, mirror, or closure, which needs none",
    )
    command.add_argument(
        "--steps",
        metavar="N",
        help="angles that the reference knows in one turn, faces of a polygon, steps in a round of closure",
    )
    command.add_argument(
        "--reverse", action="store_true", help="measure back again too: that gives the backlash"
    )
    command.add_argument("--csv", action="store_true", help="print a file to fill in")
    json_argument(command)


def run(arguments: argparse.Namespace) -> int:
    """Print the settings to measure; 1 when none can tell the errors."""
    from crankwise.accuracy.calibration import CannotTell
    from crankwise.tasks.heads import load_head
    from crankwise.tasks.measure import plan_answer, plan_csv, plan_measuring

    try:
        plan = plan_measuring(
            load_head(arguments.head),
            arguments.points,
            arguments.reference,
            arguments.steps,
            arguments.reverse,
        )
    except CannotTell as reason:
        print(f"crankwise: {reason}", file=sys.stderr)
        return 1
    if arguments.json:
        print(json.dumps(plan_answer(plan), ensure_ascii=False))
    elif arguments.csv:
        print(plan_csv(plan), end="")
    else:
        from crankwise.cli.tables import printed
        from crankwise.wording.measure import plan_notes, plan_table

        print(printed(*plan_table(plan)))
        print("", *plan_notes(plan), sep="\n")
    return 0
