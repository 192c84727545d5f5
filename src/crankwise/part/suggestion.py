"""A length to suggest to a person: rounded to the side that works, in both units.

Where a sentence says what would be right, a length rounded the usual way could be a shade too much.
This is no display of a result, which is `wording`'s: it chooses a value to set instead.
"""

from fractions import Fraction
from math import ceil, floor

from crankwise.exact.length import INCH
from crankwise.exact.number import as_text
from crankwise.part.card import Quantity

_MICROMETRES, _TENTHS_OF_A_THOU = 1000, 10_000


def at_most(length_mm: Quantity) -> str:
    """Return the largest length of whole micrometres that is no more than this one, in both units.

    >>> at_most(1.23456)
    '1.234 mm (0.0486 in)'
    """
    return _both(floor(length_mm * _MICROMETRES), floor(Fraction(length_mm) / INCH * _TENTHS_OF_A_THOU))


def at_least(length_mm: Quantity) -> str:
    """Return the smallest length of whole micrometres that is no less than this one, in both units.

    >>> at_least(25.4)
    '25.4 mm (1 in)'
    """
    near = Fraction(length_mm).limit_denominator(10**9)
    return _both(ceil(near * _MICROMETRES), ceil(near / INCH * _TENTHS_OF_A_THOU))


def typed_mm(length_mm: Quantity) -> str:
    """Return a length as it was asked, in millimetres: exactly where it is exact."""
    near = Fraction(length_mm).limit_denominator(10**6)
    exact = as_text(near)
    return f"{exact if len(exact.partition('.')[2]) <= 4 and '/' not in exact else f'{float(near):.4f}'} mm"


def _both(micrometres: int, tenths: int) -> str:
    return f"{as_text(Fraction(micrometres, _MICROMETRES))} mm ({as_text(Fraction(tenths, _TENTHS_OF_A_THOU))} in)"
