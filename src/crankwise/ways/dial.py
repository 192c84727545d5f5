"""The dial on the crank or on a slide's screw, set to its nearest reading, counted from the start."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import ClassVar

from crankwise.head.dial import Dial
from crankwise.head.head import Head
from crankwise.part.divisions import Divisions, EqualSteps
from crankwise.ways.along_a_slide import working_along
from crankwise.ways.column import Column, ScaleColumn
from crankwise.ways.from_the_start import working_from_the_start
from crankwise.ways.scale import Scale
from crankwise.ways.way import Burden, ScaleWay, Setting, Step


class OnDial(ScaleWay):
    """The dial set to the reading nearest to each position."""

    method: ClassVar[str] = "dial"

    @property
    def dial(self) -> Dial:
        """The dial of the head; a way on the dial exists only where there is one."""
        assert self.head.dial is not None
        return self.head.dial

    @property
    def setup(self) -> Mapping[str, object]:
        return {}

    @classmethod
    def burden_of(cls, scale: Scale, move: int | None) -> Burden:
        """Nothing to fit; count turns, read the dial, look the reading up.

        Whole turns always come back to the same mark, so nothing is looked up.
        """
        if move is not None and move % scale.places == 0:
            return Burden(to_set_up=0, to_count=1)
        return Burden(to_set_up=0, to_count=3, looked_up=1)

    def setting(self, place: int) -> Setting:
        turns, part = divmod(place, self.scale.places)
        return Setting(turns=turns, reading=Fraction(part, self.dial.places_per_mark))

    @property
    def places_per_line(self) -> int:
        return self.dial.places_per_mark

    def working(self) -> tuple[Step, ...]:
        if self.head.slide and isinstance(self.divisions, EqualSteps):
            return working_along(self.head.slide, self.dial, self.scale, self.divisions, self.worst_error)
        return working_from_the_start(
            self.scale, self.divisions, self.worst_error, "marks", self.dial.places_per_mark
        )


def ways(head: Head, divisions: Divisions) -> Iterator[OnDial]:
    """Yield the dial, where the head has one and a full circle comes out in whole readings."""
    if head.ratio is None or head.dial is None or head.is_straight != divisions.is_straight:
        return
    way = OnDial(head, divisions, Scale(head.ratio, head.dial.places))
    if way.scale.closes or not divisions.goes_round:
        yield way


def columns(head: Head) -> Iterator[Column]:
    """Yield the dial, where a full circle comes out in whole readings, as the chart asks it."""
    if head.ratio is None or head.dial is None or head.is_straight:
        return
    scale = Scale(head.ratio, head.dial.places)
    if scale.closes:
        yield ScaleColumn(head, scale, OnDial)
