"""Say what measured parts tell of their head, and take over what you agree to.

Each part is its job file and its readings, as `measure part` reads them. What stands at the same place on
every part belongs to the head, what differs to the mounting. A part that was measured more than once counts
once, by the mean. Nothing is taken over but by --take, and then into a new head file. Exit code 1, with the
rule, when the parts are too few.

examples:
  crankwise measure parts --head bench-head.toml --part a.toml a.csv --part b.toml b.csv --part c.toml c.csv
      what they show, beside what the head file says
  crankwise measure parts --head bench-head.toml --part a.toml a.csv --part b.toml b.csv --part c.toml c.csv \\
      --take worm --take scatter --out known-head.toml
      and a head file that knows these two, and where they are from
  crankwise measure parts --head bench-head.toml --part a.toml a.csv 1 --part a.toml again.csv 1 \\
      --part b.toml b.csv --part c.toml c.csv
      piece 1 of the first job was measured twice, and counts once
"""

import argparse
import json
import sys

from crankwise.cli.asking import head_argument, json_argument, measured_argument


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    head_argument(command)
    command.add_argument(
        "--part",
        nargs="+",
        action="append",
        required=True,
        metavar=("JOB", "FILE"),
        help="job file of a part and its readings, once for each measurement; behind them the number or mark of the "
        "piece, where one was measured more than once: JOB FILE PIECE",
    )
    measured_argument(command)
    command.add_argument(
        "--take", action="append", default=[], metavar="NAME", help="take over what is shown under this name"
    )
    command.add_argument("--out", metavar="FILE", help="write the head file with what was taken over here")
    json_argument(command)


def run(arguments: argparse.Namespace) -> int:
    """Print what the parts tell of their head; 1 when they are too few."""
    from crankwise.cli.parser import BadCommand
    from crankwise.tasks.heads import write_head_file
    from crankwise.tasks.learn_files import learn_from_files
    from crankwise.tasks.learn_head import lesson_answer, with_learned
    from crankwise.wording.learning import (
        counted_text,
        left_out_lines,
        lesson_notes,
        lesson_table,
        refusal_text,
    )

    if bool(arguments.take) != bool(arguments.out):
        raise BadCommand("--take and --out go together: what is taken over is written to a new head file")
    if wrong := next((part for part in arguments.part if len(part) not in (2, 3)), None):
        raise BadCommand(
            f"--part {' '.join(wrong)}: a job file, its readings, and no more than the piece behind them"
        )
    found = learn_from_files(arguments.head, arguments.part, arguments.measured)
    if not found.lesson.is_enough:
        print(f"crankwise: {refusal_text(found.lesson, len(found.left_out))}", file=sys.stderr)
        return 1
    taken = with_learned(found, arguments.take) if arguments.take else None
    if taken:
        write_head_file(taken, arguments.out)
    if arguments.json:
        print(json.dumps(lesson_answer(found, taken), ensure_ascii=False))
        return 0
    from crankwise.cli.tables import printed

    print(printed(*lesson_table(found.lesson)))
    left_out = left_out_lines([(part.name, part.date, why) for part, why in found.left_out])
    counted = f"Learnt from {counted_text(found.lesson.parts, len(found.used))}"
    print("", *lesson_notes(found.lesson), counted, *left_out, sep="\n")
    if taken:
        print(f"Written: {arguments.out}, with {', '.join(arguments.take)} from {found.source}.")
    return 0
