"""Measure the head: plan it, find its errors from the readings, and look at the finished part.

examples:
  crankwise measure plan --head bench-head.toml --points 36 --reference index
      which settings to measure, so that wheel and worm can be told apart
  crankwise measure fit readings.csv --head bench-head.toml --out measured-head.toml
      the errors of wheel and worm, and a head file that knows them: divide --corrected uses it
  crankwise measure part pitches.csv --teeth 127 --module 1
      the deviations of a finished gear, the class it reaches, what they point to
  crankwise measure parts --head bench-head.toml --part a.toml a.csv --part b.toml b.csv --part c.toml c.csv
      what several finished parts tell of their head
"""

import argparse
import json
import sys

from crankwise.cli.asking import head_argument, json_argument
from crankwise.cli.parser import Parser, add_command

_PLAN = """Say which settings to measure, in which order.

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
_FIT = """Find the errors of a head from readings.

A reference run is a CSV file with the columns setting_deg and measured_deg, and direction (forward or back)
where some were come to by turning back. A closure run has step, start_deg and gauge_arcsec. Exit code 1,
with the reason, when the readings cannot tell.

examples:
  crankwise measure fit readings.csv --head bench-head.toml
      how large, how surely, and which readings stand out
  crankwise measure fit readings.csv --head bench-head.toml --out measured-head.toml
      and write the head file that knows its errors
  crankwise measure fit closure.csv --head bench-head.toml --only wheel --json
      the wheel alone; for a program
"""
_KEPT = """Show the calibrations that a head file keeps, put one of them in force, or drop one.

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
_PART = """Say how good a finished part came out, and what its deviations point to.

A CSV file with one of these columns, in order round the part, the way the work advanced: pitch_um (a
comparator carried from pitch to pitch, from any zero), chord_mm (centre to centre from each hole to the
next), position_deg (measured angles), or size_mm (over pins or across teeth at several places). Lengths may
be inches: pitch_thou, chord_in, size_in; or each cell names its own unit. A file without a heading holds
what --measured says. With a job the part is held against its prediction too.

examples:
  crankwise measure part pitches.csv --job wheel-127.toml --report wheel.pdf
      a gear from its job file: deviations, class, cause, the prediction beside them, a report to keep
  crankwise measure part spans.csv --job wheel-127.toml --of "span over 15" --measured size_mm
      a size of the measuring card at several places, held against the card's limits
  crankwise measure part pitches.csv --teeth 127 --module 1
      without a job: single and cumulative pitch deviation, and the class reached
  crankwise measure part chords.csv
      holes on a circle, whose diameter is found with them
  crankwise measure part lines.csv --rim 150mm --json
      lines measured as angles; for a program
"""

_PARTS = """Say what measured parts tell of their head, and take over what you agree to.

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


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the commands about measuring are."""
    commands = command.add_subparsers(metavar="COMMAND", required=True, parser_class=Parser)
    add_command(commands, "plan", _PLAN, _plan_arguments, _plan)
    add_command(commands, "fit", _FIT, _fit_arguments, _fit)
    add_command(commands, "kept", _KEPT, _kept_arguments, _kept)
    add_command(commands, "part", _PART, _part_arguments, _part)
    add_command(commands, "parts", _PARTS, _parts_arguments, _parts)


def _plan_arguments(command: argparse.ArgumentParser) -> None:
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


def _plan(arguments: argparse.Namespace) -> int:
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


def _fit_arguments(command: argparse.ArgumentParser) -> None:
    command.add_argument("file", metavar="FILE", help="the readings, a CSV file")
    head_argument(command)
    command.add_argument("--only", metavar="PART", help="wheel or worm, where the other is not to be told")
    command.add_argument("--without", metavar="LINES", help="lines of the file to leave out, as 14,17")
    command.add_argument("--gaps", action="store_true", help="gaps in otherwise even settings are meant")
    command.add_argument(
        "--reference",
        default="",
        metavar="KIND",
        help="what it was measured against, to be kept with it: index, polygon, gauges, indicator, mirror",
    )
    command.add_argument("--date", metavar="DAY", help="when it was measured, as 2026-03-14 (default today)")
    command.add_argument("--out", metavar="FILE", help="write the head file that knows its errors here")
    command.add_argument(
        "--picture",
        metavar="FILE",
        help="draw the errors, and what is left of each reading, to this file, errors.svg",
    )
    json_argument(command)


