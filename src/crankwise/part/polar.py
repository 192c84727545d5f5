"""A point at an angle and a radius, with the quarters and halves exact."""

from fractions import Fraction
from math import cos, pi, sin

Point = tuple[float, float]

_EIGHTH = Fraction(1, 8)


def sine(turns: Fraction) -> float:
    """Return the sine of an angle in turns; exactly 0, 1 or -1 at whole quarters.

    A float: the angle is folded into the first eighth of the circle while it is still exact, so that the
    result is good to a float's last digit or two however many turns there are.
    """
    quarters, rest = divmod(turns + _EIGHTH, Fraction(1, 4))
    inner = 2 * pi * float(rest - _EIGHTH)
    return (sin(inner), cos(inner), -sin(inner), -cos(inner))[quarters % 4]


def cosine(turns: Fraction) -> float:
    """Return the cosine of an angle in turns; exactly 0, 1 or -1 at whole quarters. A float, as `sine`."""
    return sine(turns + Fraction(1, 4))


def point_at(radius_mm: float, turns: Fraction, centre_mm: tuple[float, float] = (0.0, 0.0)) -> Point:
    """Return x and y, in mm, of the point at this radius and angle; anticlockwise from the +X side.

    Source: x = r cos, y = r sin.

    >>> point_at(30.0, Fraction(1, 4))
    (0.0, 30.0)
    """
    return centre_mm[0] + radius_mm * cosine(turns), centre_mm[1] + radius_mm * sine(turns)
