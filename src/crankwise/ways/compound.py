"""Compound indexing: a move on one circle of a plate, and a move of the plate on another.

The index pin of the crank goes a holes on circle A; then the pin at the back is drawn and crank and
plate go together b holes on circle B, with or against. The two must come to ratio / N, or to several
parts at once: k x ratio / N, for a k that shares no factor with N, in k circuits. Every exact
setting is found, and where there is none the settings whose last part is least out.
Source: turns of the crank a/A +- b/B = ratio/N, from every machinists' handbook of the last century;
from memory. The settings of several parts at once are met in handbooks that do not name them so.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from heapq import nsmallest
from itertools import combinations
from math import gcd, lcm
from typing import ClassVar, NamedTuple

from crankwise.exact.number import as_text
from crankwise.exact.two_circles import splits
from crankwise.head.head import Head
from crankwise.part.divisions import Divisions, EqualDivisions
from crankwise.ways.column import Column, Family, Judged
from crankwise.ways.constant_move import ConstantMove, can_move_constantly, drift_steps
from crankwise.ways.scale import Scale
from crankwise.ways.way import Burden, Setting, Step, Way

MOST_PARTS_AT_ONCE = 12
NEAR_SETTINGS = 3


def burden_of(parts_at_once: int) -> Burden:
    """Fit the plate, set the arms for both moves, fit the pin at the back; make two moves.

    Several parts at once add the circuits to keep count of.
    """
    return Burden(to_set_up=4, to_count=2 if parts_at_once == 1 else 3)


@dataclass(frozen=True)
class Compound(ConstantMove):
    """Compound indexing on two circles of one plate.

    circles  holes of the circle of the index pin, and of the circle of the pin at the back
    holes    holes moved on each; whole turns of the crank counted in, negative: against
    """

    method: ClassVar[str] = "compound"
    circles: tuple[int, int]
    holes: tuple[int, int]

    @property
    def setup(self) -> Mapping[str, object]:
        setup: dict[str, object] = {"circles": self.circles, "holes": self.holes}
        return setup | {"parts_at_once": self.parts_at_once} if self.parts_at_once != 1 else setup

    @property
    def burden(self) -> Burden:
        return burden_of(self.parts_at_once)

    @property
    def advance(self) -> Fraction:
        return self._turns / (self.head.ratio or 1)

    @property
    def _turns(self) -> Fraction:
        return Fraction(self.holes[0], self.circles[0]) + Fraction(self.holes[1], self.circles[1])

    @property
    def one_move(self) -> Setting:
        turns, holes = divmod(self.holes[0], self.circles[0])
        return Setting(turns=turns, holes=(holes, self.holes[1]))

    def after_moves(self, moves: int) -> Setting:
        """Return turns and both holes, set from the start: together they are all that the crank has gone.

        Whole turns that the plate has made with the crank are turns of the crank; they must be told,
        or whoever sets a position afresh from zero is a turn of the crank out. The pin at the back
        keeps its sign, so that no turns are told below 0.
        """
        turns, holes = divmod(moves * self.holes[0], self.circles[0])
        way = -1 if self.holes[1] < 0 else 1
        plate_turns, behind = divmod(moves * abs(self.holes[1]), self.circles[1])
        return Setting(turns=turns + way * plate_turns, holes=(holes, way * behind))

    def working(self) -> tuple[Step, ...]:
        ratio, count, parts = self.head.ratio or Fraction(1), len(self.divisions), self.parts_at_once
        (first, second), (a, b) = self.circles, self.holes
        both = f"{a}/{first} {'+' if b > 0 else '-'} {abs(b)}/{second}"
        what = "one part" if parts == 1 else f"{parts} parts, which share no factor with {count}"
        asked = f"{as_text(ratio)} / {count}" if parts == 1 else f"{parts} x {as_text(ratio)} / {count}"
        steps = (
            Step(f"turns of the crank for {what}", asked, parts * ratio / count, "turns"),
            Step("the two moves together", both, self._turns, "turns"),
        )
        if not self.drift:
            rounds = f"check: {count} moves make the ratio" + (f" {parts} times" if parts != 1 else "")
            return (*steps, Step(rounds, f"{count} x ({both})", count * self._turns, "turns"))
        return (*steps, *drift_steps(self, f"({both} - {asked}) / {as_text(ratio)}"))


def ways(head: Head, divisions: Divisions) -> Iterator[Compound]:
    """Yield every exact compound setting, the fewest holes first; where there is none, the nearest few.

    None where a single circle divides exactly. Exact settings of several parts at once are told only
    where one part at a time cannot be had. Of the nearest, three of one part and three of several
    parts at once are told, the least out at the last part first.
    """
    if head.ratio is None or not can_move_constantly(divisions) or has_exact_circle(head, divisions):
        return
    moves = list(_moves(head, len(divisions)))
    for least, most in ((1, 1), (2, MOST_PARTS_AT_ONCE)):
        exact = [move for move in moves if not move.out_by and least <= move.parts <= most]
        if exact:
            settings = (way for move in exact for way in _settings(head, divisions, move))
            yield from sorted(settings, key=_order)
            return
    for one_part in (True, False):
        asked = (move for move in moves if (move.parts == 1) is one_part)
        for move in nsmallest(NEAR_SETTINGS, asked, key=lambda move: (move.out_by, move.parts)):
            yield min(_settings(head, divisions, move), key=_holes_to_count)


def columns(head: Head) -> Iterator[Family]:
    """Yield each pair of circles of one plate, as the chart asks it."""
    if head.ratio is not None:
        for circles in circle_pairs(head):
            yield CompoundFamily(head, head.ratio, circles)


def circle_pairs(head: Head) -> list[tuple[int, int]]:
    """Return every two circles that stand on one plate, each pair once."""
    return sorted({pair for plate in head.plates for pair in combinations(sorted(plate.circles), 2)})


def has_exact_circle(head: Head, divisions: Divisions) -> bool:
    """Return whether one hole circle of the head meets every position, so that two are not needed."""
    return head.ratio is not None and any(
        Scale(head.ratio, circle).meets(divisions) for circle in head.circles
    )


class Move(NamedTuple):
    """The best constant move on a pair of circles, for so many parts at once.

    out_by  how far out the move is, either way, as a part of a turn of the crank
    places  places of the common scale that it makes
    """

    out_by: Fraction
    parts: int
    circles: tuple[int, int]
    places: int


@dataclass(frozen=True)
class CompoundColumn(Column):
    """A pair of circles and a number of parts at once, asked in whole numbers.

    The move that is nearest to k x ratio / N is the nearest place of the common scale, so looking at
    that one alone misses nothing. A place that is a hole of one circle alone is plain indexing, and
    not told here; every other place can be made by a compound move (exact/two_circles.py).
    """

    head: Head
    ratio: Fraction
    circles: tuple[int, int]
    parts: int

    @cached_property
    def places(self) -> int:
        """Places of the two circles together in one turn of the crank."""
        return lcm(*self.circles)

    def nearest(self, count: int) -> tuple[int, int, int] | None:
        """Return (places, out by, bottom): the move, and how far out it is as a part of a place.

        None when these circles make no compound move for so many parts.
        """
        return _nearest(self.ratio, self.circles, self.places, self.parts, count)

    def judge(self, count: int) -> Judged | None:
        nearest = self.nearest(count)
        if nearest is None:
            return None
        _, over, bottom = nearest
        top = over * (count - 1) * self.ratio.denominator
        return Judged(burden_of(self.parts).total, top, bottom * self.places * self.ratio.numerator)

    def way(self, count: int) -> Way:
        nearest = self.nearest(count)
        assert nearest is not None
        move = Move(Fraction(0), self.parts, self.circles, nearest[0])
        return min(_settings(self.head, EqualDivisions(count), move), key=_holes_to_count)


@dataclass(frozen=True)
class CompoundFamily(Family):
    """A pair of circles, with each number of parts at once.

    One move is out by a whole number of 1/b of a place, where b = N x the ratio's denominator: by none,
    or by one at least. By none only where k parts make up what the places of a full circle lack of b.
    """

    head: Head
    ratio: Fraction
    circles: tuple[int, int]

    @cached_property
    def members(self) -> tuple[Column, ...]:
        return tuple(
            CompoundColumn(self.head, self.ratio, self.circles, parts)
            for parts in range(1, MOST_PARTS_AT_ONCE + 1)
        )

    @cached_property
    def _fixed(self) -> tuple[int, int, int]:
        all_round = self.ratio.numerator * lcm(*self.circles)
        return all_round, self.ratio.denominator, burden_of(1).total

    def at_best(self, count: int) -> Judged:
        all_round, denominator, burden = self._fixed
        bottom = count * denominator
        if bottom // gcd(all_round, bottom) <= MOST_PARTS_AT_ONCE:
            return Judged(burden, 0, 1)
        return Judged(burden, (count - 1) * denominator, bottom * all_round)

    def first_of(self, ways: Sequence[Way]) -> Way:
        return (
            min((way for way in ways if isinstance(way, Compound)), key=_order) if ways[0].exact else ways[0]
        )


def _nearest(
    ratio: Fraction, circles: tuple[int, int], all_places: int, parts: int, count: int
) -> tuple[int, int, int] | None:
    """Return what `CompoundColumn.nearest` does.

    all_places  places of the two circles together in one turn of the crank
    """
    if gcd(parts, count) != 1 or parts >= max(count, 2):
        return None
    bottom = count * ratio.denominator
    first, second = circles
    if ratio.numerator * first % bottom == 0 or ratio.numerator * second % bottom == 0:
        return None
    places, over = divmod(parts * ratio.numerator * all_places, bottom)
    if 2 * over > bottom:
        places, over = places + 1, bottom - over
    if places % (all_places // first) == 0 or places % (all_places // second) == 0:
        return None
    return places, over, bottom


def _moves(head: Head, count: int) -> Iterator[Move]:
    ratio = head.ratio or Fraction(1)
    for circles in circle_pairs(head):
        all_places = lcm(*circles)
        for parts in range(1, MOST_PARTS_AT_ONCE + 1):
            nearest = _nearest(ratio, circles, all_places, parts, count)
            if nearest is not None:
                places, over, bottom = nearest
                yield Move(Fraction(over, bottom * all_places), parts, circles, places)


def _settings(head: Head, divisions: Divisions, move: Move) -> Iterator[Compound]:
    """Every setting that makes a move of so many places of the common scale.

    Both parts are under one turn, and together they go forward; whole turns are the index pin's, so
    it takes the circle of the part that goes forward.
    """
    first, second = move.circles
    places = lcm(first, second)
    whole, part = divmod(move.places, places)
    for turns, rest in ((whole, part), (whole - 1, part + places)):
        if turns < 0:
            continue
        for a, b in splits(rest, first, second):
            if a > 0 and b:
                yield Compound(head, divisions, move.parts, (first, second), (a + turns * first, b))
            elif a < 0:
                yield Compound(head, divisions, move.parts, (second, first), (b + turns * second, a))


def _order(way: Compound) -> tuple[int, tuple[int, int, int]]:
    """Of exact settings the fewest parts at once come first, and of these the fewest holes."""
    return way.parts_at_once, _holes_to_count(way)


def _holes_to_count(way: Compound) -> tuple[int, int, int]:
    return abs(way.holes[0]) + abs(way.holes[1]), abs(way.holes[1]), way.circles[0]
