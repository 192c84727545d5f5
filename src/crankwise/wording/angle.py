"""Angles as degrees-minutes-seconds or decimal degrees, to a stated place, with the carry right."""

from fractions import Fraction

from crankwise.exact.angle import ARCSECONDS
from crankwise.wording.figures import arcseconds, decimal, rounded


def degrees_minutes_seconds(turns: Fraction, places: int = 1) -> str:
    """Return an angle as 12°34'56.7"; the seconds to so many decimals.

    The whole angle is rounded once, in the last place of its seconds, and only then taken apart, so
    59'59.96" at one place is the next degree and 60" is never printed. Negative angles and angles
    over a turn are written as they are.

    >>> degrees_minutes_seconds(Fraction(3599_96, 100) / 1_296_000)
    '1°0\\'0.0"'
    """
    scale = 10**places
    units = rounded(turns, Fraction(1, ARCSECONDS * scale))
    minutes, second_units = divmod(abs(units), 60 * scale)
    degrees, minutes = divmod(minutes, 60)
    seconds = decimal(Fraction(second_units, scale), places)
    return f"{'-' if units < 0 else ''}{degrees}°{minutes}'{seconds}\""


def decimal_degrees(turns: Fraction, places: int = 4) -> str:
    """Return an angle as 12.5822°, to so many decimals.

    >>> decimal_degrees(Fraction(1, 127))
    '2.8346°'
    """
    return f"{decimal(turns * 360, places)}°"


def short_angle(turns: Fraction) -> str:
    """Return an angle without the parts that are nought: 5°, 3', 1°30'; seconds to one place where not whole.

    >>> short_angle(Fraction(1, 48)), short_angle(Fraction(1, 720))
    ("7°30'", "30'")
    """
    if turns * 21_600 == int(turns * 21_600):
        degrees, minutes = divmod(int(turns * 21_600), 60)
        return "".join([f"{degrees}°"] * bool(degrees) + [f"{minutes}'"] * bool(minutes or not degrees))
    if turns * 360 >= 1 or turns * 21_600 >= 1:
        return degrees_minutes_seconds(turns).removeprefix("0°")
    return arcseconds(turns)
