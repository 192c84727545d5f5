"""100,000 gears of 127 teeth cut in the computer, against drawing the random numbers that they need.

What they need: a normal value for each tooth, and a uniform one for each size and each phase. They are drawn
here by the same generator in batches of the same size, so that the memory they go to is as near.
"""

import time
from fractions import Fraction

import numpy as np

from bench.measured import Measured
from crankwise.accuracy.pitch_law import PitchLaw, Wave
from crankwise.accuracy.simulate import batches
from crankwise.accuracy.sources import causes, pitch_law
from crankwise.files.head_toml import read_head
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.plan import planned

GEARS, TEETH = 100_000, 127
BOUND = 5.0
ROUNDS = 3
HEAD = """
name = "Bench head"
[worm]
wheel_teeth = 72
[dial]
marks = 100
read_to = "1/2"
"""


def measure() -> list[Measured]:
    """Return the simulation's time as a multiple of the drawing's."""
    plan = planned(read_head(HEAD), Part(EqualDivisions(TEETH), Fraction(TEETH), "space"))
    assert plan is not None
    law = pitch_law(plan, causes(plan), float(TEETH))
    sizes = [len(batch.single) for batch in batches(law, GEARS, 1)]
    drawing, cutting = [], []
    for _ in range(ROUNDS):
        drawing.append(_timed_drawing(law, sizes))
        start = time.perf_counter()
        cut = sum(len(batch.single) for batch in batches(law, GEARS, 1))
        cutting.append(time.perf_counter() - start)
        assert cut == GEARS
    ours, theirs = min(cutting), min(drawing)
    return [
        Measured(
            f"{GEARS:,} gears of {TEETH} teeth, against drawing their numbers",
            ours / theirs,
            BOUND,
            f"{ours:.2f} s; drawing {theirs:.2f} s; {len(sizes)} batches of {sizes[0] * TEETH * 8 / 1e6:.1f} MB",
        )
    ]


def _timed_drawing(law: PitchLaw, sizes: list[int]) -> float:
    uniform = sum(2 if isinstance(part, Wave) else 1 for part in law.parts)
    chance = np.random.Generator(np.random.PCG64(1))
    start = time.perf_counter()
    for gears in sizes:
        chance.standard_normal((gears, TEETH))
        for _ in range(uniform):
            chance.uniform(0.0, 1.0, gears)
    return time.perf_counter() - start
