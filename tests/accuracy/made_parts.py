"""Parts made in the computer on a head with hidden errors: plain trigonometry, nothing of the package's fits."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import cos, pi
from random import Random

from crankwise.accuracy.inspection import Inspected
from crankwise.accuracy.waves_of_part import MeasuredPart
from crankwise.files.head_toml import read_head
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.plan import Plan, planned
from tests.gear import BENCH_HEAD


def plan_of(count: int, rim_mm: int = 100, head: str = BENCH_HEAD, way: str | None = "dial") -> Plan:
    part = Part(EqualDivisions(count), Fraction(rim_mm), "space")
    found = planned(read_head(head), part, way) if way else planned(read_head(head), part)
    assert found is not None
    return found


@dataclass(frozen=True)
class Hidden:
    """What a head and its operator really do; angles in seconds of arc, phases in turns, lengths in mm."""

    wheel: float = 0.0
    wheel_phase: float = 0.1
    worm: float = 0.0
    off_centre: float = 0.0
    scatter: float = 10.0


def made_part(hidden: Hidden, plan: Plan, chance: Random) -> MeasuredPart:
    """Cut one part, and measure it without error.

    off_centre is the root mean square of how far the work sits off its axis; scatter a standard deviation
    """
    rim = float(plan.part.rim_mm or 0)
    per_arcsec = rim / 2 * 1000 * pi / 648_000
    x, y = (chance.gauss(0, hidden.off_centre * 1000 / 2**0.5) for _ in range(2))
    worm_phase = chance.random()
    ratio = float(plan.head.ratio or 1)
    out = []
    for one in plan.way.reached():
        turn = float(one.achieved)
        arcsec = hidden.wheel * cos(2 * pi * (turn - hidden.wheel_phase))
        arcsec += hidden.worm * cos(2 * pi * (turn * ratio - worm_phase))
        arcsec += chance.gauss(0, hidden.scatter) + float(one.achieved - one.target) * 1_296_000
        out.append(arcsec * per_arcsec + x * cos(2 * pi * turn) + y * cos(2 * pi * (turn - 0.25)))
    pitches = [after - before for before, after in zip(out, [*out[1:], out[0]], strict=True)]
    return MeasuredPart(plan, rim, Inspected(tuple(pitches)))


def made_parts(hidden: Hidden, plans: Sequence[Plan], seed: int) -> list[MeasuredPart]:
    chance = Random(seed)
    return [made_part(hidden, plan, chance) for plan in plans]
