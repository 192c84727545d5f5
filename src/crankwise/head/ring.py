"""The graduated ring on the spindle: it tells which turn of the crank this is."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from crankwise.errors import FaultsFound
from crankwise.head.rules import count_fault, read_to_fault


@dataclass(frozen=True, slots=True)
class Ring:
    """A ring that turns with the spindle.

    graduations  lines all round
    read_to      the smallest part of a graduation that the operator reads: 1, 1/2, 1/4 ...
    full_circle  what the numerals come to in one turn: 360 for degrees, 400 for gon, ...
    numbered     which way the numerals rise, seen from the front
    """

    graduations: int
    read_to: Fraction = Fraction(1)
    full_circle: int = 360
    numbered: Literal["clockwise", "anticlockwise"] = "clockwise"

    def __post_init__(self) -> None:
        faults = count_fault("graduations", self.graduations, 2, "a ring has", "graduation")
        faults += read_to_fault("read_to", self.read_to, "graduation")
        faults += count_fault("full_circle", self.full_circle, 1, "the numerals of a full circle come to")
        if faults:
            raise FaultsFound(faults)

    @property
    def places(self) -> int:
        """Readings that can be told apart in one turn of the spindle."""
        return self.graduations * self.read_to.denominator

    def reading(self, turns: Fraction) -> Fraction:
        """Return what the ring shows, in the units of its numerals, when it stands `turns` from its zero."""
        return turns % 1 * self.full_circle
