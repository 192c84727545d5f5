"""Simple fractions near a ratio: what any two wheels could do, before asking which are owned."""

from collections.abc import Iterator
from fractions import Fraction


def convergents(value: Fraction) -> Iterator[Fraction]:
    """Yield the convergents of a ratio, each nearer than the one before, the ratio itself last.

    None with a smaller bottom is nearer than a convergent. Source: continued fractions, as in any
    book on the theory of numbers; each step is one division of Euclid's algorithm.

    >>> [str(ratio) for ratio in convergents(Fraction(127, 40))]
    ['3', '16/5', '19/6', '54/17', '127/40']
    """
    top, bottom = value.numerator, value.denominator
    before, last = (0, 1), (1, 0)
    while bottom:
        whole, rest = divmod(top, bottom)
        before, last = last, (whole * last[0] + before[0], whole * last[1] + before[1])
        yield Fraction(*last)
        top, bottom = bottom, rest


def simplest_between(least: Fraction, greatest: Fraction) -> Fraction:
    """Return the ratio of the smallest numbers from `least` to `greatest`, both included.

    least, greatest  above 0, in rising order

    Where a whole number lies between, it is the least one. Else both have the same whole part, and
    the rest is the simplest ratio between their upside-down rests. Source: derived.

    >>> simplest_between(Fraction(314, 100), Fraction(315, 100))
    Fraction(22, 7)
    """
    whole = -(-least.numerator // least.denominator)
    if whole <= greatest:
        return Fraction(whole)
    whole -= 1
    return whole + 1 / simplest_between(1 / (greatest - whole), 1 / (least - whole))
