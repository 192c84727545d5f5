"""A stepper drive sent to its nearest step, counted from the start.

A controller that adds one rounded move over and over ends with a last part that is thick or thin: of
127 parts of 192,000 steps, moves of 1512 come out 24 steps too far. So each position has a count of
its own from the start; no two moves differ by more than one step, and together they make the circle.
"""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import ClassVar

from crankwise.exact.number import as_text
from crankwise.head.head import Head
from crankwise.head.stepper import Stepper
from crankwise.part.divisions import Divisions, EqualDivisions
from crankwise.ways.column import Column, ScaleColumn
from crankwise.ways.from_the_start import working_from_the_start
from crankwise.ways.scale import Scale
from crankwise.ways.way import Burden, ScaleWay, Setting, Step


class OnStepper(ScaleWay):
    """Each position on the nearest step of a stepper drive."""

    method: ClassVar[str] = "stepper"

    @property
    def stepper(self) -> Stepper:
        """The stepper of the head; a way by it exists only where there is one."""
        assert self.head.stepper is not None
        return self.head.stepper

    @property
    def setup(self) -> Mapping[str, object]:
        return {"steps": self.stepper.steps, "per_turn_of": self.stepper.per_turn_of}

    @classmethod
    def burden_of(cls, scale: Scale, move: int | None) -> Burden:
        """Nothing to fit; look the count up, and give it to the controller."""
        return Burden(to_set_up=0, to_count=2, looked_up=1)

    def setting(self, place: int) -> Setting:
        return Setting(steps=place)

    def working(self) -> tuple[Step, ...]:
        return (
            *working_from_the_start(self.scale, self.divisions, self.worst_error, "steps", 1),
            *self._moves_steps(),
        )

    def _moves_steps(self) -> tuple[Step, ...]:
        """How many moves are of the one length and how many a step longer; together they make the circle.

        Of M moves for T steps, T mod M are one step longer than the others: rounding from the start
        spreads them. True from the zero on; elsewhere the first rounding can shift one.
        """
        divisions = self.divisions
        if not isinstance(divisions, EqualDivisions) or not divisions.goes_round or divisions.first_target:
            return ()
        moves, steps = len(divisions), self.scale.all_round
        length, longer = divmod(int(steps), moves)
        if not longer:
            return ()
        return (
            Step(
                "moves that are a step longer",
                f"{as_text(steps)} - {moves} x {length}",
                Fraction(longer),
                "moves",
            ),
            Step(
                "check: all moves of a full circle",
                f"{longer} x {length + 1} + {moves - longer} x {length}",
                steps,
                "steps",
            ),
            Step(
                f"why each count is from the start: {length + 1} steps every time would end too far by",
                f"{moves} x {length + 1} - {as_text(steps)}",
                moves * (length + 1) - steps,
                "steps",
            ),
        )


def ways(head: Head, divisions: Divisions) -> Iterator[OnStepper]:
    """Yield the stepper drive, where the head has one and a full circle comes out in whole steps."""
    scale = _scale(head)
    if scale and (scale.closes or not divisions.goes_round):
        yield OnStepper(head, divisions, scale)


def columns(head: Head) -> Iterator[Column]:
    """Yield the stepper drive, where a full circle comes out in whole steps, as the chart asks it."""
    scale = _scale(head)
    if scale and scale.closes:
        yield ScaleColumn(head, scale, OnStepper)


def _scale(head: Head) -> Scale | None:
    if head.stepper is None:
        return None
    if head.stepper.per_turn_of == "spindle":
        return Scale(Fraction(1), head.stepper.steps)
    return Scale(head.ratio, head.stepper.steps) if head.ratio else None
