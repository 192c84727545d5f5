"""Hole plates: the circles of holes that the index pin of the crank drops into."""

from dataclasses import dataclass

from crankwise.errors import Fault, FaultsFound
from crankwise.head.rules import count_fault


@dataclass(frozen=True, slots=True)
class Plate:
    """One hole plate, told by its counts.

    circles  holes of each circle; all different, 2 or more each
    """

    circles: tuple[int, ...]

    def __post_init__(self) -> None:
        if not self.circles:
            raise FaultsFound([Fault("circles", "none; a hole plate has one circle or more")])
        faults = []
        for index, holes in enumerate(self.circles):
            place = f"circles[{index}]"
            faults += count_fault(place, holes, 2, "a hole circle has", "hole")
            if holes in self.circles[:index]:
                first = f"circles[{self.circles.index(holes)}]"
                faults.append(
                    Fault(place, f"{holes} again; a plate has each circle once, and {first} is {holes} too")
                )
        if faults:
            raise FaultsFound(faults)
