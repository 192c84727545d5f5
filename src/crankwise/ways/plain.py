"""Plain indexing: the same whole turns and holes at every move, on one hole circle.

Turns of the crank for one part are ratio / N; on a circle of H holes they must come to whole holes.
Source: every machinists' handbook; from memory.
"""

from collections.abc import Iterator, Mapping
from typing import ClassVar

from crankwise.exact.number import as_text
from crankwise.head.head import Head
from crankwise.part.divisions import Divisions, EqualDivisions
from crankwise.ways.column import Column, ScaleColumn, closing_circles
from crankwise.ways.scale import Scale
from crankwise.ways.way import Burden, ScaleWay, Setting, Step


class OnCircle(ScaleWay):
    """Plain indexing on one hole circle; every position falls in a hole."""

    method: ClassVar[str] = "plain"

    @property
    def setup(self) -> Mapping[str, object]:
        circle, move = self.scale.places, self.scale.move_of(self.divisions)
        if move is None:
            return {"circle": circle}
        turns, holes = divmod(move, circle)
        setup = {"circle": circle, "turns": turns, "holes": holes}
        return setup | {"first_hole": self.first_hole} if self.first_hole and not holes else setup

    @property
    def first_hole(self) -> int:
        """The hole, counted from the zero, that the pin stands in at the first position."""
        _, target = next(self.divisions.targets())
        return self.scale.nearest(target) % self.scale.places

    @property
    def needs_no_circle(self) -> bool:
        """Whether every position is whole turns of the crank from the zero, the first one too."""
        return self.setup.get("holes") == 0 and not self.first_hole

    @property
    def burden(self) -> Burden:
        """Whole turns from a first hole that is not the zero need the plate, and no arms."""
        if self.setup.get("holes") == 0 and self.first_hole:
            return Burden(to_set_up=1, to_count=1)
        return self.burden_of(self.scale, self.scale.move_of(self.divisions))

    @classmethod
    def burden_of(cls, scale: Scale, move: int | None) -> Burden:
        """Fit the plate and set the sector arms; count turns, and the arms count the holes.

        Whole turns need neither plate nor arms. A list has no constant move for the arms: its holes
        are counted, and looked up.
        """
        if move is None:
            return Burden(to_set_up=1, to_count=3, looked_up=1)
        turns, holes = divmod(move, scale.places)
        return Burden(to_set_up=2 if holes else 0, to_count=1 if turns else 0)

    def setting(self, place: int) -> Setting:
        turns, holes = divmod(place, self.scale.places)
        return Setting(turns=turns, holes=(holes,))

    def working(self) -> tuple[Step, ...]:
        circle, ratio, divisions = self.scale.places, self.scale.ratio, self.divisions
        if not isinstance(divisions, EqualDivisions):
            last = max(target for _, target in divisions.targets())
            return (
                Step(
                    f"every angle falls in a hole of the {circle} circle; the last",
                    f"{as_text(last)} x {as_text(ratio)} x {circle}",
                    last * self.scale.all_round,
                    "holes",
                ),
            )
        move = divisions.step * ratio
        turns, holes = divmod(move * circle, circle)
        parts = f"{divisions.every} / {divisions.count}"
        return (
            Step("turns of the crank for one move", f"{as_text(ratio)} x {parts}", move, "turns"),
            Step(f"its part of a turn, on the {circle} circle", f"{move - turns} x {circle}", holes, "holes"),
            Step(
                "check: all moves of a full circle",
                f"({turns} + {holes}/{circle}) x {divisions.count} / {divisions.every}",
                ratio,
                "turns",
            ),
        )


def ways(head: Head, divisions: Divisions) -> Iterator[OnCircle]:
    """Yield plain indexing on every hole circle on which all positions fall in holes.

    Whole turns come to the same hole of any circle, so they are one way and not one a circle.
    """
    if head.ratio is None:
        return
    for circle in head.circles:
        scale = Scale(head.ratio, circle)
        if scale.meets(divisions):
            way = OnCircle(head, divisions, scale)
            yield way
            if way.needs_no_circle:
                return


def columns(head: Head) -> Iterator[Column]:
    """Yield each hole circle on which a full circle closes, as the chart asks it."""
    for scale in closing_circles(head):
        yield ScaleColumn(head, scale, OnCircle, rounded=False)
