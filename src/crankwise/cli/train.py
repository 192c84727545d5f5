"""Find the trains of change gears that come nearest to a ratio; nothing nearer exists with those gears.

examples:
  crankwise train 7/3 --gears 24,24,28,32,40,44,48,56,64,72,86,100
      trains of 2 and 4 gears: drivers over driven, those in mesh one above the other
  crankwise train 3.14159265 --gears 20-60 --size 6 --within 1ppm
      one gear of each size from 20 to 60, six to a train; exit code 1 when none is within 1 ppm
  crankwise train 7/3 --head plate-head.toml --dropped
      the gears of a head file, and only what can be mounted on it; what cannot, and why
  crankwise train --lead 27in --leadscrew 1/4in --head-ratio 40 --gears 24,32,40,48,72
      the train from a table's leadscrew to the worm of a head, for a helix with this lead
  crankwise train 7/3 --gears 24,56 --json
      for a program: exact values as text
"""

import argparse
import json
import re
import sys
from collections.abc import Callable

from crankwise.cli.asking import json_argument
from crankwise.tasks.train import Trains, TrainsAsked, asked_trains, find_trains, trains_answer

PRODUCTS_A_SECOND = 300_000
"""What a workshop computer looks at in a second, from the bench; a ratio that many trains meet takes longer."""
SECONDS_UNTOLD = 1.0


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    # A ratio below 0 is refused with its own sentence, so it must not be taken for an option.
    command._negative_number_matcher = re.compile(r"-[\d.]")
    command.add_argument(
        "ratio",
        nargs="?",
        metavar="RATIO",
        help="turns of the last shaft for one turn of the first, as 7/3 or 2.3333; drivers over driven",
    )
    command.add_argument(
        "--gears",
        metavar="LIST",
        help="teeth of the gears owned, a size as often as you own it: 24,24,28; 20-60 is one of each",
    )
    command.add_argument(
        "--head", metavar="FILE", help="head file (TOML): its change gears, and how they can be mounted"
    )
    command.add_argument("--size", metavar="2|4|6", help="gears in a train (default: 2 and 4)")
    command.add_argument(
        "--within",
        metavar="TOL",
        help="how far a value may be from the ratio: 10ppm or 0.001%% of it, or a bare difference, as 0.0001",
    )
    command.add_argument("--most", metavar="COUNT", help="how many trains to tell, 1 to 1000 (default 10)")
    command.add_argument(
        "--dropped", action="store_true", help="with --head: also the nearer trains that cannot be mounted"
    )
    command.add_argument(
        "--lead", metavar="LENGTH", help="instead of RATIO: lead of a helix, as 27in or 600mm (bare: mm)"
    )
    command.add_argument(
        "--leadscrew", metavar="LENGTH", help="with --lead: lead of the table's screw, as 1/4in or 5mm"
    )
    command.add_argument(
        "--head-ratio", metavar="R", help="with --lead: turns of the worm for one turn of the spindle, as 40"
    )
    json_argument(command)


def run(arguments: argparse.Namespace) -> int:
    """Print the answer; 1 when no train is as near as was asked."""
    asked = _asked(arguments)
    found = find_trains(asked, _watch(asked), arguments.dropped)
    if arguments.json:
        print(json.dumps(trains_answer(found), ensure_ascii=False))
    else:
        _tell(found)
    if found.is_answered:
        return 0
    from crankwise.wording.trains import refusal_text

    print(f"crankwise: {refusal_text(found.trains, asked.target, asked.within)}", file=sys.stderr)
    return 1


def _asked(arguments: argparse.Namespace) -> TrainsAsked:
    change_gears = None
    if arguments.head:
        from crankwise.tasks.heads import load_head
        from crankwise.tasks.train import no_change_gears

        change_gears = load_head(arguments.head).change_gears
        if change_gears is None:
            raise no_change_gears(arguments.head)
    return asked_trains(
        arguments.ratio,
        arguments.gears,
        size=arguments.size,
        most=arguments.most,
        within=arguments.within,
        change_gears=change_gears,
        lead=(arguments.lead, arguments.leadscrew, arguments.head_ratio),
    )


def _watch(asked: TrainsAsked) -> Callable[[int, int], None]:
    """Say how long a long search will be, and, on a terminal and past a second, how far it is."""
    from time import monotonic

    least = asked.length / PRODUCTS_A_SECOND
    if least > SECONDS_UNTOLD:
        print(
            f"crankwise: {asked.length:,} products of {max(asked.sizes) // 2} gears to go through: "
            f"about {least:.0f} to {3 * least:.0f} s; Ctrl-C stops it",
            file=sys.stderr,
            flush=True,
        )
    begun = told = monotonic()

    def watch(done: int, of: int) -> None:
        nonlocal told
        now = monotonic()
        if sys.stderr.isatty() and now - begun > SECONDS_UNTOLD and (now - told > 0.2 or done == of):
            told = now
            bar = "#" * (done * 40 // of)
            end = "\r" + " " * 50 + "\r" if done == of else ""
            print(f"\r[{bar:<40}] {done * 100 // of:3d} %{end}", end="", file=sys.stderr, flush=True)

    return watch


def _tell(found: Trains) -> None:
    from crankwise.cli.tables import printed
    from crankwise.wording.trains import dropped_text, places_text, proof_text, train_table

    asked = found.asked
    if found.trains:
        lead = asked.lead.lead_of if asked.lead else None
        within = found.is_within if asked.within is not None else None
        print(printed(*train_table(found.trains, asked.target, within, lead)))
        print(f"\n{proof_text(found.trains, asked.target, asked.sizes, asked.change_gears is not None)}")
        if asked.lead:
            print(f"The first stands: {places_text(found.trains[0], 'the leadscrew', 'the worm')}.")
    for train, reasons in found.dropped:
        print(dropped_text(train, reasons))
