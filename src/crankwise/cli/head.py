"""Check the head file that describes the gear you own.

examples:
  crankwise head check bench-head.toml
      what was understood, in the trade's words, and what is worth a second look
"""

import argparse
import json

from crankwise.cli.asking import json_argument
from crankwise.cli.parser import Parser, add_command

_CHECK = """Read a head file, tell what was understood, and what is worth a second look.

Every fault of a file is told at once, each with its place and line; the exit code is then 2.

examples:
  crankwise head check bench-head.toml
      the ratio, what a turn and a mark are worth, the circles, what the ring can tell
  crankwise head check bench-head.toml --json
      for a program: each finding has a code that stays the same
"""


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the commands about heads are."""
    commands = command.add_subparsers(metavar="COMMAND", required=True, parser_class=Parser)
    add_command(commands, "check", _CHECK, _check_arguments, _check)


def _check_arguments(command: argparse.ArgumentParser) -> None:
    command.add_argument("file", metavar="FILE", help="head file (TOML): the gear you own")
    json_argument(command)


def _check(arguments: argparse.Namespace) -> int:
    from crankwise.tasks.check_head import check_head, head_answer

    checked = check_head(arguments.file)
    if arguments.json:
        print(json.dumps(head_answer(checked), ensure_ascii=False))
        return 0
    from crankwise.wording.head import described

    print(checked.head.name)
    for line in described(checked.head):
        print(f"  {line}")
    if checked.findings:
        print("\nWorth a second look:")
        for found in checked.findings:
            print(f"  {found.place}: {found.message} [{found.code}]")
    return 0
