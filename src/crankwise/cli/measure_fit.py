"""Find the errors of a head from readings.

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

import argparse
import json
import sys

from crankwise.cli.asking import head_argument, json_argument


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
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


def run(arguments: argparse.Namespace) -> int:
    """Print the errors found; 1 when the readings cannot tell."""
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
