"""Ways whose move is the same every time: compound and differential indexing.

A constant move cannot be set from the start afresh, so what it is out by grows by the same amount
at every move. It may step several parts at once and go round several times before every position
has been visited; the order of the visits and what is left over at the end are part of the answer.
"""

from abc import abstractmethod
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import gcd

from crankwise.part.divisions import Divisions, EqualDivisions
from crankwise.ways.way import Reached, Setting, Step, Way


def can_move_constantly(divisions: Divisions) -> bool:
    """Return whether a constant move can make these divisions: equal, all round, from the zero."""
    return isinstance(divisions, EqualDivisions) and divisions.goes_round and not divisions.first_target


@dataclass(frozen=True)
class ConstantMove(Way):
    """A way that makes one move over and over.

    parts_at_once  parts stepped by one move; shares no factor with the number of positions, so that
                   every position is visited, in as many circuits
    """

    parts_at_once: int

    def __post_init__(self) -> None:
        assert can_move_constantly(self.divisions)
        assert gcd(self.parts_at_once, len(self.divisions)) == 1

    @property
    @abstractmethod
    def advance(self) -> Fraction:
        """Turns of the spindle that one move really makes."""

    @abstractmethod
    def after_moves(self, moves: int) -> Setting:
        """Return what the operator sees after so many moves from the start."""

    @property
    @abstractmethod
    def one_move(self) -> Setting:
        """The move."""

    @cached_property
    def drift(self) -> Fraction:
        """What each move is out by, in turns of the spindle; positive the way the work advances."""
        return self.advance - Fraction(self.parts_at_once, len(self.divisions))

    @property
    def residue(self) -> Fraction:
        """What is left over when the first position is met again, in turns of the spindle."""
        return self.drift * len(self.divisions)

    @cached_property
    def worst_error(self) -> Fraction:
        return abs(self.drift) * (len(self.divisions) - 1)

    def settings_on_lines(self) -> int:
        return len(self.divisions)

    @property
    def visiting_order(self) -> tuple[int, ...]:
        """The positions in the order in which the moves visit them."""
        count = len(self.divisions)
        return tuple(self.divisions.numbers[move * self.parts_at_once % count] for move in range(count))

    def reached(self) -> Iterator[Reached]:
        for move, position in enumerate(self.visiting_order):
            yield self._after(move, position)

    def reach(self, position: int, target: Fraction) -> Reached:
        count = len(self.divisions)
        index = self.divisions.numbers.index(position)
        return self._after(index * pow(self.parts_at_once, -1, count) % count, position)

    def closure(self) -> Reached:
        return self._after(len(self.divisions), self.divisions.closing_number)

    def again(self, reached: Reached, rounds: int) -> Reached:
        count = len(self.divisions)
        moves = int(reached.target * count) // self.parts_at_once
        return self._after(moves + rounds * count, reached.position)

    def move(self, before: Reached | None, after: Reached) -> Setting:
        stands = before is None or before.target == after.target
        return self.after_moves(0) if stands else self.one_move

    def _after(self, moves: int, position: int) -> Reached:
        target = Fraction(moves * self.parts_at_once, len(self.divisions))
        return Reached(position, target, self.after_moves(moves), target + moves * self.drift, on_line=True)


def drift_steps(way: ConstantMove, out_by: str) -> tuple[Step, ...]:
    """Return the working of what a constant move is out by, at each move, at the last, and left over.

    out_by  how the drift of one move is worked out, in exact figures
    """
    count = len(way.divisions)
    return (
        Step("each move is out by", out_by, way.drift, "angle"),
        Step(
            f"at the last part, after {count - 1} moves",
            f"{count - 1} x the drift",
            way.drift * (count - 1),
            "angle",
        ),
        Step("left over when the first position is met again", f"{count} x the drift", way.residue, "angle"),
    )
