"""Write the run sheet for the clipboard: every setting counted from the start, with its check and its tick box.

examples:
  crankwise sheet 149 --head bench-head.toml --work line --rim 150mm --out tide-ring.pdf
      the sheet of the best way, printed on A4; `--paper letter` for the other
  crankwise sheet 60 --head plate-head.toml --way plain --title "Minute wheel" --out wheel.pdf
      the sheet of one way, named by its method, or by its key when there are several of one method
  crankwise sheet 127 --head bench-head.toml --within 45arcsec --out run.csv
      a table for a spreadsheet; exit code 1, and nothing written, when no way is within the tolerance
  crankwise sheet --job wheel.toml --out wheel.pdf
      the sheet of a job file, with the line class and the numeral of every line where it has them
  crankwise sheet --angles "0, 12.5, 30d15m" --head bench-head.toml --out holes.html --json
      one page for a browser; what was written is told as JSON
"""

import argparse
import json
import sys
from dataclasses import replace

from crankwise.cli.asking import asked, asked_job, head_argument, job_argument, json_argument, part_arguments

TYPE_CHECKING = False  # as typing has it, which takes a while to load
if TYPE_CHECKING:
    from crankwise.tasks.divide import Division


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    part_arguments(command)
    head_argument(command, or_a_job=True)
    job_argument(command)
    command.add_argument(
        "--out",
        required=True,
        metavar="FILE",
        help="file to write, whole or not at all; its ending says the form: .pdf, .html, .xlsx or .csv",
    )
    command.add_argument(
        "--paper", default="A4", help="paper that a PDF is laid out for: A4 (default) or letter"
    )
    command.add_argument(
        "--way",
        metavar="KEY",
        help="way to use, by its method (dial, plain, ...) or its key; the best one when not given",
    )
    command.add_argument("--title", metavar="TEXT", help="name of the job, for the head of the sheet")
    command.add_argument(
        "--work",
        metavar="KIND",
        help="what is made at each position: space, line, hole, flat or position (default; a job file says it "
        "itself); the cautions follow it",
    )
    json_argument(command)


def run(arguments: argparse.Namespace) -> int:
    """Write the sheet and say so; 1 when no way is within the tolerance."""
    from crankwise.plan.plan import Plan
    from crankwise.tasks.sheet import chosen_way, form_of, read_paper, title_for, write_sheet

    form_of(arguments.out)
    paper = read_paper(arguments.paper)
    division, named, name, usual, setup = _division(arguments)
    part = division.part
    way = chosen_way(division, named)
    if way is None:
        from crankwise.wording.sheet import no_sheet_text

        told = no_sheet_text(division.head, division.ways, named, part, division.tolerance)
        print(f"crankwise: {told}", file=sys.stderr)
        return 1
    title = arguments.title or name or title_for(part, division.head.name)
    written = write_sheet(Plan(part, way), title, arguments.out, paper, usual, setup)
    if arguments.json:
        from crankwise.tasks.answers import FORMAT, way_answer

        answer = {
            "format": FORMAT,
            "out": written.path,
            "form": written.form,
            "bytes": written.size,
            "paper": written.paper,
            "title": title,
            "positions": len(part.divisions),
            "way": {"key": way.key} | way_answer(way, part, positions=False),
        }
        print(json.dumps(answer, ensure_ascii=False))
    else:
        from crankwise.wording.sheet import way_text, worst_text

        plan = Plan(part, way)
        print(f"{written.path}: {title}\n{way_text(plan)}\nworst error: {worst_text(plan)}")
    return 0


def _division(
    arguments: argparse.Namespace,
) -> "tuple[Division, str | None, str, tuple[str, ...], tuple[tuple[str, str], ...]]":
    """Return the division, the way named, the job's name, the cautions of its kind of part, and what else is set."""
    from crankwise.tasks.sheet import read_work

    if arguments.job:
        from crankwise.tasks.jobs import ways_for

        if arguments.work:
            read_work(arguments.work)
        loaded = asked_job(arguments)
        assert loaded.head is not None
        division = ways_for(loaded.job, loaded.head, loaded.made)
        return division, loaded.job.way or None, loaded.job.name, loaded.made.cautions, loaded.made.setup
    from crankwise.tasks.divide import divide

    work = read_work(arguments.work or "position")
    head, part = asked(arguments)
    return divide(head, replace(part, work=work), arguments.within), arguments.way, "", (), ()
