"""What the change gears of a head can do for its plate: every near number, and its train.

For the whole numbers of holes h on a circle of H the plate must make v = ratio - N x h / H turns for
one of the spindle. The gears give values up to the greatest G, so |v| <= G leaves the h from
(ratio - G) x H / N to (ratio + G) x H / N: a few, taken one by one, and none left out. One more on
either side is nearest to G itself, and is looked at where no train is exact.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import ceil, floor, gcd
from typing import NamedTuple

from crankwise.head.change_gears import ChangeGears
from crankwise.head.head import Head
from crankwise.head.train import Train
from crankwise.head.train_search import Found, Products, Shortlist, exact_trains, products_counted, sweep

SIZES = (2, 4)
"""Gears in a train that turns the plate: simple gearing, and compound."""
NEAR_SETTINGS = 3


class PlateSetting(NamedTuple):
    """A circle, a move and a train, in the order in which they are told.

    out_by  how far out each move is, as a part of one part, either way
    parts   gears and idlers to mount
    gears   gears of the train: simple gearing before compound
    speed   turns of the plate wanted for one of the spindle, either way: the slower, the lighter to turn
    circle  holes of the circle
    moved   holes moved a part, whole turns counted in
    train   the gears
    idlers  how many stand between them
    """

    out_by: Fraction
    parts: int
    gears: int
    speed: Fraction
    circle: int
    moved: int
    train: Train
    idlers: int


@dataclass(frozen=True, slots=True)
class Dropped:
    """A near number and circle with an exact train that cannot be mounted, and why."""

    near_number: Fraction
    circle: int
    train: Train
    reasons: tuple[str, ...]


class Gearing:
    """The trains of one set of change gears; each value asked is looked up once."""

    def __init__(self, gears: ChangeGears) -> None:
        self.gears = gears
        sizes = [size for size in SIZES if size <= len(gears.teeth) and products_counted(gears.teeth, size)]
        self.products = [Products(gears.teeth, size // 2) for size in sizes]
        self.greatest = max(Fraction(products.values[-1], products.values[0]) for products in self.products)
        self._made: dict[tuple[int, int], tuple[Train, int] | None] = {}

    def made(self, top: int, bottom: int) -> tuple[Train, int] | None:
        """Return the simplest train of the value top / bottom, and its idlers, or None.

        top, bottom  in least terms; a negative top turns the plate against the crank
        """
        asked = top, bottom
        if asked not in self._made:
            mountable = (self._mounted(found.train, top > 0) for found in self.exact(abs(top), bottom))
            self._made[asked] = next(filter(None, mountable), None)
        return self._made[asked]

    def exact(self, top: int, bottom: int) -> Iterator[Found]:
        """Yield every train of this value in the order they are told, whether it can be mounted or not."""
        for products in self.products:
            if not (products.common_multiple % top or products.common_multiple % bottom):
                yield from exact_trains(Fraction(top, bottom), products)

    def nearest(
        self, wanted: Fraction, ratio: Fraction, within: Fraction
    ) -> tuple[Fraction, Train, int] | None:
        """Return the train that moves the work least out, not more than `within`: how much, the train, its idlers.

        With v' instead of v a move makes (ratio - v) / (ratio - v') parts instead of one, so it is
        |v' - v| / (ratio - v') of a part out; that is what is made least, and what is returned.
        """
        with_crank = wanted > 0

        def mounted(train: Train) -> Train | None:
            made = self._mounted(train, with_crank)
            return made[0] if made else None

        per = (ratio, -1 if with_crank else 1)
        shortlist = Shortlist(abs(wanted), 1, mounted, within, per)
        for products in self.products:
            sweep(shortlist, products)
        for found, train in zip(shortlist.kept, shortlist.trains(), strict=True):
            return found.distance, train, self.gears.idlers(train, with_crank)
        return None

    def _mounted(self, train: Train, with_crank: bool) -> tuple[Train, int] | None:
        idlers = self.gears.idlers(train, with_crank)
        mounted = self.gears.mounted(train, idlers)
        return (mounted, idlers) if mounted else None


@lru_cache(maxsize=8)
def gearing(gears: ChangeGears) -> Gearing:
    """Return the trains of these gears; kept, since a chart asks a thousand times."""
    return Gearing(gears)


def plate_settings(head: Head, count: int) -> list[PlateSetting]:
    """Return a setting for each near number and circle that has an exact train, the least to mount first.

    Where none is exact, the near numbers whose trains come nearest, each on its smallest circle.
    The head has plates, change gears and a worm, and no circle divides `count` exactly.
    """
    assert head.change_gears is not None
    trains = gearing(head.change_gears)
    exact = []
    for circle, moved, top, bottom in _moves(head, count, trains.greatest, beyond=0):
        common = gcd(top, bottom)
        if made := trains.made(top // common, bottom // common):
            train, idlers = made
            speed = Fraction(abs(top), bottom)
            gears = len(train.gears)
            exact.append(
                PlateSetting(Fraction(0), gears + idlers, gears, speed, circle, moved, train, idlers)
            )
    return sorted(exact) if exact else _nearest_settings(head, count, trains)


def dropped(head: Head, count: int) -> Iterator[Dropped]:
    """Yield every near number and circle of whose exact trains none can be mounted, with why not the simplest."""
    assert head.change_gears is not None
    trains = gearing(head.change_gears)
    for circle, moved, top, bottom in _moves(head, count, trains.greatest, beyond=0):
        common = gcd(top, bottom)
        if trains.made(top // common, bottom // common) is not None:
            continue
        for found in trains.exact(abs(top) // common, bottom // common):
            roomiest = found.train.arrangements()[0]
            reasons = trains.gears.hindrances(roomiest, trains.gears.idlers(roomiest, top > 0))
            yield Dropped((head.ratio or 1) * Fraction(circle, moved), circle, roomiest, reasons)
            break


def _nearest_settings(head: Head, count: int, trains: Gearing) -> list[PlateSetting]:
    """Return the nearest settings; none whose last part would be out by more than half a part.

    The drift of count - 1 moves would then bring it nearer to a position that is not its own.
    """
    nearest: list[PlateSetting] = []
    seen = set()
    ratio = head.ratio or Fraction(1)
    for circle, moved, top, bottom in _moves(head, count, trains.greatest, beyond=1):
        wanted = Fraction(top, bottom)
        if wanted in seen:
            continue
        seen.add(wanted)
        within = nearest[-1].out_by if len(nearest) == NEAR_SETTINGS else Fraction(1, 2 * (count - 1))
        if found := trains.nearest(wanted, ratio, within):
            out_by, train, idlers = found
            parts = len(train.gears) + idlers
            nearest.append(
                PlateSetting(out_by, parts, len(train.gears), abs(wanted), circle, moved, train, idlers)
            )
            nearest = sorted(nearest)[:NEAR_SETTINGS]
    return nearest


def _moves(head: Head, count: int, greatest: Fraction, beyond: int) -> Iterator[tuple[int, int, int, int]]:
    """Yield each circle and move with the value wanted of the train as (circle, moved, top, bottom).

    beyond  moves to add on either side of those within the greatest value
    """
    ratio = head.ratio or Fraction(1)
    for circle in head.circles:
        least = ceil((ratio - greatest) * circle / count) - beyond
        most = floor((ratio + greatest) * circle / count) + beyond
        all_round, bottom = ratio.numerator * circle, ratio.denominator * circle
        for moved in range(max(least, 1), most + 1):
            top = all_round - count * ratio.denominator * moved
            if top:
                yield circle, moved, top, bottom
