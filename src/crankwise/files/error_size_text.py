"""The size of an error as a person types it: in the form of a head, beside a prediction, or after a command."""

from fractions import Fraction

from crankwise.errors import BadNumber, FaultsFound
from crankwise.exact.length import read_length
from crankwise.exact.listed import range_ends
from crankwise.exact.number import as_text, read_number
from crankwise.head.error_sizes import MOST, Size


def read_size(name: str, typed: str, what: str) -> Size:
    """Return a size: 20, or a range as 10..60 or 10 to 60.

    name  of the size, one of MOST;  what  it is, for the error's sentence

    Raises BadNumber, BadLength.
    """
    ends = range_ends(typed)
    if len(ends) > 2:
        raise BadNumber(what, f"{typed[:40]!r}; a range has two ends, as 10..60")
    numbers = [read_size_end(name, end, what) for end in ends]
    if max(numbers) > MOST[name]:
        raise BadNumber(what, f"{as_text(max(numbers))}; at most {MOST[name]:,} is believed")
    try:
        return Size(numbers[0], numbers[-1])
    except FaultsFound as told:
        raise BadNumber(what, told.faults[0].message) from None


def read_size_end(name: str, typed: str, what: str) -> Fraction:
    """Return one figure in the unit that its name ends in; a length may name its own, as 0.5 thou, an angle its mark.

    Raises BadNumber, BadLength.
    """
    if name.endswith("_mm") and typed[-1:].isalpha():
        return read_length(typed, what)
    return read_number(typed.removesuffix('"').rstrip() if name.endswith("_arcsec") else typed, what)
