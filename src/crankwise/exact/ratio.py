"""Simple fractions near a ratio: what any two wheels could do, before asking which are owned."""

from fractions import Fraction


def simplest_between(least: Fraction, greatest: Fraction) -> Fraction:
    """Return the ratio of the smallest numbers from `least` to `greatest`, both included.

    least, greatest  above 0, in rising order

    Where a whole number lies between, it is the least one. Else both have the same whole part, and
    the rest is the simplest ratio between their upside-down rests: the continued fractions of both,
    as far as they agree. Source: derived.

    >>> simplest_between(Fraction(314, 100), Fraction(315, 100))
    Fraction(22, 7)
    """
    whole = -(-least.numerator // least.denominator)
    if whole <= greatest:
        return Fraction(whole)
    whole -= 1
    return whole + 1 / simplest_between(1 / (greatest - whole), 1 / (least - whole))
