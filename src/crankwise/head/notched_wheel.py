"""A notched wheel on the spindle, held by a detent: whole notches, and nothing between."""

from dataclasses import dataclass
from typing import Literal, get_args

from crankwise.errors import FaultsFound
from crankwise.head.rules import count_fault

DetentOn = Literal["bed", "worm", "wheel"]
"""What the detent of a wheel stands on."""

DETENT_ON: tuple[DetentOn, ...] = get_args(DetentOn)


@dataclass(frozen=True, slots=True)
class NotchedWheel:
    """A wheel with `notches` notches (or teeth, or holes) all round; 2 or more.

    detent_on  what its detent stands on. On the bed it does not move. On the worm's wheel it goes
               round with the worm, on another notched wheel with that one: the spindle then stands
               at the sum of the two, whole notches of this wheel and the move of what carries it.
    """

    notches: int
    detent_on: DetentOn = "bed"

    def __post_init__(self) -> None:
        if faults := count_fault("notches", self.notches, 2, "a notched wheel has"):
            raise FaultsFound(faults)
