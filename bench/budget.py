"""How good a part of 5,000 positions will be, and 20,000 settings corrected, against listing the same positions.

CPU time within one process, so that a busy machine falls on both alike. The list is what no answer about the
positions can do without: each target, its setting and where that puts the work, exactly. Each round makes its own
plan, as a page does, so that nothing is at hand from the round before.
"""

from itertools import count
from pathlib import Path

from bench.measured import Measured, processor_seconds
from crankwise.accuracy.budget import budget
from crankwise.files.head_toml import read_head
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.corrected import compared, corrected_ways, uncorrected
from crankwise.plan.plan import Plan

POSITIONS, MOST_CORRECTED, ROUNDS = 5_000, 20_000, 3
BOUND, BOUND_CORRECTED = 115.0, 5.0
"""Seen where these were set, at a load of 9 on two processors: 85 to 91, and 3.6 to 3.8."""
RIM_MM = 150.0
HEAD = Path(__file__).parents[1] / "examples" / "measured-bench-head.toml"


def measure() -> list[Measured]:
    """Return the time of a budget, and of corrected settings compared with plain ones, in lists of the positions."""
    head = read_head(HEAD.read_bytes(), HEAD.name)
    few, many = EqualDivisions(POSITIONS), EqualDivisions(MOST_CORRECTED)
    part, plain = Part(few), uncorrected(corrected_ways(head, few)[0])
    rims = (RIM_MM + step for step in count())
    listed = processor_seconds(lambda: tuple(plain.reached()), ROUNDS)
    reckoned = processor_seconds(lambda: budget(Plan(part, plain), next(rims)), ROUNDS)
    many_plain = uncorrected(corrected_ways(head, many)[0])
    many_listed = processor_seconds(lambda: tuple(many_plain.reached()), ROUNDS)
    corrected = processor_seconds(lambda: compared(corrected_ways(head, many)[0]), ROUNDS)
    return [
        Measured(
            f"budget of {POSITIONS:,} positions, against their list",
            reckoned / listed,
            BOUND,
            f"{reckoned:.2f} s, {listed * 1000:.0f} ms, CPU; medians of {ROUNDS}",
        ),
        Measured(
            f"{MOST_CORRECTED:,} positions corrected and compared, against their list",
            corrected / many_listed,
            BOUND_CORRECTED,
            f"{corrected * 1000:.0f} ms, {many_listed * 1000:.0f} ms, CPU; medians of {ROUNDS}",
        ),
    ]
