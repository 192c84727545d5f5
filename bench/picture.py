"""Pictures and prints of large parts, whole, against their budgets; a tooth's picture against its bare text.

The budgets are of the house: 300 ms of processor time and 300 kB for the picture of a gear of 400 teeth, two
seconds for the print at full size of a ring of 3,600 lines. Beside the first stands what nobody can do without:
writing as many coordinates as text.
"""

import time
from collections.abc import Callable

from bench.measured import Measured
from crankwise.draw.svg import number
from crankwise.tasks.part_kinds import made_of
from crankwise.tasks.picture import drawing_of, picture_of, print_bytes

ROUNDS = 5
SECONDS, BYTES, PRINT_SECONDS = 0.3, 300_000, 2.0
BOUND = 6.0
_RING = {"lines": "3600", "on": "ring", "across": "300mm", "classes": "1,5,10", "no_numerals": ""}


def measure() -> list[Measured]:
    """Return the time and the weight of the picture, and the time of the print."""
    gear = made_of("spur", {"teeth": "400", "module": "1"})
    svg = picture_of(gear, 7)
    points = svg.count("l") + svg.count("L")
    drawn = _least(lambda: picture_of(gear, 7))
    bare = _least(lambda: " ".join(number(index * 0.37) for index in range(2 * points)))
    ring = made_of("graduated", _RING)
    printed = _least(lambda: print_bytes(drawing_of(ring, 0.0005), "pdf"))
    note = f"{points:,} points, least of {ROUNDS}"
    return [
        Measured("a picture of 400 teeth against its bare numbers", drawn / bare, BOUND, note),
        Measured(
            "a picture of 400 teeth against 300 ms", drawn / SECONDS, 1.0, f"{1000 * drawn:.0f} ms; {note}"
        ),
        Measured("a picture of 400 teeth against 300 kB", len(svg) / BYTES, 1.0, f"{len(svg):,} bytes"),
        Measured(
            "a print of 3,600 lines against two seconds", printed / PRINT_SECONDS, 1.0, f"{printed:.2f} s"
        ),
    ]


def _least(work: Callable[[], object]) -> float:
    spent = []
    for _ in range(ROUNDS):
        start = time.process_time()
        work()
        spent.append(time.process_time() - start)
    return min(spent)
