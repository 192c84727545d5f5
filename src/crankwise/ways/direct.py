"""Direct indexing: whole notches of a wheel on the spindle, or whole graduations of the ring.

Exact or not at all: N parts need N to go into the notches a whole number of times.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import ClassVar

from crankwise.exact.number import as_text
from crankwise.head.head import Head
from crankwise.part.divisions import Divisions, EqualDivisions
from crankwise.ways.column import Column, ScaleColumn
from crankwise.ways.ring import ring_move
from crankwise.ways.scale import Scale
from crankwise.ways.way import Burden, Reached, ScaleWay, Setting, Step


class OnNotchedWheel(ScaleWay):
    """Direct indexing on a notched wheel."""

    method: ClassVar[str] = "direct"

    @property
    def setup(self) -> Mapping[str, object]:
        return {"wheel": self.scale.places} | _move("notches", self.scale, self.divisions)

    @classmethod
    def burden_of(cls, scale: Scale, move: int | None) -> Burden:
        """Engage the detent; count notches."""
        return Burden(to_set_up=1, to_count=1)

    def setting(self, place: int) -> Setting:
        return Setting(notches=place)

    def working(self) -> tuple[Step, ...]:
        return _working("notches", "notched wheel", self.scale, self.divisions)


class OnRing(ScaleWay):
    """Direct indexing on the ring's own graduations."""

    method: ClassVar[str] = "direct"

    @property
    def setup(self) -> Mapping[str, object]:
        return {"ring": self.scale.places} | _move("graduations", self.scale, self.divisions)

    @classmethod
    def burden_of(cls, scale: Scale, move: int | None) -> Burden:
        """Nothing to fit; read the ring, and look the reading up."""
        return Burden(to_set_up=0, to_count=2, looked_up=1)

    def setting(self, place: int) -> Setting:
        assert self.head.ring is not None
        advance = self.scale.achieved(place)
        return Setting(reading=self.head.ring.reading(advance if self.head.ring_grows else -advance))

    def move(self, before: Reached | None, after: Reached) -> Setting:
        assert self.head.ring is not None
        return ring_move(self.head.ring, before, after)

    def working(self) -> tuple[Step, ...]:
        return _working("graduations", "ring", self.scale, self.divisions)


def ways(head: Head, divisions: Divisions) -> Iterator[ScaleWay]:
    """Yield every exact direct way: on each notched wheel, and on the ring's graduations."""
    for notches in sorted({wheel.notches for wheel in head.notched_wheels}):
        wheel = Scale(Fraction(1), notches)
        if wheel.meets(divisions):
            yield OnNotchedWheel(head, divisions, wheel)
    if head.ring:
        ring = Scale(Fraction(1), head.ring.graduations)
        if ring.meets(divisions):
            yield OnRing(head, divisions, ring)


def columns(head: Head) -> Iterator[Column]:
    """Yield each notched wheel and the ring's graduations, as the chart asks them."""
    for notches in sorted({wheel.notches for wheel in head.notched_wheels}):
        yield ScaleColumn(head, Scale(Fraction(1), notches), OnNotchedWheel, rounded=False)
    if head.ring:
        yield ScaleColumn(head, Scale(Fraction(1), head.ring.graduations), OnRing, rounded=False)


def _move(unit: str, scale: Scale, divisions: Divisions) -> dict[str, object]:
    move = scale.move_of(divisions)
    return {} if move is None else {unit: move}


def _working(unit: str, device: str, scale: Scale, divisions: Divisions) -> tuple[Step, ...]:
    if not isinstance(divisions, EqualDivisions):
        largest = max(target for _, target in divisions.targets())
        return (
            Step(
                f"every angle falls on one of the {scale.places} {unit} of the {device}; the last",
                f"{as_text(largest)} turn x {scale.places}",
                largest * scale.places,
                unit,
            ),
        )
    move = divisions.step * scale.places
    return (
        Step(
            f"{unit} of the {device} for one move",
            f"{scale.places} x {divisions.every} / {divisions.count}",
            move,
            unit,
        ),
        Step(
            "check: all moves of a full circle",
            f"{as_text(move)} x {divisions.count} / {divisions.every}",
            Fraction(scale.places),
            unit,
        ),
    )
