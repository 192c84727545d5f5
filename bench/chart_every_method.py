"""The chart of 2 to 1,000 parts with every method, against plain enumeration on a sample of numbers.

The head has 22 circles, 12 change gears and a dial. The plain way is written here and shares nothing
with the package: for a number of parts it tries every hole of every circle, every two holes of every
two circles of a plate, and every train of two and of four gears with every hole; for a position it
tries every reading of the dial, and every two holes again. Whole numbers throughout. What it finds
exact on the sample must be what the chart finds exact. Its time is taken for each number and for each
position, and scaled to all numbers and all positions of the chart; the chart is timed whole.
"""

import time
from fractions import Fraction
from itertools import combinations

from bench.measured import Measured
from crankwise.head.change_gears import ChangeGears
from crankwise.head.dial import Dial
from crankwise.head.head import Head
from crankwise.head.plate import Plate
from crankwise.head.worm import Worm
from crankwise.ways.chart import chart

FIRST, LAST = 2, 1000
SAMPLE = (59, 127, 383, 389, 662, 997)
POSITIONS = ((127, 5), (383, 100), (997, 500))
TIMES_AS_FAST, MOST_CPU = 500, 3.0
RATIO, READINGS = 40, 200
PLATES = (
    (24, 25, 28, 30, 34, 37, 38, 39, 41, 42, 43),
    (46, 47, 49, 51, 53, 54, 57, 58, 59, 62, 66),
)
GEARS = (24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100)


def measure() -> list[Measured]:
    """Return the chart's time as a part of the plain one's, and its CPU seconds against three."""
    head = Head(
        "large",
        Worm(Fraction(RATIO)),
        Dial(100, Fraction(1, 2)),
        tuple(map(Plate, PLATES)),
        change_gears=ChangeGears(GEARS),
    )
    start = time.process_time()
    rows = {row.divisions: (row.best, row.best_exact) for row in chart(head, FIRST, LAST)}
    ours = time.process_time() - start
    trains = _trains()
    start = time.process_time()
    exact = {count: _is_exact(count, trains) for count in SAMPLE}
    a_number = (time.process_time() - start) / len(SAMPLE)
    start = time.process_time()
    for count, position in POSITIONS:
        _nearest(count, position)
    a_position = (time.process_time() - start) / len(POSITIONS)
    for count, found in exact.items():
        assert found is (rows[count][1] is not None), count
    whole = a_number * len(rows) + a_position * sum(rows)
    return [
        Measured(
            "chart of every method to 1,000, against trying all",
            ours / whole,
            1 / TIMES_AS_FAST,
            f"{whole / ours:,.0f} times as fast; the plain one takes {a_number:.1f} s a number "
            f"and {a_position * 1000:.0f} ms a position",
        ),
        Measured("chart of every method to 1,000, CPU : 3 s", ours / MOST_CPU, 1, f"{ours:.2f} s"),
    ]


def _trains() -> list[tuple[int, int]]:
    """Every train of two and of four gears from those owned, as driver teeth over driven teeth."""
    twos = [(one, other) for one, other in combinations(GEARS, 2)]
    fours = [
        (GEARS[a] * GEARS[b], GEARS[c] * GEARS[d])
        for a, b in combinations(range(len(GEARS)), 2)
        for c, d in combinations(range(len(GEARS)), 2)
        if not {a, b} & {c, d}
    ]
    return sorted({*twos, *((two, one) for one, two in twos), *fours})


def _is_exact(count: int, trains: list[tuple[int, int]]) -> bool:
    """Whether plain, compound or differential indexing, or the dial, divides exactly; all are tried."""
    found = RATIO * READINGS % count == 0
    for plate in PLATES:
        for circle in plate:
            found |= any(holes * count == RATIO * circle for holes in range(RATIO * circle + 1))
        for first, second in combinations(plate, 2):
            wanted = RATIO * first * second
            for a in range(1 - first, first):
                for b in range(1 - second, second):
                    if a and b and (a * second + b * first) * count == wanted:
                        found = True
    for circle in (circle for plate in PLATES for circle in plate):
        for holes in range(1, circle):
            rest = RATIO * circle - count * holes
            for driver, driven in trains:
                if rest * driven == driver * circle or -rest * driven == driver * circle:
                    found = True
    return found


def _nearest(count: int, position: int) -> Fraction:
    """The nearest that any reading, hole, or two holes of one plate come to a position, in turns."""
    part = Fraction(position * RATIO, count) % 1
    best = min(abs(Fraction(reading, READINGS) - part) for reading in range(READINGS + 1))
    top, bottom = part.numerator, part.denominator
    for plate in PLATES:
        for first, second in combinations(plate, 2):
            target, scale = top * first * second, first * second * bottom
            nearest = scale
            for a in range(first):
                for b in range(1 - second, second):
                    off = abs((a * second + b * first) * bottom - target)
                    if off < nearest:
                        nearest = off
            best = min(best, Fraction(nearest, scale))
    return best / RATIO
