"""A notched wheel on the spindle, held by a detent: whole notches, and nothing between."""

from dataclasses import dataclass

from crankwise.errors import FaultsFound
from crankwise.head.rules import count_fault


@dataclass(frozen=True, slots=True)
class NotchedWheel:
    """A wheel with `notches` notches (or teeth, or holes) all round; 2 or more."""

    notches: int

    def __post_init__(self) -> None:
        if faults := count_fault("notches", self.notches, 2, "a notched wheel has"):
            raise FaultsFound(faults)
