"""Student's t and the F distribution: how far chance alone may carry a figure.

Both come from the regularised incomplete beta function, worked out by its continued fraction. Floats, good
to about twelve digits; far more than statistics of a few dozen readings can use.
"""

from math import exp, lgamma, log

_TINY = 1e-300


def incomplete_beta(a: float, b: float, x: float) -> float:
    """Return the regularised incomplete beta function I_x(a, b), 0 to 1.

    a, b  above 0;  x  0 to 1
    Source: NIST Digital Library of Mathematical Functions, 8.17.22, the continued fraction.
    """
    if x <= 0:
        return 0.0
    if x >= 1:
        return 1.0
    if x > (a + 1) / (a + b + 2):
        return 1 - incomplete_beta(b, a, 1 - x)
    lead = exp(lgamma(a + b) - lgamma(a) - lgamma(b) + a * log(x) + b * log(1 - x)) / a
    return lead / _fraction(a, b, x)


def _fraction(a: float, b: float, x: float) -> float:
    """1 + d1/(1 + d2/(1 + ...)), from the front, by the ratios of its convergents (Lentz)."""
    value, up, down = 1.0, 1.0, 0.0
    for index in range(1, 10_000):
        m = index // 2
        if index % 2:
            term = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        else:
            term = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        down = 1 / ((1 + term * down) or _TINY)
        up = (1 + term / up) or _TINY
        value *= up * down
        if abs(up * down - 1) < 1e-15:
            break
    return value


def t_beyond(t: float, freedom: int) -> float:
    """Return the chance that Student's t is beyond this, on either side together.

    t  0 or more;  freedom  degrees of freedom, 1 or more
    Source: NIST Digital Library of Mathematical Functions, 8.17; I_x(f/2, 1/2) at x = f / (f + t^2).
    """
    return incomplete_beta(freedom / 2, 0.5, freedom / (freedom + t * t))


def f_beyond(f: float, above: int, below: int) -> float:
    """Return the chance that a variance ratio is greater than this.

    above, below  degrees of freedom of the two variances, 1 or more
    """
    return incomplete_beta(below / 2, above / 2, below / (below + above * max(f, 0.0)))


def t_limit(freedom: int, chance: float = 0.05) -> float:
    """Return the t that is passed, on either side together, with this chance only: 2.23 for 10 and 5 %.

    freedom  degrees of freedom, 1 or more;  chance  above 0, below 1
    """
    low, high = 0.0, 2.0
    while t_beyond(high, freedom) > chance:
        low, high = high, high * 2
    while high - low > 1e-12 * high:
        middle = (low + high) / 2
        low, high = (middle, high) if t_beyond(middle, freedom) > chance else (low, middle)
    return (low + high) / 2
