"""What each way costs, and which ways are not beaten on every count: the front of the choice.

A way is beaten when another is no worse in its worst error, in what must be set up, in the turning
of the crank and in the mistakes to be expected, and better in one of them. Those not beaten form the
front; the one put first (ranking.py) is always among them.

How often a mistake is made is judgement, not measurement: the odds below are for a careful operator
over a long run, and are there to compare ways, not to promise anything. A constant move is safer
than a varying one because nothing is looked up for it.
"""

from collections.abc import Sequence
from fractions import Fraction
from operator import le
from typing import NamedTuple

from crankwise.ways.way import Way

MISTAKE_AT_A_LOOK_UP = Fraction(1, 400)
"""The wrong line of the list read, or a figure read wrongly. Judgement; common practice, no source."""

MISTAKE_AT_A_COUNT = Fraction(1, 2000)
"""One turn, hole or notch too many or too few, where the count is the same each time. Judgement."""


class Work(NamedTuple):
    """What a way costs over the whole run.

    to_set_up    things to fit or set before the run
    plates       hole plates to fit
    gears        change gears and idlers to mount
    crank_turns  turns of the crank from the first position to the last, or all the way round
    look_ups     figures looked up in the list
    counts       counts of turns, holes or notches made
    mistakes     mistakes to be expected: look_ups and counts, each times its odds
    """

    to_set_up: int
    plates: int
    gears: int
    crank_turns: Fraction
    look_ups: int
    counts: int
    mistakes: Fraction


def work(way: Way) -> Work:
    """Return what a way costs over the whole run.

    Source of the sum: derived, odds x how many; the odds are judgement (see above).
    """
    burden, moves, setup = way.burden, len(way.divisions), way.setup
    look_ups, counts = moves * burden.looked_up, moves * (burden.to_count - burden.looked_up)
    gears = sum(
        len(value) for name in ("drivers", "driven") if isinstance(value := setup.get(name), (tuple, list))
    )
    idlers = setup.get("idlers")
    return Work(
        to_set_up=burden.to_set_up,
        plates=1 if ("circle" in setup or "circles" in setup) and burden.to_set_up else 0,
        gears=gears + (idlers if isinstance(idlers, int) else 0),
        crank_turns=way.crank_turns,
        look_ups=look_ups,
        counts=counts,
        mistakes=look_ups * MISTAKE_AT_A_LOOK_UP + counts * MISTAKE_AT_A_COUNT,
    )


def on_the_front(ways: Sequence[Way], works: Sequence[Work]) -> tuple[bool, ...]:
    """Return for each way whether no other beats it; of two that cost the same, both stay.

    works  what each of the ways costs, in the same order
    """
    costs = [_costs(way, cost) for way, cost in zip(ways, works, strict=True)]
    # In rising order a cost is beaten only by one before it; and what beats that one, on the front, beats it too.
    front: list[Costs] = []
    for cost in sorted(set(costs)):
        if not any(all(map(le, better, cost)) for better in front):
            front.append(cost)
    unbeaten = set(front)
    return tuple(cost in unbeaten for cost in costs)


def spread_of_choice(ways: Sequence[Way], works: Sequence[Work]) -> tuple[Way, ...]:
    """Return the ways to weigh against each other: those that no other beats, one of each cost.

    ways, works  the ways, the best first, and what each costs

    Many ways cost the same, as one train on seven circles; the first of them stands for the rest.
    """
    chosen: dict[Costs, Way] = {}
    for way, cost, unbeaten in zip(ways, works, on_the_front(ways, works), strict=True):
        if unbeaten:
            chosen.setdefault(_costs(way, cost), way)
    return tuple(chosen.values())


Costs = tuple[Fraction, Fraction, Fraction, Fraction]


def _costs(way: Way, cost: Work) -> Costs:
    return way.worst_error, Fraction(cost.to_set_up), cost.crank_turns, cost.mistakes
