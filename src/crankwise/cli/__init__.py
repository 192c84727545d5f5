"""The command line: read what was typed, ask one task, print the answer.

Results go to standard output, everything else to standard error. Exit code 0: answered; 1: the
answer is no; 2: the input is wrong, one sentence a fault. Each command is a file with `arguments`,
which says what it takes, and `run`, which does it; heavy things are imported where they are used.
"""

import sys
from collections.abc import Sequence

from crankwise.cli.parser import parser
from crankwise.errors import FaultsFound, Mendable

ANSWERED, ANSWER_IS_NO, INPUT_IS_WRONG = 0, 1, 2


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    typed = sys.argv[1:] if arguments is None else list(arguments)
    asked = parser(only=typed[0] if typed else None).parse_args(typed)
    try:
        code: int = asked.run(asked)
    except FaultsFound as error:
        print("\n".join(f"crankwise: {line}" for line in error.lines()), file=sys.stderr)
        return INPUT_IS_WRONG
    except Mendable as error:
        print(f"crankwise: {error}", file=sys.stderr)
        return INPUT_IS_WRONG
    except BrokenPipeError:
        sys.stderr.close()
        return ANSWERED
    except KeyboardInterrupt:
        print("crankwise: stopped", file=sys.stderr)
        return 130
    return code
