"""A scale: so many places that can be set, all round the spindle.

The dial, a hole circle, a notched wheel and the ring are all scales to the arithmetic. They differ
only in what the operator reads, which each method says in its own file.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from crankwise.exact.places import nearest_place, nearest_places, worst_rounding
from crankwise.part.divisions import AngleList, Divisions, EqualDivisions


@dataclass(frozen=True)
class Scale:
    """Places on a wheel that makes `ratio` turns for one of the spindle.

    ratio   turns of the wheel that carries the places, for one turn of the spindle, above 0
    places  places in one turn of that wheel, 1 or more
    """

    ratio: Fraction
    places: int

    @cached_property
    def all_round(self) -> Fraction:
        """Places in one turn of the spindle."""
        return self.ratio * self.places

    @property
    def closes(self) -> bool:
        """Whether a full circle is a whole number of places."""
        return self.ratio.numerator * self.places % self.ratio.denominator == 0

    def move_of(self, divisions: Divisions) -> int | None:
        """Return the places from each position to the next, or None where moves differ or fall between places."""
        if isinstance(divisions, AngleList):
            return None
        move = divisions.step * self.all_round
        return move.numerator if move.denominator == 1 else None

    def meets(self, divisions: Divisions) -> bool:
        """Return whether every position falls on a place, by moves of the same whole number of places.

        A list has no one move: its angles must fall on places. One position alone of equal parts can
        fall on a place although the parts do not; that is met by looking it up, not by a constant move.
        """
        if isinstance(divisions, EqualDivisions):
            first = divisions.first_target * self.all_round
            return first.denominator == 1 and self.move_of(divisions) is not None
        return self.worst_error(divisions) == 0

    def nearest(self, target: Fraction) -> int:
        """Return the place to set, counted from the start, for a target in turns."""
        return nearest_place(target, self.all_round)

    def all_nearest(self, divisions: Divisions) -> Iterator[int]:
        """Yield the place to set for each position, in order."""
        if not isinstance(divisions, AngleList) and not self.key:
            all_round = self.all_round
            first, step = divisions.first_target * all_round, divisions.step * all_round
            yield from nearest_places(first, step, len(divisions))
        else:
            yield from (self.nearest(target) for _, target in divisions.targets())

    def achieved(self, place: int) -> Fraction:
        """Return where a place really puts the work, in turns from the start."""
        return place / self.all_round

    def place_of(self, achieved: Fraction) -> int:
        """Return the place that puts the work here, counted from the start."""
        return int(achieved * self.all_round)

    def head_error(self, place: int) -> Fraction:
        """Return what the head itself is known to be out by there, in turns; nothing on a plain scale."""
        return Fraction(0)

    @property
    def key(self) -> str:
        """What tells this scale from the plain one in the name of a way; nothing on a plain one."""
        return ""

    def worst_error(self, divisions: Divisions) -> Fraction:
        """Return the largest error, either way, of any position set to its nearest place, in turns."""
        all_round = self.all_round
        if not isinstance(divisions, AngleList):
            return (
                worst_rounding(divisions.first_target * all_round, divisions.step * all_round, len(divisions))
                / all_round
            )
        return max(abs(self.achieved(self.nearest(target)) - target) for _, target in divisions.targets())
