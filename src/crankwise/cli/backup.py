"""Copy the workshop to one file, in use or not: heads, jobs, and runs with every tap.

examples:
  crankwise backup --out shed-2026-03-14.sqlite
      everything kept in the usual place; an older backup of that name is replaced
  crankwise backup --data clock --out clock.sqlite
      the workshop kept in the folder clock
  crankwise backup --out shed.sqlite --json
      for a program: what the copy holds

To go back to a backup: end the program, empty the workshop's folder, and put the copy there, named
workshop.sqlite.
"""

import argparse


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    command.add_argument(
        "--data", metavar="DIR", help="folder that holds the workshop (default: the platform's own place)"
    )
    command.add_argument("--out", required=True, metavar="FILE", help="file to write the copy to")
    command.add_argument("--json", action="store_true", help="answer as JSON")


def run(arguments: argparse.Namespace) -> int:
    """Make the copy, and say what it holds."""
    from crankwise.tasks.backup import back_up

    backup = back_up(arguments.out, arguments.data)
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
        }
        print(json.dumps(answer, ensure_ascii=False))
    else:
        held = (
            _counted(backup.heads, "head"),
            _counted(backup.jobs, "job"),
            _counted(backup.runs, "run"),
            _counted(backup.taps, "tap"),
        )
        print(f"{backup.path}: {', '.join(held)}; {backup.size:,} bytes")
    return 0


def _counted(count: int, what: str) -> str:
    return f"{count:,} {what}{'' if count == 1 else 's'}"
