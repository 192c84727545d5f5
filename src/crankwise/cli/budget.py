"""Predict how good a part will be before it is cut: the error budget, ranked, with what would help most.

examples:
  crankwise budget --teeth 127 --module 1 --head bench-head.toml
      single and cumulative pitch deviation that 19 gears in 20 keep, and the class by ISO 1328-1
  crankwise budget --teeth 127 --module 1 --head bench-head.toml --holding arbor
      the same with the blank on an arbor instead of in a chuck
  crankwise budget 149 --rim 150mm --work line --head bench-head.toml --size worm=20 --size lock=0
      a graduated ring; the worm was measured, 20 seconds of arc to either side
  crankwise budget --teeth 127 --module 1 --head bench-head.toml --simulate 100000 --seed 7
      cut a hundred thousand gears in the computer as well
  crankwise budget --teeth 40 --module 2 --head plate-head.toml --picture errors.svg --wrong 17
      draw one such gear, and what a tooth that was set one hole too far does to it
  crankwise budget wheel.toml --holding arbor
      the part, the head and the way of a job file
  crankwise budget --teeth 127 --module 1 --head bench-head.toml --json
      for a program
"""

import argparse
import json
import sys

from crankwise.cli.asking import asked_job, head_argument, job_argument, json_argument, part_arguments
from crankwise.cli.parser import BadCommand
from crankwise.cli.tolerance import gear_arguments

TYPE_CHECKING = False  # as typing has it, which takes a while to load
if TYPE_CHECKING:
    from crankwise.accuracy.budget import Budget
    from crankwise.tasks.divide import Division
    from crankwise.tasks.job_file import LoadedJob


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    part_arguments(command)
    gear_arguments(command)
    head_argument(command, or_a_job=True)
    job_argument(command)
    command.add_argument(
        "--way", metavar="NAME", help="divide by this way, as divide names it, not by the best"
    )
    command.add_argument(
        "--work", default="", metavar="KIND", help="what is made: space (a gear's default), line, hole, flat"
    )
    command.add_argument(
        "--holding",
        metavar="HOW",
        help="how the work is held: chuck, collet, arbor or turned-in-place; each is typically so far off centre",
    )
    command.add_argument(
        "--size",
        action="append",
        default=[],
        metavar="CAUSE=SIZE",
        help="size of one cause, or a range: worm=20 or worm=10..60, in the unit of the cause's list (arcsec, mm, "
        "marks); as often as needed",
    )
    command.add_argument(
        "--both-sides",
        action="store_true",
        help="settings are come up to from either side, so that the backlash counts",
    )
    command.add_argument(
        "--simulate", metavar="GEARS", help="cut so many gears in the computer, 0 for none (default 20000)"
    )
    command.add_argument(
        "--seed", metavar="S", default="1", help="seed of the simulation (default 1), a number"
    )
    command.add_argument(
        "--picture", metavar="FILE", help="draw one part cut in the computer to this file, errors.svg"
    )
    command.add_argument(
        "--wrong",
        metavar="P",
        help="in the picture, position P is set one hole, mark or notch too far: so a wrong tooth looks; 'worst' for "
        "the position where that does most",
    )
    command.add_argument(
        "--explain",
        action="store_true",
        help="say what each cause is, how to measure it, and what to do about it",
    )
    json_argument(command)


def run(arguments: argparse.Namespace) -> int:
    """Print the budget; 1 when the head cannot divide the part so."""
    from crankwise.tasks.budget import budget_answer, simulated
    from crankwise.tasks.computer_cut import write_picture
    from crankwise.tasks.divide import Division
    from crankwise.wording.division import no_way_text

    job = _named_job(arguments)
    found = _budget(arguments, job)
    if isinstance(found, Division):
        named = arguments.way or (job.job.way if job else None)
        told = no_way_text(found.head, found.ways, named, found.part, found.tolerance, found.why_none)
        print(f"crankwise: {told}", file=sys.stderr)
        return 1
    progress = _show if sys.stderr.isatty() else None
    if arguments.picture:
        write_picture(found, arguments.seed, arguments.picture, arguments.wrong)
    elif arguments.wrong:
        raise BadCommand("--wrong: it goes with --picture, which shows it; see crankwise budget --help")
    cut = simulated(found.law, arguments.simulate, arguments.seed, progress)
    for sentence in found.outside:
        print(f"crankwise: {sentence}; the class goes beyond it", file=sys.stderr)
    if arguments.json:
        print(json.dumps(budget_answer(found, cut), ensure_ascii=False))
        return 0
    from crankwise.cli.tables import printed
    from crankwise.wording.accuracy import explained, share_table, told_after, told_before
    from crankwise.wording.job_accuracy import no_class_text

    print(*told_before(found), sep="\n")
    if job and (told := no_class_text(job.job.part.kind)):
        print(f"  {told}")
    print()
    print(printed(*share_table(found.shares)))
    print(*told_after(found, cut), sep="\n")
    if arguments.explain:
        print("", *explained(found), sep="\n")
    return 0


def _named_job(arguments: argparse.Namespace) -> "LoadedJob | None":
    """Return the job whose file was named, or None where the part was typed."""
    if arguments.divisions and arguments.divisions.lower().endswith(".toml") and not arguments.job:
        arguments.job, arguments.divisions = arguments.divisions, None
    if arguments.job:
        for name in ("teeth", "module", "dp", "helix"):
            if getattr(arguments, name):
                raise BadCommand(f"--{name}: the job file says what is made; give one or the other")
        return asked_job(arguments)
    return None


def _budget(arguments: argparse.Namespace, job: "LoadedJob | None") -> "Budget | Division":
    from crankwise.tasks.budget import asked_budget, job_file_budget

    if job:
        return job_file_budget(job, arguments.holding, arguments.size, arguments.both_sides)
    if not arguments.head:
        raise BadCommand(f"--head: missing; see {arguments.told_by} --help")
    return asked_budget(
        arguments.head,
        {
            name: getattr(arguments, name)
            for name in ("divisions", "angles", "start", "first", "last", "every")
        },
        rim=arguments.rim,
        within=arguments.within,
        teeth=arguments.teeth,
        module=arguments.module,
        dp=arguments.dp,
        helix=arguments.helix,
        work=arguments.work,
        way=arguments.way,
        holding=arguments.holding,
        sizes=arguments.size,
        both_sides=arguments.both_sides,
    )


def _show(done: int, of: int) -> None:
    """Draw how far the simulation has come on one line of the terminal; the last call clears it."""
    end = "\r\033[K" if done >= of else f"\rcutting gears: {done:,} of {of:,} (Ctrl-C stops)"
    print(end, end="", file=sys.stderr, flush=True)
