"""A stepper motor on the crank or on the spindle: so many steps in one turn, and nothing between."""

from dataclasses import dataclass
from typing import Literal, get_args

from crankwise.errors import FaultsFound
from crankwise.head.rules import count_fault

TurnOf = Literal["crank", "spindle"]
TURN_OF: tuple[TurnOf, ...] = get_args(TurnOf)


@dataclass(frozen=True, slots=True)
class Stepper:
    """A stepper drive.

    steps        steps that the controller counts in one turn, microsteps where it makes them; 2 or more
    per_turn_of  what turns once for them: the crank, or the spindle where the whole drive is reckoned in
    """

    steps: int
    per_turn_of: TurnOf = "crank"

    def __post_init__(self) -> None:
        if faults := count_fault("steps", self.steps, 2, "a stepper drive has", "step"):
            raise FaultsFound(faults)
