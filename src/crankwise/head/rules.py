"""What any count or reading on a head must be, so that every part says it in the same words."""

from fractions import Fraction
from typing import Literal

from crankwise.errors import Fault
from crankwise.exact.number import as_text

MOST = 1_000_000
"""The largest count of teeth, marks, graduations, holes or notches that is believed."""

Growth = Literal["increases", "decreases"]
"""What a clockwise turn of the crank, seen from the operator's side, does to a reading."""


def count_fault(place: str, count: int, least: int, rule: str, unit: str = "") -> list[Fault]:
    """Return the fault of a count below `least` or beyond belief, if it is one.

    rule  how the right is told, up to the count: "a hole circle has"
    unit  what is counted, in the singular
    """
    found = f"{count} {unit}{'' if count == 1 else 's'}" if unit else str(count)
    if count < least:
        return [Fault(place, f"{found}; {rule} {least} or more")]
    if count > MOST:
        return [Fault(place, f"{found}; {rule} at most {MOST:,}")]
    return []


def read_to_fault(place: str, read_to: Fraction, of_what: str) -> list[Fault]:
    """Return the fault of a smallest part read that does not go into one line a whole number of times."""
    if read_to > 0 and read_to.numerator == 1:
        return []
    return [Fault(place, f"{as_text(read_to)}; what can be read is 1, 1/2, 1/5, 1/10 ... of a {of_what}")]
