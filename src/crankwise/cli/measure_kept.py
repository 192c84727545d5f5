"""Show the calibrations that a head file keeps, put one of them in force, or drop one.

The latest is in force, unless an older one was put in force again: divide --corrected goes by it. What is
dropped is left out of a new head file; the file that has it stays as it is.

examples:
  crankwise measure kept --head measured-head.toml
      when and how it was measured, and how surely its errors are known
  crankwise measure kept --head measured-head.toml --in-force 1 --out head-as-in-spring.toml
      the first of them in force again, in a new head file
  crankwise measure kept --head measured-head.toml --drop 1 --out head-without-it.toml
      the first left out of a new head file, with all that it said of sizes
"""

import argparse
import json

from crankwise.cli.asking import head_argument, json_argument


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    head_argument(command)
    command.add_argument("--in-force", metavar="N", help="put this one in force, numbered as they are listed")
    command.add_argument("--drop", metavar="N", help="leave this one out, numbered as they are listed")
    command.add_argument(
        "--out", metavar="FILE", help="write the head file with it in force, or without it, here"
    )
    json_argument(command)


def run(arguments: argparse.Namespace) -> int:
    """Print the calibrations kept, and write the head file that was asked for."""
    from crankwise.errors import BadNumber
    from crankwise.tasks.calibrations import calibrations_answer, drop_calibration, put_in_force
    from crankwise.tasks.heads import load_head, write_head_file

    if arguments.in_force and arguments.drop:
        raise BadNumber("in-force", "one thing at a time; put one in force, or drop one")
    if bool(arguments.in_force or arguments.drop) != bool(arguments.out):
        what = "drop" if arguments.drop else "in-force"
        raise BadNumber(what, "goes with --out, the head file to write it to, and that with it")
    head = load_head(arguments.head)
    if arguments.in_force:
        head = put_in_force(head, arguments.in_force)
    if arguments.drop:
        head = drop_calibration(head, arguments.drop)
        _refuse_the_file_itself(arguments.head, arguments.out)
    if arguments.out:
        write_head_file(head, arguments.out)
    if arguments.json:
        print(json.dumps({"format": 1, "calibrations": calibrations_answer(head)}, ensure_ascii=False))
        return 0
    from crankwise.wording.calibration import kept_lines

    print(*kept_lines(head), sep="\n")
    return 0


def _refuse_the_file_itself(head: str, out: str) -> None:
    """Refuse to write over the one file that has what is dropped."""
    from pathlib import Path

    from crankwise.errors import BadFile

    if Path(out).exists() and Path(out).samefile(head):
        raise BadFile(
            f"{out}: this is the file that has it, and its readings would be lost; write to another file"
        )
