"""The change gears owned: a multiset, since two of one size can be used only if two are owned."""

from dataclasses import dataclass

from crankwise.errors import FaultsFound
from crankwise.head.rules import count_fault

LEAST_TEETH = 6


@dataclass(frozen=True, slots=True)
class ChangeGears:
    """The change gears owned.

    teeth  tooth counts, one entry for each gear owned; sizes may come more than once
    """

    teeth: tuple[int, ...]

    def __post_init__(self) -> None:
        faults = []
        for index, teeth in enumerate(self.teeth):
            faults += count_fault(f"teeth[{index}]", teeth, LEAST_TEETH, "a change gear has")
        if faults:
            raise FaultsFound(faults)
