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
  crankwise sheet --job wheel.toml --trace --cuts two --rough-depth 1.5mm --finish-depth 2.25mm --out wheel.pdf
      three passes on one sheet: a tick box for each at every position, counted on every page
  crankwise sheet --job ring.toml --order lengths --out ring.pdf
      all lines of one class before the next: a list for each, in the order worked; `--order spread
      --circuits 3` works every third position three times round
  crankwise sheet 149 --head bench-head.toml --wall --out wall.pdf
      the form for the wall: figures 10 mm high, to be read from two metres
  crankwise sheet 1000 --head bench-head.toml --wall --near --out wall.pdf
      for a long run: figures 5 mm high, to be read from one metre, on a third of the paper
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
    from crankwise.tasks.sheet import Wall


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
    command.add_argument(
        "--wall",
        action="store_true",
        help="form for the wall, .pdf only: figures to be read from two metres, without tick boxes",
    )
    command.add_argument(
        "--near",
        action="store_true",
        help="with --wall: figures half as high, to be read from one metre, on a third of the paper",
    )
    _pass_arguments(command.add_argument_group("passes", "how many times the run goes over its positions"))
    json_argument(command)


def _pass_arguments(group: "argparse._ArgumentGroup") -> None:
    """Ask for passes as the page of a job does."""
    group.add_argument(
        "--trace",
        action="store_true",
        help="a trace pass first: a faint mark at every position, to be counted",
    )
    group.add_argument(
        "--cuts", default="", metavar="CUTS", help="one (default), or two: roughing, then finishing"
    )
    group.add_argument(
        "--rough-depth", default="", metavar="LENGTH", help="roughing depth from the rim: 1.5mm"
    )
    group.add_argument(
        "--finish-depth",
        default="",
        metavar="LENGTH",
        help="full depth from the rim, of the finishing cut or of the only one: 1.8mm",
    )
    group.add_argument(
        "--order",
        default="",
        metavar="ORDER",
        help="straight (default): straight round; spread: in several circuits; lengths: long lines first",
    )
    group.add_argument(
        "--circuits",
        default="",
        metavar="K",
        help="circuits of a spread order: 3 works every third position, three times round",
    )
    group.add_argument(
        "--lengths",
        default="",
        metavar="LIST",
        help="every how many positions a longer line stands, the longest first: 10,5 (default: the job's own lines)",
    )


def run(arguments: argparse.Namespace) -> int:
    """Write the sheet and say so; 1 when no way is within the tolerance."""
    from crankwise.plan.plan import Plan
    from crankwise.tasks.asked_passes import AskedPasses, asked_passes
    from crankwise.tasks.sheet import chosen_way, form_of, read_paper, title_for, write_sheet

    form_of(arguments.out)
    paper = read_paper(arguments.paper)
    division, named, name, usual, setup = _division(arguments)
    part = division.part
    way = chosen_way(division, named)
    if way is None:
        from crankwise.wording.sheet import no_sheet_text

        told = no_sheet_text(division.head, division.ways, named, part, division.tolerance, division.why_none)
        print(f"crankwise: {told}", file=sys.stderr)
        return 1
    title = arguments.title or name or title_for(part, division.head.name)
    plan = Plan(part, way)
    typed = AskedPasses(**{name: getattr(arguments, name) for name in AskedPasses.__dataclass_fields__})
    passes = asked_passes(plan, typed)
    written = write_sheet(plan, title, arguments.out, paper, usual, setup, passes, _wall(arguments))
    if arguments.json:
        from crankwise.tasks.answers import FORMAT, way_answer
        from crankwise.tasks.asked_passes import passes_answer

        answer = {
            "format": FORMAT,
            "out": written.path,
            "form": written.form,
            "bytes": written.size,
            "paper": written.paper,
            "title": title,
            "wall": bool(written.wall),
            "near": written.wall == "near",
            "positions": len(part.divisions),
            "passes": passes_answer(plan, passes),
            "way": {"key": way.key} | way_answer(way, part, positions=False),
        }
        print(json.dumps(answer, ensure_ascii=False))
    else:
        from crankwise.wording.sheet import way_text, worst_text

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


def _wall(arguments: argparse.Namespace) -> "Wall | None":
    """Return from how far a sheet for the wall is to be read; None for one for the clipboard. Raises BadCommand."""
    if arguments.near and not arguments.wall:
        from crankwise.cli.parser import BadCommand

        raise BadCommand("--near: goes with the form for the wall; type --wall --near")
    return ("near" if arguments.near else "far") if arguments.wall else None
