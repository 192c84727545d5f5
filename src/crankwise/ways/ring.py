"""The ring on the spindle, set by eye to its nearest reading: coarse, and always at hand."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import ClassVar

from crankwise.head.head import Head
from crankwise.head.ring import Ring
from crankwise.part.divisions import Divisions
from crankwise.ways.column import Column, ScaleColumn
from crankwise.ways.from_the_start import working_from_the_start
from crankwise.ways.scale import Scale
from crankwise.ways.way import Burden, Reached, ScaleWay, Setting, Step


class ByRing(ScaleWay):
    """The ring set to the reading nearest to each position, where its graduations do not meet them all."""

    method: ClassVar[str] = "ring"

    @property
    def ring(self) -> Ring:
        """The ring of the head; a way by the ring exists only where there is one."""
        assert self.head.ring is not None
        return self.head.ring

    @property
    def setup(self) -> Mapping[str, object]:
        return {"ring": self.ring.graduations}

    @classmethod
    def burden_of(cls, scale: Scale, move: int | None) -> Burden:
        """Nothing to fit; read the ring, judge between its lines, and look the reading up."""
        return Burden(to_set_up=0, to_count=3, looked_up=1)

    def setting(self, place: int) -> Setting:
        advance = self.scale.achieved(place)
        return Setting(reading=self.ring.reading(advance if self.head.ring_grows else -advance))

    def move(self, before: Reached | None, after: Reached) -> Setting:
        return ring_move(self.ring, before, after)

    @property
    def places_per_line(self) -> int:
        return self.ring.read_to.denominator

    def working(self) -> tuple[Step, ...]:
        return working_from_the_start(
            self.scale, self.divisions, self.worst_error, "graduations", self.ring.read_to.denominator
        )


def ring_move(ring: Ring, before: Reached | None, after: Reached) -> Setting:
    """Return the move from one position to the next in the ring's units, whichever way its numerals run."""
    return Setting(reading=(after.achieved - (before.achieved if before else 0)) * ring.full_circle)


def ways(head: Head, divisions: Divisions) -> Iterator[ByRing]:
    """Yield the ring by eye, where its whole graduations do not already meet every position."""
    if head.ring and not Scale(Fraction(1), head.ring.graduations).meets(divisions):
        yield ByRing(head, divisions, Scale(Fraction(1), head.ring.places))


def columns(head: Head) -> Iterator[Column]:
    """Yield the ring, as the chart asks it.

    Where whole graduations meet every position, direct indexing on them comes first and asks no more,
    so the ring by eye is never shown for such a number.
    """
    if head.ring:
        yield ScaleColumn(head, Scale(Fraction(1), head.ring.places), ByRing)
