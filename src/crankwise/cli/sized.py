"""What the commands share that size a part: their options, and the answer as cards or as JSON."""

import argparse
import json
from collections.abc import Iterable, Mapping

from crankwise.cli.asking import job_head_argument, job_out_argument, json_argument, keep_job, named_head

TYPE_CHECKING = False  # as typing has it, which takes a while to load
if TYPE_CHECKING:
    from _typeshed import DataclassInstance

    from crankwise.tasks.sized_part import SizedPart

Options = Mapping[str, tuple[str, str]]
"""By the option: how its value is shown, and what it takes."""

LEADSCREW = {
    "--leadscrew": ("LENGTH", "lead of the slide's screw, as 5mm or 1/10in: tells what its dial must show"),
    "--marks": ("N", "with --leadscrew: lines of its dial, all round, as 100"),
    "--read-to": ("PART", "with --leadscrew: the smallest part of a mark that you read, as 1/2 (default 1)"),
}


def take(command: argparse.ArgumentParser, *groups: Options, is_divided: bool = True) -> None:
    """Add these options, --json, and --job with its --head for a part that is divided on a head."""
    for options in groups:
        for option, (metavar, told) in options.items():
            command.add_argument(option, metavar=metavar, default="", help=told)
    if is_divided:
        job_out_argument(command)
        job_head_argument(command)
    json_argument(command)


def typed(arguments: argparse.Namespace, options: Iterable[str]) -> dict[str, str]:
    """Return what was typed for these options, by the name of each."""
    names = [option.lstrip("-").replace("-", "_") for option in options]
    return {name: getattr(arguments, name) for name in names}


def tell(
    answer: "SizedPart", arguments: argparse.Namespace, asked: "DataclassInstance", uses_head: bool = False
) -> int:
    """Print the answer, write the job file where one was asked for, and return the exit code.

    asked      what was typed, as the kind of part takes it
    uses_head  whether the head that was named tells something of the part, so that it may be named without a job
    """
    head: str = getattr(arguments, "head", "")
    if head and not uses_head:
        head = named_head(arguments)
    if getattr(arguments, "job", ""):
        from dataclasses import asdict

        from crankwise.files.job_toml import asked_part

        typed_there = asdict(asked)
        part = asked_part(answer.kind, typed_there)
        on = head or answer.slide or ""
        keep_job(arguments.job, part, answer.name, on, rim=typed_there.get("rim", ""))
        if len(answer.parts) > 1:
            import sys

            first, count = answer.runs[0], len(answer.parts)
            taken = "runs from one zero" if answer.is_one_piece else "pieces of work"
            told = f"it is {first}, the first of {count} {taken}; which = 2 under [part] is the next"
            print(f"crankwise: {told}", file=sys.stderr)
    if arguments.json:
        from crankwise.tasks.sized_part import sized_object

        print(json.dumps(sized_object(answer), ensure_ascii=False))
        return 0
    from crankwise.cli.tables import printed
    from crankwise.wording.part_text import part_text

    print(
        part_text(
            answer.name,
            answer.cards,
            tables=[f"{title}\n{printed(headings, rows)}" for title, headings, rows in answer.tables],
            warnings=answer.warnings,
            work=answer.parts[0].work if answer.parts else "space",
            positions=sum(len(part.divisions) for part in answer.parts),
            kind=answer.kind,
            inch_first=answer.inch_first,
        )
    )
    return 0
