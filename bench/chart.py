"""The chart of 2 to 400 parts on a large head, against trying every hole of every circle.

The plain way is written here and shares nothing with the package: for every number of parts, every
scale and every position it tries each hole or reading, keeps the nearest, and remembers the worst
position; whole numbers throughout, so that it is no straw man. It is run on every tenth number from
2 to 400 and scaled by the work to do, which is the sum of the numbers; its worst errors are checked
to be those of the chart, which must have found the least of them. The chart is timed whole.
"""

import time
from fractions import Fraction

from bench.measured import Measured
from crankwise.head.dial import Dial
from crankwise.head.head import Head
from crankwise.head.plate import Plate
from crankwise.head.ring import Ring
from crankwise.head.worm import Worm
from crankwise.ways.chart import chart

FIRST, LAST, EVERY = 2, 400, 10
BOUND = 1 / 50
ROUNDS = 5
RATIO, MARKS, READ_TO, GRADUATIONS = 40, 100, 2, 360
PLATES = (
    (24, 25, 28, 30, 34, 37, 38, 39, 41, 42, 43),
    (46, 47, 49, 51, 53, 54, 57, 58, 59, 62, 66),
)


def measure() -> list[Measured]:
    """Return the chart's time as a part of the plain one's."""
    head = Head(
        "large",
        Worm(Fraction(RATIO)),
        Dial(MARKS, Fraction(1, READ_TO)),
        tuple(map(Plate, PLATES)),
        Ring(GRADUATIONS),
    )
    ours = min(_timed_chart(head) for _ in range(ROUNDS))
    sample = range(FIRST, LAST + 1, EVERY)
    start = time.perf_counter()
    plain = {count: _least_worst_error(count) for count in sample}
    took = time.perf_counter() - start
    whole = took * sum(range(FIRST, LAST + 1)) / sum(sample)
    _check(head, plain)
    return [
        Measured(
            "chart, 22 circles, dial and ring, against trying all",
            ours / whole,
            BOUND,
            f"{whole / ours:,.0f} times as fast: {ours * 1000:.1f} ms; the plain one {whole:.1f} s, "
            f"scaled from {len(sample)} numbers that took {took:.1f} s",
        )
    ]


def _timed_chart(head: Head) -> float:
    start = time.perf_counter()
    rows = [(row.best, row.best_exact, row.best and row.best.worst_error) for row in chart(head, FIRST, LAST)]
    assert len(rows) == LAST - FIRST + 1
    return time.perf_counter() - start


def _least_worst_error(count: int) -> Fraction:
    """Return the smallest worst error of any scale, in turns, by trying every place of each turn of its wheel."""
    crank = [circle for plate in PLATES for circle in plate] + [MARKS * READ_TO]
    worst = [_worst(count, RATIO, places) for places in crank]
    return min([*worst, _worst(count, 1, GRADUATIONS)])


def _worst(count: int, ratio: int, places: int) -> Fraction:
    """Return the worst error in turns of the spindle; distances are in (1 / count) of a place."""
    worst = 0
    for position in range(count):
        past_whole_turn = position * ratio % count * places
        nearest = min(abs(hole * count - past_whole_turn) for hole in range(places + 1))
        worst = max(worst, nearest)
    return Fraction(worst, count * places * ratio)


def _check(head: Head, plain: dict[int, Fraction]) -> None:
    for row in chart(head, FIRST, LAST):
        if row.divisions in plain:
            assert row.best is not None
            assert row.best.worst_error <= plain[row.divisions], row.divisions
            if row.best.method in ("direct", "plain", "dial", "nearest-hole", "ring"):
                assert row.best.worst_error == plain[row.divisions], row.divisions
