"""The change gears owned, and the bracket that carries them: which trains can be mounted, and how.

The gears are a multiset: two of one size can be used only if two are owned.
"""

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations

from crankwise.errors import Fault, FaultsFound
from crankwise.exact.number import as_text
from crankwise.head.rules import count_fault
from crankwise.head.train import Teeth, Train

LEAST_TEETH = 6
SHAFT_CLEARANCE = 15
"""Teeth to leave between a gear and the next shaft: typical of small change gears. Common practice, no source."""

IDLERS_WITH = (1, 0)
IDLERS_AGAINST = (2, 1)
"""Idlers on the usual head, in simple gearing and in compound. Handbooks, from memory; heads differ."""


@dataclass(frozen=True, slots=True)
class ChangeGears:
    """The change gears owned and how they can be mounted.

    teeth                tooth counts, one entry for each gear owned; sizes may come more than once
    module_mm            the gears' module in mm; None when it has not been said
    shaft_clearance      teeth that a gear on a stud must leave free for the next shaft, 2 or more:
                         2 for the tops of the teeth and the shaft's diameter in modules
    least_centres_mm,    the distance in mm between the centres of two gears in mesh that the
    greatest_centres_mm  bracket's slots can be set to; None where there is no limit
    idlers_with          idlers that make the plate turn with the crank: in simple gearing, in compound
    idlers_against       idlers that make it turn against the crank: in simple gearing, in compound
    cannot_drive_plate   why no train can turn the plate, as "the spindle is tilted"; empty when one can
    """

    teeth: Teeth
    module_mm: Fraction | None = None
    shaft_clearance: int = SHAFT_CLEARANCE
    least_centres_mm: Fraction | None = None
    greatest_centres_mm: Fraction | None = None
    idlers_with: tuple[int, ...] = IDLERS_WITH
    idlers_against: tuple[int, ...] = IDLERS_AGAINST
    cannot_drive_plate: str = ""

    def __post_init__(self) -> None:
        faults = []
        for index, teeth in enumerate(self.teeth):
            faults += count_fault(f"teeth[{index}]", teeth, LEAST_TEETH, "a change gear has")
        faults += count_fault("shaft_clearance", self.shaft_clearance, 2, "a gear clears the next shaft by")
        faults += self._bracket_faults() + self._idler_faults()
        if faults:
            raise FaultsFound(faults)

    @property
    def has_bracket(self) -> bool:
        """Whether the distance between two gears in mesh has a limit."""
        return self.least_centres_mm is not None or self.greatest_centres_mm is not None

    def idlers(self, train: Train, with_crank: bool) -> int:
        """Return how many idlers make the plate turn with the crank, or against it."""
        simple, compound = self.idlers_with if with_crank else self.idlers_against
        return simple if train.is_simple else compound

    def mounted(self, train: Train, idlers: int) -> Train | None:
        """Return the roomiest arrangement of a train's gears that can be mounted, or None."""
        return next((order for order in train.arrangements() if not self.hindrances(order, idlers)), None)

    def hindrances(self, train: Train, idlers: int) -> tuple[str, ...]:
        """Return why a train cannot be mounted as it is arranged, a sentence each; empty when it can.

        idlers  how many stand between its gears
        """
        found = [
            f"the {gear} on the stud leaves {left} teeth free at the next shaft, and {self.shaft_clearance} are needed"
            for gear, left in zip(_beside_shafts(train), train.clearances, strict=True)
            if left < self.shaft_clearance
        ]
        if self.has_bracket and not self._within_bracket(train, idlers):
            apart = " and ".join(
                f"{as_text(self.centres_mm(driver, driven))} mm"
                for driver, driven in zip(train.drivers, train.driven, strict=True)
            )
            between = "with any idlers that are left over" if idlers else f"its centres are {apart} apart"
            found.append(f"the bracket takes centres {self._limits()}; {between}, it does not fit")
        return tuple(found)

    def centres_mm(self, first: int, second: int) -> Fraction:
        """Return how far apart the centres of two gears in mesh are, in mm.

        Source: half of the two pitch diameters, each teeth x module.
        """
        return (first + second) * (self.module_mm or Fraction(0)) / 2

    def _in_reach(self, first: int, second: int) -> bool:
        apart = self.centres_mm(first, second)
        return (self.least_centres_mm or 0) <= apart and (
            self.greatest_centres_mm is None or apart <= self.greatest_centres_mm
        )

    def _within_bracket(self, train: Train, idlers: int) -> bool:
        """Whether every mesh comes within the bracket, the idlers taken from the gears left over.

        The idlers stand together between any one driver and the gear it drives.
        """
        spare = sorted((Counter(self.teeth) - Counter(train.gears)).elements())
        meshes = list(zip(train.drivers, train.driven, strict=True))
        in_reach = [self._in_reach(driver, driven) for driver, driven in meshes]
        if not idlers:
            return all(in_reach)
        return any(
            all(in_reach[:place] + in_reach[place + 1 :]) and self._bridged(driver, driven, idlers, spare)
            for place, (driver, driven) in enumerate(meshes)
        )

    def _bridged(self, first: int, last: int, idlers: int, spare: list[int]) -> bool:
        if not idlers:
            return self._in_reach(first, last)
        return any(
            self._in_reach(first, idler)
            and self._bridged(idler, last, idlers - 1, spare[:place] + spare[place + 1 :])
            for place, idler in enumerate(spare)
            if idler not in spare[:place]
        )

    def _limits(self) -> str:
        least, greatest = self.least_centres_mm, self.greatest_centres_mm
        if greatest is None:
            return f"from {as_text(least or 0)} mm"
        return (
            f"from {as_text(least)} to {as_text(greatest)} mm" if least else f"up to {as_text(greatest)} mm"
        )

    def _bracket_faults(self) -> list[Fault]:
        module, least, greatest = self.module_mm, self.least_centres_mm, self.greatest_centres_mm
        faults = [
            Fault(place, f"{as_text(length)}; this is a length in millimetres, above 0")
            for place, length in (
                ("module", module),
                ("least_centres_mm", least),
                ("greatest_centres_mm", greatest),
            )
            if length is not None and length <= 0
        ]
        if faults or not self.has_bracket:
            return faults
        if module is None:
            return [
                Fault("module", "missing; the centres of two gears follow from their module, as module = 1.5")
            ]
        if least is not None and greatest is not None and least > greatest:
            message = f"{as_text(least)}; the least distance is not above the greatest, {as_text(greatest)}"
            return [Fault("least_centres_mm", message)]
        apart = [self.centres_mm(*pair) for pair in combinations(self.teeth, 2)]
        if apart and not any(self._in_reach(*pair) for pair in combinations(self.teeth, 2)):
            message = (
                f"the bracket takes centres {self._limits()}, and no two of the gears fit: "
                f"the nearest two stand {as_text(min(apart))} mm apart, the farthest {as_text(max(apart))} mm"
            )
            return [Fault("greatest_centres_mm" if greatest is not None else "least_centres_mm", message)]
        return []

    def _idler_faults(self) -> list[Fault]:
        """An idler more or less turns the last gear round, and so does a stud: the four must agree."""
        faults = [
            Fault(place, f"{list(idlers)}; two numbers from 0 to 3: idlers in simple gearing, in compound")
            for place, idlers in (("idlers_with", self.idlers_with), ("idlers_against", self.idlers_against))
            if len(idlers) != 2 or not all(0 <= count <= 3 for count in idlers)
        ]
        if faults:
            return faults
        (simple, compound), (simple_against, compound_against) = self.idlers_with, self.idlers_against
        if (simple + compound) % 2 == 0:
            faults.append(
                Fault(
                    "idlers_with",
                    f"{list(self.idlers_with)}; to turn the same way, simple and compound gearing differ by one idler",
                )
            )
        elif (simple + simple_against) % 2 == 0 or (compound + compound_against) % 2 == 0:
            faults.append(
                Fault(
                    "idlers_against",
                    f"{list(self.idlers_against)}; to turn the other way, each differs by one idler from "
                    f"idlers_with = {list(self.idlers_with)}",
                )
            )
        return faults


def _beside_shafts(train: Train) -> list[int]:
    """Return the gear on a stud that each of the train's clearances is about."""
    return [
        gear
        for place in range(len(train.drivers) - 1)
        for gear in (train.drivers[place + 1], train.driven[place])
    ]
