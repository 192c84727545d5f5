"""Copy the workshop to one file, in use or not: heads, jobs, runs with every tap, measured parts.

A head goes with its calibrations, a job with what was measured of its parts. The phones that were let in are not in
it: let them in again.

examples:
  crankwise backup --out shed-2026-03-14.sqlite
      everything kept in the usual place; an older backup of that name is replaced
  crankwise backup --data clock --out clock.sqlite
      the workshop kept in the folder clock
  crankwise backup --look shed-2026-03-14.sqlite
      what a backup holds, before you go back to it; it is left as it is
  crankwise backup --out shed.sqlite --json
      for a program: what the copy holds

To go back to a backup: see with --look that it holds what you want; end the program, empty the workshop's folder,
and put the copy there, named workshop.sqlite. All that --look counts is back then.
"""

import argparse


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    command.add_argument(
        "--data", metavar="DIR", help="folder that holds the workshop (default: the platform's own place)"
    )
    which = command.add_mutually_exclusive_group(required=True)
    which.add_argument("--out", metavar="FILE", help="file to write the copy to")
    which.add_argument("--look", metavar="FILE", help="say what this backup holds, and write nothing")
    command.add_argument("--json", action="store_true", help="answer as JSON")


def run(arguments: argparse.Namespace) -> int:
    """Make the copy, or look at one, and say what it holds."""
    from crankwise.tasks.backup import back_up, look_into_backup

    backup = look_into_backup(arguments.look) if arguments.look else back_up(arguments.out, arguments.data)
    if arguments.json:
        import json

        answer = {
            "format": 1,
            "backup": str(backup.path),
            "bytes": backup.size,
            "heads": backup.heads,
            "jobs": backup.jobs,
            "runs": backup.runs,
            "taps": backup.taps,
            "calibrations": backup.calibrations,
            "measurements": backup.measurements,
        }
        print(json.dumps(answer, ensure_ascii=False))
    else:
        held = (
            f"{_counted(backup.heads, 'head')} ({_counted(backup.calibrations, 'calibration')})",
            _counted(backup.jobs, "job"),
            _counted(backup.runs, "run"),
            _counted(backup.taps, "tap"),
            f"{_counted(backup.measurements, 'measurement')} of parts",
        )
        print(f"{backup.path}: {', '.join(held)}; {backup.size:,} bytes")
    return 0


def _counted(count: int, what: str) -> str:
    return f"{count:,} {what}{'' if count == 1 else 's'}"
