"""Write a run as a pocket card: one HTML file that a phone works with no server and no network.

examples:
  crankwise pocket 3 --out tide-ring.html
      the card of run 3; its journal comes home by file
  crankwise pocket 3 --out tide-ring.html --site http://shed.local:8127
      the card knows where the workshop is: its journal also comes home by a link or a code
  crankwise pocket 3 --bring run-3-x7c2qa.txt
      take the journal that a card saved into the run; exit code 1 when card and workshop do not agree
"""

import argparse
import json
import sys
from typing import TYPE_CHECKING

from crankwise.cli.asking import json_argument

if TYPE_CHECKING:
    from crankwise.tasks.workshop import Workshop


def arguments(command: argparse.ArgumentParser) -> None:
    """Say what the command takes."""
    # named otherwise than "run", which is what the command itself does
    command.add_argument(
        "run_id", type=int, metavar="RUN", help="number of the run, as on its job's page: 3 for Run 3"
    )
    way = command.add_mutually_exclusive_group(required=True)
    way.add_argument("--out", metavar="FILE", help="HTML file to write, whole or not at all")
    way.add_argument("--bring", metavar="FILE", help="file that a card saved, to be taken into the run")
    command.add_argument("--site", default="", metavar="URL", help="where a phone finds the workshop")
    command.add_argument(
        "--data", metavar="DIR", help="folder that holds the store (default: the platform's place for data)"
    )
    json_argument(command)


def run(arguments: argparse.Namespace) -> int:
    """Write the card, or take its journal in."""
    from crankwise.tasks.workshop import open_workshop, store_path

    with open_workshop(str(store_path(arguments.data))) as workshop:
        if arguments.bring:
            return _bring(arguments, workshop)
        from crankwise.files.whole_file import write_whole
        from crankwise.tasks.pocket import pocket_card

        card = pocket_card(workshop, arguments.run_id, arguments.site.rstrip("/"))
        write_whole(arguments.out, card)
        if arguments.json:
            print(
                json.dumps({"format": 1, "out": arguments.out, "run": arguments.run_id, "bytes": len(card)})
            )
        else:
            print(f"{arguments.out}: pocket card of run {arguments.run_id}, {len(card):,} bytes")
    return 0


def _bring(arguments: argparse.Namespace, workshop: "Workshop") -> int:
    from crankwise.tasks.pocket import bring_home, read_brought
    from crankwise.tasks.run_answer import merged_answer

    brought = bring_home(workshop, arguments.run_id, read_brought(arguments.bring))
    if arguments.json:
        print(json.dumps({"format": 1} | merged_answer(brought.run, brought.merged), ensure_ascii=False))
    else:
        print(
            f"run {arguments.run_id}: {brought.counted} taken in, {len(brought.merged.said_twice)} known already"
        )
        for told in brought.conflicts:
            print(f"crankwise: {told}", file=sys.stderr)
    return 1 if brought.conflicts else 0
