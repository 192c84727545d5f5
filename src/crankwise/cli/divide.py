"""Find every way to divide, the best first, with its true error.

examples:
  crankwise divide 127 --head bench-head.toml
      every way to cut 127 parts on this head, and how far out the worst will be
  crankwise divide 127 --head bench-head.toml --rim 200mm --within 25um
      the same, told at a 200 mm rim; exit code 1 when none is within 25 micrometres
  crankwise divide 60 --head plate-head.toml --positions
      the settings of the best way, every one counted from the start
  crankwise divide 28 --head plate-head.toml --working
      the arithmetic of the best way, to be checked on paper
  crankwise divide --angles "0, 12.5, 30d15m, 1/7 turn" --head bench-head.toml
      a list of angles
  crankwise divide --job wheel.toml
      the part that a job file describes, on the head that it names
  crankwise divide 127 --head measured-head.toml --corrected
      settings that make good what the head was measured to be out, and what remains
  crankwise divide 127 --head bench-head.toml --json
      for a program: exact values as text
"""

import argparse
import json
import sys

from crankwise.cli.asking import asked, asked_job, head_argument, job_argument, json_argument, part_arguments

TYPE_CHECKING = False  # as typing has it, which takes a while to load
if TYPE_CHECKING:
    from crankwise.tasks.divide import Division

MOST_POSITIONS_UNASKED = 1000


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    part_arguments(command)
    head_argument(command, or_a_job=True)
    job_argument(command)
    json_argument(command)
    command.add_argument(
        "--positions",
        action="store_true",
        help="list every position of the best way (in JSON, of every way; the best way's are always there up to 1,000)",
    )
    command.add_argument(
        "--working",
        action="store_true",
        help="show the working of the best way as it is done on paper (in JSON, of every way)",
    )
    command.add_argument(
        "--corrected",
        action="store_true",
        help="make good the errors that the head file knows (crankwise measure fit); the run begins at its zeros",
    )


def run(arguments: argparse.Namespace) -> int:
    """Print the answer; 1 when no way is within the tolerance."""
    division = _division(arguments)
    head, part = division.head, division.part
    if arguments.json:
        from crankwise.tasks.answers import division_answer

        unasked = 1 if len(part.divisions) <= MOST_POSITIONS_UNASKED else 0
        listed = len(division.ways) if arguments.positions else unasked
        answer = division_answer(head, part, division.ways, listed, arguments.working)
        print(json.dumps(answer, ensure_ascii=False))
    else:
        _tell(division, arguments.positions, arguments.working)
    if division.is_answered:
        return 0
    from crankwise.wording.division import refusal_text

    told = refusal_text(head, division.ways, part, division.tolerance, division.why_none)
    print(f"crankwise: {told}", file=sys.stderr)
    return 1


def _division(arguments: argparse.Namespace) -> "Division":
    if arguments.job:
        from crankwise.tasks.jobs import divided

        loaded = asked_job(arguments)
        assert loaded.head is not None
        return divided(loaded.head, loaded.made, loaded.job.within, arguments.corrected)
    from crankwise.tasks.divide import divide

    return divide(*asked(arguments), arguments.within, arguments.corrected)


def _tell(division: "Division", positions: bool, working: bool) -> None:
    from crankwise.cli.tables import printed
    from crankwise.plan.plan import Plan
    from crankwise.wording.division import position_table, way_table
    from crankwise.wording.ways import method_name, setup_text, working_text

    if not division.ways:
        return
    print(printed(*way_table(division.ways, division.part, division.tolerance)))
    best = division.ways[0]
    print(f"\nFirst is {method_name(best)} ({setup_text(best)}): {division.reason}.")
    if positions:
        print()
        print(printed(*position_table(Plan(division.part, division.ways[0]))))
    if working:
        print(f"\nWorking: {method_name(best)}, {setup_text(best)}")
        for step in best.working():
            print(f"  {working_text(step)}")
    if best.corrects:
        from crankwise.plan.corrected import compared, correction_of
        from crankwise.wording.measure import corrected_lines

        print("", *corrected_lines(correction_of(best), compared(best)), sep="\n")
    _warn(division)


def _warn(division: "Division") -> None:
    from crankwise.tasks.answers import warnings_answer

    warnings = warnings_answer(division.head, division.part)
    if warnings:
        print("\nBeware:")
        for warning in warnings:
            print(f"  {warning['text']} [{warning['code']}]")
