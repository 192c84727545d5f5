"""Rounding a row of targets to the places of a scale: the one rule on which every way rests.

A scale has so many places in a turn of the spindle. A target that lies between two places is set
to the nearer one. Positions count from the start, so each is rounded once and no error is handed on.
"""

from collections.abc import Iterator
from fractions import Fraction
from math import gcd


def nearest_place(target: Fraction, places: Fraction) -> int:
    """Return the place nearest to a target, counted from the start.

    target  where the spindle should be, in turns from the start; may pass 1
    places  places in one turn of the spindle (ratio x places in a turn of the crank), above 0

    The work is at most 1 / (2 x places) turn out, however many positions came before. Halves go
    to the even place, so that a run the other way meets the same ones.
    Source: derived; nearest whole number to target x places.

    >>> nearest_place(Fraction(1, 127), Fraction(40 * 49))
    15
    """
    return round(target * places)


def nearest_whole(top: int, bottom: int) -> int:
    """Return the whole number nearest to top / bottom, halves to the even one, as `round` of a Fraction does.

    bottom  above 0

    >>> [nearest_whole(top, 2) for top in (-3, -1, 1, 3)]
    [-2, 0, 0, 2]
    """
    whole, over = divmod(top, bottom)
    return whole + (2 * over > bottom or (2 * over == bottom and whole % 2))


def nearest_places(first: Fraction, step: Fraction, count: int) -> Iterator[int]:
    """Yield the whole number nearest to first, first + step, ..., `count` of them; halves go to the even one.

    first, step  in places, any fractions
    count        how many, 1 or more

    The same as `nearest_place` one by one, in whole numbers over the common denominator: a million
    positions take a moment.

    >>> list(nearest_places(Fraction(1, 2), Fraction(2, 3), 4))
    [0, 1, 2, 2]
    """
    bottom = first.denominator * step.denominator // gcd(first.denominator, step.denominator)
    top = first.numerator * (bottom // first.denominator)
    stride = step.numerator * (bottom // step.denominator)
    for value in range(top, top + stride * count, stride) if stride else [top] * count:
        yield nearest_whole(value, bottom)


def worst_rounding(first: Fraction, step: Fraction, count: int) -> Fraction:
    """Return the largest distance to a whole number among first, first + step, ..., `count` of them.

    first, step  in places, any fractions
    count        how many, 1 or more

    Over the common denominator b the terms are whole numbers r, r + a, r + 2a, ... taken round b.
    They meet every residue that is r modulo g = gcd(a, b), and after b / g terms begin again. So
    when there are that many terms, the worst is the residue of that class nearest to b / 2, found
    without looking at any of them; when there are fewer, they are looked at one by one.
    Source: derived. Checked against plain enumeration in the tests.

    >>> worst_rounding(Fraction(0), Fraction(40 * 49, 127), 127)
    Fraction(63, 127)
    """
    bottom = first.denominator * step.denominator // gcd(first.denominator, step.denominator)
    residue = first.numerator * (bottom // first.denominator) % bottom
    stride = step.numerator * (bottom // step.denominator) % bottom
    common = gcd(stride, bottom)
    if count >= bottom // common:
        below = residue % common + (bottom // 2 - residue % common) // common * common
        worst = max(min(place % bottom, -place % bottom) for place in (below, below + common))
    else:
        worst = max(
            min(place, bottom - place)
            for place in ((residue + stride * index) % bottom for index in range(count))
        )
    return Fraction(worst, bottom)
