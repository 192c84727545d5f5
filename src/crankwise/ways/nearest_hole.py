"""The nearest hole of one circle, for numbers that no circle meets exactly.

Each position is set from the start to the hole nearest to its target, so that the errors do not add
up; the holes to move differ from one position to the next and are looked up.
"""

from collections.abc import Iterator, Mapping
from typing import ClassVar

from crankwise.head.head import Head
from crankwise.part.divisions import Divisions
from crankwise.ways.column import Column, ScaleColumn, closing_circles
from crankwise.ways.from_the_start import working_from_the_start
from crankwise.ways.scale import Scale
from crankwise.ways.way import Burden, ScaleWay, Setting, Step


class NearestHole(ScaleWay):
    """The nearest hole of one circle, counted from the start."""

    method: ClassVar[str] = "nearest-hole"

    @property
    def setup(self) -> Mapping[str, object]:
        return {"circle": self.scale.places}

    @classmethod
    def burden_of(cls, scale: Scale, move: int | None) -> Burden:
        """Fit the plate; count turns and holes, and look them up."""
        return Burden(to_set_up=1, to_count=3, looked_up=1)

    def setting(self, place: int) -> Setting:
        turns, holes = divmod(place, self.scale.places)
        return Setting(turns=turns, holes=(holes,))

    def working(self) -> tuple[Step, ...]:
        return working_from_the_start(self.scale, self.divisions, self.worst_error, "holes", 1)


def ways(head: Head, divisions: Divisions) -> Iterator[NearestHole]:
    """Yield the nearest hole on every circle that does not meet all positions exactly, and that closes."""
    if head.ratio is None:
        return
    for circle in head.circles:
        scale = Scale(head.ratio, circle)
        if not scale.meets(divisions) and (scale.closes or not divisions.goes_round):
            yield NearestHole(head, divisions, scale)


def columns(head: Head) -> Iterator[Column]:
    """Yield each hole circle on which a full circle closes, as the chart asks it."""
    for scale in closing_circles(head):
        yield ScaleColumn(head, scale, NearestHole, exact=False)
