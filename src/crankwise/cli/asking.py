"""The arguments that several commands share, and how they become a head and a part."""

import argparse

TYPE_CHECKING = False  # as typing has it, which takes a while to load
if TYPE_CHECKING:
    from crankwise.files.job_toml import AskedPart
    from crankwise.head.head import Head
    from crankwise.part.part import Part
    from crankwise.tasks.job_file import LoadedJob


def head_argument(command: argparse.ArgumentParser, or_a_job: bool = False) -> None:
    """Add --head; `or_a_job` where a job file may name it instead."""
    told = "head file (TOML): the gear you own"
    if or_a_job:
        command.add_argument("--head", metavar="FILE", help=f"{told}; not needed when a job file names one")
        command.set_defaults(told_by=command.prog)
    else:
        command.add_argument("--head", required=True, metavar="FILE", help=told)


def job_argument(command: argparse.ArgumentParser) -> None:
    """Add --job, the job file to read."""
    command.add_argument(
        "--job",
        metavar="FILE",
        help="job file (TOML) instead of N or angles; what else is given here goes before what it says",
    )


def job_out_argument(command: "argparse._ActionsContainer") -> None:
    """Add --job, the job file to write."""
    command.add_argument(
        "--job",
        metavar="FILE",
        default="",
        help="write a job file (TOML) too, which divide and sheet read, and the pages take in",
    )


def job_head_argument(command: "argparse._ActionsContainer", told: str = "") -> None:
    """Add --head, the head that the job file names.

    told  what else it is for
    """
    command.add_argument(
        "--head",
        metavar="FILE",
        default="",
        help=f"{told}with --job: head file (TOML) that the job is divided on; the job file names it",
    )


def part_arguments(command: argparse.ArgumentParser) -> None:
    """Add the divisions, the rim and the tolerance."""
    command.add_argument("divisions", nargs="?", metavar="N", help="number of equal parts, 1 to 1,000,000")
    command.add_argument(
        "--angles",
        metavar="LIST",
        help="angles instead of N, rising, separated by commas: 0, 12.5, 30d15m, 1/7 turn (bare numbers are degrees)",
    )
    command.add_argument(
        "--start", metavar="A", help="angle of position 0 from the start, in degrees (default 0)"
    )
    command.add_argument("--first", metavar="P", help="first position worked (default 0)")
    command.add_argument("--last", metavar="P", help="last position that may be worked (default N - 1)")
    command.add_argument("--every", metavar="K", help="work only every K-th position (default 1)")
    rim_argument(command)
    within_argument(command)


def rim_argument(command: argparse.ArgumentParser) -> None:
    """Add --rim."""
    command.add_argument(
        "--rim",
        metavar="DIAMETER",
        help="diameter at which errors are told as lengths: 200mm or 8in (bare: mm)",
    )


def within_argument(command: argparse.ArgumentParser) -> None:
    """Add --within."""
    command.add_argument(
        "--within",
        metavar="TOL",
        help="how far out a position may be: an angle (30arcsec, 0.5', 0.01deg) or a length at the rim (20um, 1thou)",
    )


def measured_argument(command: argparse.ArgumentParser) -> None:
    """Add --measured, what readings without a heading hold."""
    command.add_argument(
        "--measured",
        metavar="COLUMN",
        default="pitch_um",
        help="what a file without a heading holds: pitch_um (default), pitch_thou, chord_mm, chord_in, "
        "position_deg, size_mm or size_in",
    )


def json_argument(command: "argparse._ActionsContainer") -> None:
    """Add --json."""
    command.add_argument("--json", action="store_true", help="answer as JSON, exact values as text")


def asked(arguments: argparse.Namespace) -> "tuple[Head, Part]":
    """Return the head and the part that were typed. Raises Mendable."""
    from crankwise.cli.parser import BadCommand
    from crankwise.tasks.divide import asked_part
    from crankwise.tasks.heads import load_head

    if not arguments.head:
        raise BadCommand(f"--head: missing; see {arguments.told_by} --help")
    part = asked_part(
        arguments.divisions,
        angles=arguments.angles,
        start=arguments.start,
        first=arguments.first,
        last=arguments.last,
        every=arguments.every,
        rim=arguments.rim,
    )
    return load_head(arguments.head), part


_OF_THE_PART = ("divisions", "angles", "start", "first", "last", "every")


def asked_job(arguments: argparse.Namespace) -> "LoadedJob":
    """Return the job of the file that was named, with what was typed beside it before what it says. Raises Mendable."""
    from dataclasses import replace

    from crankwise.cli.parser import BadCommand
    from crankwise.tasks.heads import load_head
    from crankwise.tasks.job_file import load_job
    from crankwise.tasks.jobs import made_part

    for name in _OF_THE_PART:
        if getattr(arguments, name):
            told = "N" if name == "divisions" else f"--{name}"
            raise BadCommand(f"{told}: the job file says what is divided; give one or the other")
    loaded = load_job(arguments.job, with_head=not arguments.head)
    head = load_head(arguments.head) if arguments.head else loaded.head
    if head is None:
        raise BadCommand("--head: missing; the job file names no head, so give a head file")
    job = loaded.job
    typed = {name: getattr(arguments, name, None) for name in ("rim", "within", "way", "work")}
    said = {name: text for name, text in typed.items() if text}
    if said:
        job = replace(job, **said)
        loaded = replace(loaded, job=job, made=made_part(job))
    return replace(loaded, head=head)


def named_head(arguments: argparse.Namespace) -> str:
    """Return the head file that a job is to name, empty where none was typed. Raises BadCommand without a job."""
    from crankwise.cli.parser import BadCommand

    if arguments.head and not arguments.job:
        raise BadCommand("--head: it is named in a job file; say where to keep that too, as --job part.toml")
    named: str = arguments.head
    return named


def keep_job(path: str, part: "AskedPart", name: str, head: "Head | str" = "", rim: str = "") -> None:
    """Write the job file that was asked for, and say so on stderr. Raises BadFile.

    head  the file of the head that it names, which is read first, so that a job never names a bad one; or
          the head itself, to stand in the job file
    """
    import sys

    from crankwise.files.job_toml import LONGEST_NAME, Job
    from crankwise.tasks.heads import load_head
    from crankwise.tasks.job_file import write_job_file

    if isinstance(head, str) and head:
        load_head(head)
    name = f"{name[:1].upper()}{name[1:]}"[:LONGEST_NAME]
    write_job_file(path, Job(part, name, head or None, rim=rim))
    print(f"crankwise: job kept in {path}", file=sys.stderr)
