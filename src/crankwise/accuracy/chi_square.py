"""The chi-square distribution: how surely a few readings tell how much they scatter.

Floats, good to about twelve digits.
"""

from math import exp, lgamma, log, sqrt

_TINY = 1e-300


def chi_square_below(x: float, freedom: int) -> float:
    """Return the chance that a sum of squares of so many standard normal values is below x.

    freedom  degrees of freedom, 1 or more
    Source: NIST Digital Library of Mathematical Functions, 8.11.4 (series) and 8.9.2 (continued fraction) of the
    incomplete gamma function P(f / 2, x / 2).
    """
    a, z = freedom / 2, x / 2
    if z <= 0:
        return 0.0
    lead = exp(a * log(z) - z - lgamma(a))
    if z < a + 1:
        term = total = 1 / a
        step = a
        while term > total * 1e-16:
            step += 1
            term *= z / step
            total += term
        return lead * total
    return 1 - lead * _fraction(a, z)


def _fraction(a: float, z: float) -> float:
    """1/(z + 1 - a - 1(1 - a)/(z + 3 - a - ...)), by the ratios of its convergents (Lentz)."""
    bottom = z + 1 - a
    up, down = 1 / _TINY, 1 / bottom
    value = down
    for index in range(1, 10_000):
        term = -index * (index - a)
        bottom += 2
        down = 1 / ((term * down + bottom) or _TINY)
        up = (bottom + term / up) or _TINY
        value *= up * down
        if abs(up * down - 1) < 1e-15:
            break
    return value


def chi_square_limit(freedom: int, below: float) -> float:
    """Return the value that such a sum stays below with this chance: 18.31 for 10 and 0.95.

    freedom  degrees of freedom, 1 or more;  below  above 0, below 1
    """
    low, high = 0.0, float(freedom)
    while chi_square_below(high, freedom) < below:
        low, high = high, 2 * high
    while high - low > 1e-12 * high:
        middle = (low + high) / 2
        low, high = (middle, high) if chi_square_below(middle, freedom) < below else (low, middle)
    return (low + high) / 2


def spread_limits(freedom: int, confidence: float = 0.95) -> tuple[float, float]:
    """Return between which multiples of the standard deviation found the true one lies: 0.69 to 1.75 for 10.

    freedom  degrees of freedom that it was found with, 1 or more
    Source: the interval of a normal sample's standard deviation; NIST/SEMATECH handbook, 1.3.5.8.
    """
    beyond = (1 - confidence) / 2
    return (
        sqrt(freedom / chi_square_limit(freedom, 1 - beyond)),
        sqrt(freedom / chi_square_limit(freedom, beyond)),
    )
