"""A scale: so many places that can be set, all round the spindle.

The dial, a hole circle, a notched wheel and the ring are all scales to the arithmetic. They differ
only in what the operator reads, which each method says in its own file.
"""

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from crankwise.exact.places import nearest_place, worst_rounding
from crankwise.part.divisions import Divisions, EqualDivisions


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

    def nearest(self, target: Fraction) -> int:
        """Return the place to set, counted from the start, for a target in turns."""
        return nearest_place(target, self.all_round)

    def achieved(self, place: int) -> Fraction:
        """Return where a place really puts the work, in turns from the start."""
        return place / self.all_round

    def worst_error(self, divisions: Divisions) -> Fraction:
        """Return the largest error, either way, of any position set to its nearest place, in turns."""
        all_round = self.all_round
        if isinstance(divisions, EqualDivisions):
            return (
                worst_rounding(divisions.first_target * all_round, divisions.step * all_round, len(divisions))
                / all_round
            )
        return max(abs(self.achieved(self.nearest(target)) - target) for _, target in divisions.targets())
