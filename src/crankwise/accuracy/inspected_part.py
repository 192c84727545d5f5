"""A part as it was measured: its deviations or its sizes, the class it reaches, and what they point to."""

from collections.abc import Sequence
from dataclasses import dataclass

from crankwise.accuracy.inspection import Inspected, Sizes
from crankwise.accuracy.part_causes import Cause, causes
from crankwise.accuracy.tolerance import GearSize, Reached


@dataclass(frozen=True, slots=True)
class Inspection:
    """What was measured of a part, and what it comes to.

    kind         the column that was measured, as pitch_um, chord_mm, position_deg or size_mm
    part         its deviations; None where only sizes were measured
    numbers      of the positions, in order; of the places, from 1, where sizes were measured
    sizes        None where deviations were measured
    diameter_mm  of the circle of the holes, where chords found it
    gear, reached, outside  the gear, its classes, and what of it lies outside the standard; where it is one
    rounding     what the way's own rounding makes of each pitch, in micrometres; empty where the way is not known
    """

    kind: str
    part: Inspected | None
    numbers: Sequence[int] = ()
    sizes: Sizes | None = None
    diameter_mm: float | None = None
    gear: GearSize | None = None
    reached: Reached | None = None
    outside: tuple[str, ...] = ()
    rounding: tuple[float, ...] = ()

    @property
    def causes(self) -> tuple[Cause, ...]:
        """What the deviations point to, at the positions as they are numbered; the way's own rounding is taken off."""
        if self.part is None:
            return ()
        found = causes(self.part.less(self.rounding) if self.rounding else self.part)
        return tuple(numbered(cause, self.numbers) for cause in found) if self.numbers else found


def numbered(cause: Cause, numbers: Sequence[int]) -> Cause:
    """Return a cause with the numbers of its positions instead of their places in the order."""
    towards = None if cause.towards is None else numbers[cause.towards]
    return cause._replace(at=numbers[cause.at], towards=towards)
