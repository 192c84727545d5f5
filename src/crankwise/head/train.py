"""A train of change gears, told by place.

In a train the first gear drives the second; the second and third stand on one stud, so the third
drives the fourth, and so on. A train that turns the plate of a head is, from the spindle on:

    gear on the spindle    drives   second gear on the stud
    first gear on the stud drives   gear on the plate's shaft (the worm's, when the train cuts a lead)

The gears are ordered along the train; the books number the stud's two gears from the other end.
Idlers stand between two gears and change nothing but the way the last one turns.
"""

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise, permutations
from math import prod

Teeth = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Train:
    """Change gears in mesh, in order from the first shaft to the last.

    drivers  teeth of the gears that drive: on the first shaft, then on each stud
    driven   teeth of the gears that they drive: on each stud, then on the last shaft; as many
    """

    drivers: Teeth
    driven: Teeth

    def __post_init__(self) -> None:
        assert len(self.drivers) == len(self.driven) >= 1
        assert min(*self.drivers, *self.driven) >= 1

    @property
    def value(self) -> Fraction:
        """Turns of the last shaft for one turn of the first: drivers over driven."""
        return Fraction(prod(self.drivers), prod(self.driven))

    @property
    def gears(self) -> Teeth:
        """The gears used, along the train."""
        return tuple(gear for mesh in zip(self.drivers, self.driven, strict=True) for gear in mesh)

    @property
    def is_simple(self) -> bool:
        """Whether no stud carries two gears."""
        return len(self.drivers) == 1

    @property
    def clearances(self) -> tuple[int, ...]:
        """How far the edge of each gear on a stud stays from the next shaft's centre, as doubled teeth.

        Two gears a, b in mesh have their centres (a + b) / 2 modules apart. The other gear c of a
        stud lies beside one of them and reaches c / 2 towards the same shaft, so a + b - c
        half-modules are left for that shaft and the tops of the teeth. Source: derived.
        """
        meshes = list(zip(self.drivers, self.driven, strict=True))
        left = []
        for (driver, driven), (next_driver, next_driven) in pairwise(meshes):
            left += [driver + driven - next_driver, next_driver + next_driven - driven]
        return tuple(left)

    def arrangements(self) -> "list[Train]":
        """Return every order of the same drivers and the same driven gears, the roomiest first.

        All have the same value; which gear stands where decides whether they clear the shafts.
        """
        orders = {
            Train(drivers, driven)
            for drivers in permutations(self.drivers)
            for driven in permutations(self.driven)
        }
        return sorted(
            orders, key=lambda train: (-min(train.clearances, default=0), train.drivers, train.driven)
        )
