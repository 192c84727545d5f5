"""Numbers with a stated count of decimals, rounded once, halves away from zero."""

from fractions import Fraction

from crankwise.exact.angle import ARCSECONDS
from crankwise.exact.length import INCH, rim_length
from crankwise.exact.number import as_text


def rounded(value: Fraction, unit: Fraction = Fraction(1)) -> int:
    """Return how many units make the value, rounded once; halves go away from zero.

    >>> rounded(Fraction(5, 2)), rounded(Fraction(-5, 2))
    (3, -3)
    """
    top = abs(value.numerator) * unit.denominator
    bottom = value.denominator * unit.numerator
    whole = (2 * top + bottom) // (2 * bottom)
    return -whole if value < 0 else whole


def decimal(value: Fraction, places: int) -> str:
    """Return a value to so many decimals; never "-0".

    >>> decimal(Fraction(113, 40), 2), decimal(Fraction(-1, 1000), 2)
    ('2.83', '0.00')
    """
    count = rounded(value, Fraction(1, 10**places))
    digits = f"{abs(count):0{places + 1}d}"
    text = f"{digits[:-places]}.{digits[-places:]}" if places else digits
    return f"-{text}" if count < 0 else text


def short(value: Fraction, places: int = 4) -> str:
    """Return the exact value where it is short, else to so many decimals with a leading "about".

    >>> short(Fraction(113, 2)), short(Fraction(7200, 127))
    ('56.5', 'about 56.6929')
    """
    exact = as_text(value)
    if "/" not in exact and len(exact.partition(".")[2]) <= places:
        return exact
    return f"about {decimal(value, places)}"


def arcseconds(turns: Fraction) -> str:
    """Return an error as seconds of arc: 44.6", or 0 when it is exact, and never 0 when it is not."""
    return _small(turns * ARCSECONDS, '"')


def at_the_rim(turns: Fraction, rim_mm: Fraction, inch_first: bool = False) -> str:
    """Return an error as a length at the rim, in both units: 21.6 µm (8.5 tenths of a thou)."""
    return small_length(rim_length(turns, rim_mm), inch_first)


def small_length(length: Fraction, inch_first: bool = False) -> str:
    """Return a small length, in mm, in both units: 21.6 µm (8.5 tenths of a thou); from a thou on, in thou."""
    metric = _small(length * 1000, " µm")
    thou = length / INCH * 1000
    inch = f"{_small(thou, '')} thou" if abs(thou) >= 1 else f"{_small(thou * 10, '')} tenths of a thou"
    return f"{inch} ({metric})" if inch_first else f"{metric} ({inch})"


def _small(value: Fraction, unit: str) -> str:
    if value == 0:
        return f"0{unit}"
    places = 1 if abs(value) >= Fraction(1, 20) else 4
    text = decimal(value, places)
    return f"{'under 0.0001' if not text.strip('-0.') else text}{unit}"