def _fit(arguments: argparse.Namespace) -> int:
    from crankwise.accuracy.calibration import CannotTell
    from crankwise.tasks.heads import load_head
    from crankwise.tasks.measure import fit, fit_answer, today, write_measured, write_picture

    try:
        found = fit(
            load_head(arguments.head),
            arguments.file,
            arguments.date or today(),
            arguments.only,
            arguments.without,
            arguments.gaps,
            arguments.reference,
        )
    except CannotTell as reason:
        print(f"crankwise: {reason}", file=sys.stderr)
        return 1
    if arguments.out:
        write_measured(found, arguments.out)
    if arguments.picture:
        write_picture(found, arguments.picture)
    if arguments.json:
        print(json.dumps(fit_answer(found), ensure_ascii=False))
        return 0
    from crankwise.cli.tables import printed
    from crankwise.wording.measure import fit_notes, found_table

    print(printed(*found_table(found.calibration.found, found.calibration.solved.freedom)))
    print("", *fit_notes(found.calibration, found.band, found.height), sep="\n")
    if arguments.out:
        print(f"\nWritten: {arguments.out}. Divide with --head {arguments.out} --corrected.")
    return 0


def _kept_arguments(command: argparse.ArgumentParser) -> None:
    head_argument(command)
    command.add_argument("--in-force", metavar="N", help="put this one in force, numbered as they are listed")
    command.add_argument("--drop", metavar="N", help="leave this one out, numbered as they are listed")
    command.add_argument(
        "--out", metavar="FILE", help="write the head file with it in force, or without it, here"
    )
    json_argument(command)


def _kept(arguments: argparse.Namespace) -> int:
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


def _part_arguments(command: argparse.ArgumentParser) -> None:
    command.add_argument("file", metavar="FILE", help="the readings, a CSV file or one reading a line")
    command.add_argument(
        "--job", metavar="JOB", help="job file (TOML) of the part, with its head and its way"
    )
    command.add_argument("--head", metavar="FILE", help="head file (TOML), where the job file names none")
    command.add_argument("--way", metavar="KEY", help="how it was divided, where the job file does not say")
    _measured_argument(command)
    command.add_argument("--of", metavar="LINE", help="the size of the measuring card that was measured")
    command.add_argument("--teeth", metavar="Z", help="number of teeth, for the class reached")
    command.add_argument("--module", metavar="M", help="normal module, in mm")
    command.add_argument(
        "--dp", metavar="P", help="diametral pitch, in teeth to an inch of diameter, instead"
    )
    command.add_argument("--helix", metavar="A", help="helix angle in degrees (default 0: a spur gear)")
    command.add_argument("--rim", metavar="DIAMETER", help="diameter at which measured angles become lengths")
    command.add_argument("--wanted", metavar="LENGTH", help="what the sizes should be")
    command.add_argument(
        "--pins", metavar="DIAMETER", help="of the pins over which distances of holes were measured"
    )
    command.add_argument("--report", metavar="PDF", help="write a report to keep with the part to this file")
    command.add_argument("--date", metavar="DAY", help="when it was measured, as 2026-03-14 (default today)")
    command.add_argument(
        "--paper", default="A4", metavar="PAPER", help="of the report, A4 or letter (default A4)"
    )
    json_argument(command)


def _measured_argument(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--measured",
        metavar="COLUMN",
        default="pitch_um",
        help="what a file without a heading holds: pitch_um (default), pitch_thou, chord_mm, chord_in, "
        "position_deg, size_mm or size_in",
    )


def _part(arguments: argparse.Namespace) -> int:
    from crankwise.tasks.measure_part import measured_part, measured_part_answer, write_report
    from crankwise.tasks.measurement_report import judged_lines

    found = measured_part(
        arguments.file,
        job=arguments.job,
        head=arguments.head,
        way=arguments.way,
        column=arguments.measured,
        of=arguments.of,
        teeth=arguments.teeth,
        module=arguments.module,
        dp=arguments.dp,
        helix=arguments.helix,
        rim=arguments.rim,
        wanted=arguments.wanted,
        pins=arguments.pins,
    )
    if arguments.report:
        write_report(found, arguments.report, arguments.date, arguments.paper)
    if arguments.json:
        print(json.dumps(measured_part_answer(found), ensure_ascii=False))
        return 0
    print(*judged_lines(found.judged), sep="\n")
    if arguments.report:
        print(f"Written: {arguments.report}.")
    return 0


def _parts_arguments(command: argparse.ArgumentParser) -> None:
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
    _measured_argument(command)
    command.add_argument(
        "--take", action="append", default=[], metavar="NAME", help="take over what is shown under this name"
    )
    command.add_argument("--out", metavar="FILE", help="write the head file with what was taken over here")
    json_argument(command)


def _parts(arguments: argparse.Namespace) -> int:
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
