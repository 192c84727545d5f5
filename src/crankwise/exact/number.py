"""Numbers as a person types them, read without loss."""

import re
from fractions import Fraction

from crankwise.errors import BadNumber

PI = Fraction("3.14159265358979323846264338327950288419716939937510")
"""Pi to fifty decimals, good to 6e-51: more than a radian or a length round a rim will ever need."""

MOST_DIGITS = 60
_MOST_DECIMALS = 12
_DECIMAL_LIMIT = 10**_MOST_DECIMALS

_PLAIN = r"\d+(?:\.\d*)?|\.\d+"
_NUMBER = re.compile(rf"\s*([-+−]?)\s*(?:(\d+)\s+)?({_PLAIN})(?:\s*/\s*({_PLAIN}))?\s*")


def read_number(text: str, what: str = "number") -> Fraction:
    """Return the exact value of a number typed as 12, 12.5, 45/2, 2 1/2 or -0.25.

    text  at most 60 characters; no exponents, no thousands separators, a point for the decimals
    what  what the number is, for the error's sentence

    Raises BadNumber when it cannot be read or divides by zero.

    >>> read_number("2 1/2")
    Fraction(5, 2)
    """
    if len(text) > MOST_DIGITS:
        raise BadNumber(what, f"{len(text)} characters; a {what} has {MOST_DIGITS} at most")
    match = _NUMBER.fullmatch(text)
    if match is None or (match[2] and not match[4]):
        hint = " with a point, not a comma" if "," in text else ""
        raise BadNumber(what, f"{is_none(text, 'a number')}; write it as 12, 12.5 or 45/2{hint}")
    sign, whole, top, bottom = match.groups()
    if bottom is not None and Fraction(bottom) == 0:
        raise BadNumber(what, f"{shown(text)} divides by zero")
    value = Fraction(top) / (Fraction(bottom) if bottom else 1) + (int(whole) if whole else 0)
    return -value if sign and sign != "+" else value


def shown(text: str) -> str:
    """Return what was typed as a sentence repeats it: in quotes, cut short, "nothing" when empty."""
    text = text.strip()
    return repr(text if len(text) <= 40 else text[:37] + "...") if text else "nothing"


def is_none(text: str, kind: str) -> str:
    """Return that what was typed is none of its kind, or that nothing was typed.

    >>> is_none("wide", "a number"), is_none(" ", "a number")
    ("'wide' is not a number", 'nothing given')
    """
    return f"{shown(text)} is not {kind}" if text.strip() else "nothing given"


def as_text(value: Fraction | int) -> str:
    """Return the shortest text that loses nothing: a whole number, a decimal of at most 12 places, else a fraction.

    >>> as_text(Fraction(113, 2)), as_text(Fraction(360, 127))
    ('56.5', '360/127')
    """
    if value.denominator == 1:
        return str(value.numerator)
    if _DECIMAL_LIMIT % value.denominator:
        return str(value)
    digits = f"{abs(value.numerator) * (_DECIMAL_LIMIT // value.denominator):0{_MOST_DECIMALS + 1}d}"
    return f"{'-' if value < 0 else ''}{digits[:-_MOST_DECIMALS]}.{digits[-_MOST_DECIMALS:].rstrip('0')}"
