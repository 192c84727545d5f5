"""The command line: read what was typed, ask one task, print the answer.

Results go to standard output, everything else to standard error. Exit code 0: answered; 1: the
answer is no; 2: the input is wrong, one sentence a fault. Each command is a file with `arguments`,
which says what it takes, and `run`, which does it; heavy things are imported where they are used.
"""

import os
import sys
from collections.abc import Sequence

from crankwise.cli.parser import COMMANDS, BadCommand, parser
from crankwise.errors import FaultsFound, Mendable

ANSWERED, ANSWER_IS_NO, INPUT_IS_WRONG, STOPPED = 0, 1, 2, 130


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    typed = sys.argv[1:] if arguments is None else list(arguments)
    try:
        return _run(typed)
    except FaultsFound as error:
        _tell(*error.lines())
    except Mendable as error:
        _tell(str(error))
    except BrokenPipeError:
        # Whoever read our answer has seen enough; Python must not find out again when it closes the pipe.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return ANSWERED
    except KeyboardInterrupt:
        _tell("stopped")
        return STOPPED
    return INPUT_IS_WRONG


def _run(typed: Sequence[str]) -> int:
    first = typed[0] if typed else ""
    grammar = parser(only=first)
    if not typed:
        print(grammar.format_help(), end="")
        return ANSWERED
    if not first.startswith("-") and first not in COMMANDS:
        raise BadCommand(f"{first!r} is not a command; {_meant(first)}")
    asked = grammar.parse_args(typed)
    _check_values(typed)
    code: int = asked.run(asked)
    sys.stdout.flush()
    return code


def _check_values(typed: Sequence[str]) -> None:
    """Refuse an option with an empty value, which would count as not given at all. Raises BadCommand."""
    for before, word in zip(["", *typed], typed, strict=False):
        option = before if not word and before.startswith("--") else word.removesuffix("=")
        if option.startswith("--") and (not word or word == f"{option}="):
            raise BadCommand(f"{option}: nothing is given after it; give a value, or leave the option out")


def _meant(typed: str) -> str:
    from difflib import get_close_matches

    close = get_close_matches(typed, COMMANDS, 1)
    return f"did you mean {close[0]}?" if close else f"the commands are {', '.join(COMMANDS)}"


def _tell(*sentences: str) -> None:
    print(*(f"crankwise: {sentence}" for sentence in sentences), sep="\n", file=sys.stderr)
