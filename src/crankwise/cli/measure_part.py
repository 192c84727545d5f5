"""Say how good a finished part came out, and what its deviations point to.

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

import argparse
import json

from crankwise.cli.asking import json_argument, measured_argument


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    command.add_argument("file", metavar="FILE", help="the readings, a CSV file or one reading a line")
    command.add_argument(
        "--job", metavar="JOB", help="job file (TOML) of the part, with its head and its way"
    )
    command.add_argument("--head", metavar="FILE", help="head file (TOML), where the job file names none")
    command.add_argument("--way", metavar="KEY", help="how it was divided, where the job file does not say")
    measured_argument(command)
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


def run(arguments: argparse.Namespace) -> int:
    """Print how the part came out, and write the report that was asked for."""
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
