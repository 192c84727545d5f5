"""What a head cannot divide exactly, and which one more hole circle would help most.

N parts by plain indexing need a circle that is a multiple of N / gcd(N, ratio); so a circle of H
holes makes exact just those N for which ratio x H / N is whole. Source: derived from plain indexing.
"""

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from crankwise.head.head import Head

MOST_HOLES = 120
"""The largest circle that is proposed: beyond it holes on a common plate run into each other. Judgement."""


class Help(NamedTuple):
    """One more circle, and the numbers that it would make exact."""

    circle: int
    makes_exact: tuple[int, ...]


def least_circle(ratio: Fraction, count: int) -> int:
    """Return the fewest holes of a circle that divides into `count` parts by plain indexing; 1 for whole turns.

    >>> least_circle(Fraction(40), 57)
    57
    """
    return (ratio / count).denominator


def circles_that_help(head: Head, missing: Sequence[int], most: int = 5) -> tuple[Help, ...]:
    """Return the circles not owned that would make most of the missing numbers exact, the best first.

    missing  numbers of parts that the head has no exact way for
    most     how many circles to return; ties go to the circle with fewer holes

    Empty on a head without a worm, or where no circle of up to 120 holes helps.
    """
    if head.ratio is None:
        return ()
    needed = [(count, least_circle(head.ratio, count)) for count in missing]
    found = []
    for circle in range(2, MOST_HOLES + 1):
        if circle not in head.circles:
            helped = tuple(count for count, holes in needed if circle % holes == 0)
            if helped:
                found.append(Help(circle, helped))
    return tuple(sorted(found, key=lambda found: (-len(found.makes_exact), found.circle))[:most])
