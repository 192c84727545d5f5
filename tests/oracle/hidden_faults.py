"""Runs with one fault that nobody notices by itself: how many rows are worked before a check shows it.

The rows are worked one by one. From the fault on the machine stands elsewhere, and every check reads
the scales as they then stand, each out by a random part of what it can be read to.
"""

from dataclasses import dataclass
from fractions import Fraction
from random import Random

from crankwise.run.check_points import Checks, checks
from tests.oracle.simulated_run import Job


@dataclass(frozen=True)
class Hidden:
    """What became of one fault.

    event     what happened
    worked    rows worked from the fault to the check that showed it; None when no check did
    promised  rows that the run promised at most
    alarms    checks that found fault before there was any
    """

    event: str
    worked: int | None
    promised: int
    alarms: int


def hidden_fault(job: Job, random: Random) -> Hidden | None:
    """Let one thing go wrong that this run promises to show; None when it promises nothing."""
    plan = checks(job.evidence, random.choice([None, 3, 7, 12]))
    promised, watched = plan.promise.positions, plan.promise.watched_to
    if promised is None or watched is None:
        return None
    events = [
        event
        for event in ("one short", "one over", "turn short", "turn over")
        if event not in plan.promise.unproved and (job.places or "turn" not in event)
    ]
    slip = Fraction(0)
    event = random.choice([*events, *(["slip"] * 2 if plan.promise.smallest_slip is not None else [])])
    if event == "slip" and plan.promise.smallest_slip is not None:
        slip = (plan.promise.smallest_slip + Fraction(random.randint(1, 500), 10**5)) * random.choice([1, -1])
    since = random.randint(1, watched)
    alarms = 0
    for row in range(len(job.rows)):
        if not _alarm(
            job, plan, random, row, event if row >= since else "", slip if row >= since else slip * 0
        ):
            continue
        if row >= since:
            return Hidden(event, row - since + 1, promised, alarms)
        alarms += 1
    return Hidden(event, None, promised, alarms)


def _alarm(job: Job, plan: Checks, random: Random, row: int, event: str, slip: Fraction) -> bool:
    point = plan.at(row)
    if point is None:
        return False
    crank = next((abs(scale.turns) for name, scale in job.scales.items() if name != "ring"), Fraction(1))
    for name in point.asks:
        scale = job.scales[name]
        stands = row + {"one over": 1, "one short": -1}.get(event, 0)
        value = (job.shown[stands] if stands < len(job.shown) else job.past_the_end)[name]
        if name == "ring":
            ahead = slip + {"turn short": -1, "turn over": 1}.get(event, 0) / crank
            value += scale.turns * scale.full * ahead
        if scale.within:
            value += scale.within * Fraction(random.randint(-50, 50), 50)
        off = (value - job.shown[row][name]) % scale.full
        if min(off, scale.full - off) > scale.within:
            return True
    return False
