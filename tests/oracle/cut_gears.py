"""Cut gears one after another from the physics alone: angles of shafts, lengths at a rim, chances drawn.

Shares nothing with the package: a worm head with a dial or a hole plate, told in plain numbers. Slow and plain.
"""

from dataclasses import dataclass, field
from math import cos, pi, sin, sqrt

import numpy as np

Span = tuple[float, float]


@dataclass(frozen=True)
class Machine:
    """A worm head and how it is used; sizes as (low, high), angles in arc seconds, lengths in mm."""

    ratio: int
    teeth: int
    rim_mm: float
    crank_turns: list[float]  # of each tooth, as set
    marks: int = 0
    dial_radius: float = 30.0
    sizes: dict[str, Span] = field(default_factory=dict)


def errors_of_one_gear(machine: Machine, chance: np.random.Generator) -> list[float]:
    """Return where each tooth is, less where it should be, in micrometres at the rim."""

    def drawn(name: str) -> float:
        return float(chance.uniform(*machine.sizes.get(name, (0.0, 0.0))))

    def phase() -> float:
        return float(chance.uniform(0, 2 * pi))

    rim = machine.rim_mm / 2 * 1000
    arcsec = rim * pi / 180 / 3600
    worm, worm_at, twice, twice_at = drawn("worm"), phase(), drawn("worm-twice"), phase()
    wheel, wheel_at, dial, dial_at = drawn("wheel"), phase(), drawn("dial-off-centre"), phase()
    work, work_at, pull = drawn("work-off-centre"), phase(), drawn("reading-pull")
    eye, parallax, lock, tool = drawn("reading"), drawn("parallax"), drawn("lock"), drawn("tool")
    per_tooth, pin = drawn("wheel-teeth"), drawn("index-pin")
    errors = []
    for tooth, crank in enumerate(machine.crank_turns):
        turn, spindle = 2 * pi * crank, 2 * pi * crank / machine.ratio
        angle = (
            worm * sin(turn + worm_at) + twice * sin(2 * turn + twice_at) + wheel * sin(spindle + wheel_at)
        )
        error = angle * arcsec + work * 1000 * cos(spindle + work_at)
        error += dial / machine.dial_radius / machine.ratio * sin(turn + dial_at) * rim
        limits = [per_tooth * arcsec, lock * arcsec, tool * 1000]
        limits += [parallax / machine.dial_radius / machine.ratio * rim, pin / 60 / machine.ratio * rim]
        if machine.marks:
            between = crank * machine.marks % 1
            mark = 2 * pi / machine.marks / machine.ratio * rim
            limits.append(eye * mark * (1 / 3 + 2 / 3 * sin(pi * between)))
            error += pull * mark * sin(2 * pi * between)
        error += chance.normal() * sqrt(sum(limit**2 for limit in limits)) / 1.96
        errors.append(error + (crank / machine.ratio - tooth / machine.teeth) * 2 * pi * rim)
    return errors


def worst_of(errors: list[float]) -> tuple[float, float]:
    """Return the largest pitch deviation, and the height of the cumulative curve."""
    pitches = [abs(errors[(tooth + 1) % len(errors)] - error) for tooth, error in enumerate(errors)]
    return max(pitches), max(errors) - min(errors)
