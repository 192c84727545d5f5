"""Block indexing: every k-th position, round and round, until all have been visited.

Neighbours are then cut long after one another and far from where the last cut was made, so that heat,
the wear of the cutter and whatever else creeps in the course of the job are spread over the whole
circle, and no step is left between the last part and the first. The worm's own error is not changed
by it: a position has the same crank setting in whatever order it comes.
Source: common practice; told in handbooks as block or multiple indexing, from memory.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import gcd
from typing import ClassVar

from crankwise.exact.number import as_text
from crankwise.head.head import Head
from crankwise.part.divisions import Divisions
from crankwise.ways.constant_move import ConstantMove, can_move_constantly
from crankwise.ways.plain import OnCircle
from crankwise.ways.scale import Scale
from crankwise.ways.way import Burden, Setting, Step

MOST_CIRCUITS = 12
"""Circuits are paid for in turns of the crank: so many times the ratio. Judgement."""


@dataclass(frozen=True)
class Block(ConstantMove):
    """Every k-th position by plain indexing on one hole circle.

    circle  its holes
    holes   holes of one move, whole turns counted in
    """

    method: ClassVar[str] = "block"
    circle: int
    holes: int

    @property
    def setup(self) -> Mapping[str, object]:
        turns, holes = divmod(self.holes, self.circle)
        return {"circle": self.circle, "turns": turns, "holes": holes, "parts_at_once": self.parts_at_once}

    @property
    def burden(self) -> Burden:
        """What the plain move asks, and the circuits and positions to keep count of."""
        scale = Scale(self.head.ratio or Fraction(1), self.circle)
        plain = OnCircle.burden_of(scale, self.holes)
        return Burden(plain.to_set_up, plain.to_count + 2)

    @property
    def advance(self) -> Fraction:
        return Fraction(self.holes, self.circle) / (self.head.ratio or 1)

    @property
    def one_move(self) -> Setting:
        return self.after_moves(1)

    def after_moves(self, moves: int) -> Setting:
        turns, holes = divmod(moves * self.holes, self.circle)
        return Setting(turns=turns, holes=(holes,))

    def working(self) -> tuple[Step, ...]:
        ratio, count, parts = self.head.ratio or Fraction(1), len(self.divisions), self.parts_at_once
        turns, holes = divmod(self.holes, self.circle)
        apart = moves_between_neighbours(parts, count)
        return (
            Step(
                f"turns of the crank for {parts} parts, which share no factor with {count}",
                f"{parts} x {as_text(ratio)} / {count}",
                parts * ratio / count,
                "turns",
            ),
            Step(
                f"its part of a turn, on the {self.circle} circle",
                f"{parts * ratio / count - turns} x {self.circle}",
                Fraction(holes),
                "holes",
            ),
            Step(
                f"{count} moves visit every position in {parts} circuits",
                f"{count} x ({turns} + {holes}/{self.circle}) / {as_text(ratio)}",
                Fraction(parts),
                "circuits",
            ),
            Step(
                f"neighbours are cut {apart} moves apart: so many step a part more or less than whole circuits",
                f"{apart} x {parts}",
                Fraction(apart * parts),
                "parts",
            ),
        )


def parts_at_once(count: int) -> int | None:
    """Return how many parts to step at once, or None where the number leaves no choice worth having.

    count  positions, 1 or more

    It shares no factor with the count, makes at most 12 circuits, and steps less than half the circle.
    Two distances are wanted large: from one cut to the next, which is k parts; and from the cutting of
    a position to that of its neighbour, which is the inverse of k modulo the count, in moves. The k is
    taken whose smaller distance is the largest; ties go to fewer circuits. Source: derived; judgement.

    >>> parts_at_once(60), parts_at_once(6)
    (11, None)
    """
    best, best_spread = None, 1
    for parts in range(2, min(MOST_CIRCUITS, (count - 1) // 2) + 1):
        if gcd(parts, count) == 1:
            spread = min(parts, moves_between_neighbours(parts, count))
            if spread > best_spread:
                best, best_spread = parts, spread
    return best


def moves_between_neighbours(parts: int, count: int) -> int:
    """Return how many moves lie between the visits of two neighbours, when `parts` are stepped at once.

    >>> moves_between_neighbours(4, 25)
    6
    """
    inverse = pow(parts, -1, count)
    return min(inverse, count - inverse)


def ways(head: Head, divisions: Divisions) -> Iterator[Block]:
    """Yield block indexing on the smallest circle that divides exactly, where the number leaves a choice.

    It asks more than plain indexing on that circle and is no nearer, so the chart need not look at it.
    """
    if head.ratio is None or not can_move_constantly(divisions):
        return
    parts = parts_at_once(len(divisions))
    if parts is None:
        return
    for circle in head.circles:
        move = Scale(head.ratio, circle).move_of(divisions)
        if move is not None:
            yield Block(head, divisions, parts, circle, move * parts)
            return
