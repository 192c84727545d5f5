"""The arguments that several commands share, and how they become a head and a part."""

import argparse

TYPE_CHECKING = False  # as typing has it, which takes a while to load
if TYPE_CHECKING:
    from crankwise.head.head import Head
    from crankwise.part.part import Part


def head_argument(command: argparse.ArgumentParser) -> None:
    """Add --head."""
    command.add_argument("--head", required=True, metavar="FILE", help="head file (TOML): the gear you own")


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


def json_argument(command: "argparse._ActionsContainer") -> None:
    """Add --json."""
    command.add_argument("--json", action="store_true", help="answer as JSON, exact values as text")


def asked(arguments: argparse.Namespace) -> "tuple[Head, Part]":
    """Return the head and the part that were typed. Raises Mendable."""
    from crankwise.tasks.divide import asked_part
    from crankwise.tasks.heads import load_head

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
