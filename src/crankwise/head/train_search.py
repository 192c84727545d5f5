"""The search for trains: from the gears owned, those of the value asked, or the nearest to it.

A train's value is one product of teeth over another. All products of so many gears are sorted once.
For every product below the line the product above it should be target x below; its neighbours in
the sorted list are looked at, outward from there, until they are too far away to matter.

Why nothing nearer can be missed: for one product below, the values grow with the product above, so
on either side each is further out than the one before. The walk passes over a partner only when the
two need more gears of a size than are owned or cannot be mounted, and ends where the distance first
exceeds that of the worst train kept; all beyond are further out still. Distances are compared as
whole numbers, so a train is called exact only when it is.

Trains that are equally near are told in the order: fewest gears, least teeth in all, then by their
teeth in rising order.
"""

from bisect import bisect_left, bisect_right, insort
from collections import Counter
from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import cached_property
from itertools import combinations
from math import comb, lcm, prod
from typing import NamedTuple

from crankwise.errors import BadNumber, Fault, FaultsFound
from crankwise.exact.number import as_text
from crankwise.head.change_gears import LEAST_TEETH
from crankwise.head.rules import count_fault
from crankwise.head.train import Teeth, Train

MOST_GEARS = 1000
MOST_PRODUCTS = 1_500_000
"""Products of one size at most: all threes of 200 gears, in half a gigabyte."""
_STEPS_BETWEEN_WATCHES = 256

Mounted = Callable[[Train], Train | None]
"""Returns a train as it can be mounted, or None when it cannot."""
Watch = Callable[[int, int], None]
"""Called now and then with the steps done and the steps in all; it may raise to end the search."""


class Found(NamedTuple):
    """One train, in the order in which trains are told.

    distance  how far its value is from the target, either way
    gears     gears in it
    teeth     teeth of all its gears
    """

    distance: Fraction
    gears: int
    teeth: int
    drivers: Teeth
    driven: Teeth

    @property
    def train(self) -> Train:
        """The train, the pairs in mesh in rising order."""
        return Train(self.drivers, self.driven)


class Products:
    """All products of so many of the gears owned, in rising order.

    gears    the gears owned, one entry for each
    factors  gears in each product, 1 or more

    `values[i]` is the product of the teeth in `gears_of[i]`.
    """

    def __init__(self, gears: Sequence[int], factors: int) -> None:
        sets = sorted([(prod(chosen), chosen) for chosen in set(combinations(sorted(gears), factors))])
        self.values = [value for value, _ in sets]
        self.gears_of: list[Teeth] = [chosen for _, chosen in sets]
        self._owned = Counter(gears)
        self._several = {size for size, count in self._owned.items() if count > 1}

    def are_owned(self, above: int, below: int) -> bool:
        """Return whether the gears of two products are there together."""
        drivers, driven = self.gears_of[above], self.gears_of[below]
        shared = set(drivers).intersection(driven)
        if not shared:
            return True
        return shared <= self._several and all(
            drivers.count(size) + driven.count(size) <= self._owned[size] for size in shared
        )

    @cached_property
    def common_multiple(self) -> int:
        """A number that every product divides: what divides no multiple of it is no product's factor."""
        return lcm(*self.values)


class Shortlist:
    """The nearest trains so far, at most so many.

    target   the value sought
    most     how many to keep
    mounted  which trains can be mounted, and how; None lets all be
    within   keep none further out than this
    per      (a, b): what a distance is told in; it is |value - target| / (a + b x value). A train for
             which a + b x value is not above 0 is not kept. (1, 0) is the plain distance.

    With target t and a + b t above 0 the distance grows with the value on the one side of t and falls
    on the other, as far as a + b x value stays above 0: its slope has the sign of a + b t.
    """

    def __init__(
        self,
        target: Fraction,
        most: int,
        mounted: Mounted | None = None,
        within: Fraction | None = None,
        per: tuple[Fraction | int, Fraction | int] = (1, 0),
    ) -> None:
        self.target = target
        self.most = most
        self.mounted = mounted
        self.kept: list[Found] = []
        # In whole numbers a distance is unit x miss / (of_below x below + of_above x above), where
        # miss is |target's bottom x above - target's top x below|.
        common = lcm(*(Fraction(part).denominator for part in per))
        self.of_below, self.of_above = (int(part * common) for part in per)
        self.unit = Fraction(common, target.denominator)
        self.limit_top, self.limit_bottom = 1, 0  # no limit: 1 / 0
        if within is not None:
            self._limit(within)

    def _limit(self, distance: Fraction) -> None:
        self.limit_top, self.limit_bottom = (distance / self.unit).as_integer_ratio()

    def offer(self, miss: int, weight: int, products: Products, above: int, below: int) -> None:
        """Keep a train if its gears are owned and it is nearer than the worst kept, or as near and told before it.

        miss, weight  its distance is unit x miss / weight
        """
        drivers, driven = products.gears_of[above], products.gears_of[below]
        gears, teeth = len(drivers) + len(driven), sum(drivers) + sum(driven)
        is_full = len(self.kept) == self.most
        # Thousands of trains may be exact: most of them are passed over here, by their teeth alone.
        if is_full and miss * self.limit_bottom == self.limit_top * weight:
            worst = self.kept[-1]
            if (gears, teeth) > (worst.gears, worst.teeth):
                return
        if weight <= 0 or not products.are_owned(above, below):
            return
        found = Found(self.unit * miss / weight, gears, teeth, drivers, driven)
        if is_full and found >= self.kept[-1]:
            return
        if self.mounted is not None and self.mounted(found.train) is None:
            return
        insort(self.kept, found)
        del self.kept[self.most :]
        if len(self.kept) == self.most:
            self._limit(self.kept[-1].distance)

    def trains(self) -> list[Train]:
        """Return the trains kept, the nearest first, each as it is mounted or with the most room."""
        if self.mounted is None:
            return [found.train.arrangements()[0] for found in self.kept]
        return [mounted for found in self.kept if (mounted := self.mounted(found.train))]


def nearest_trains(
    target: Fraction,
    gears: Sequence[int],
    sizes: Sequence[int] = (2, 4),
    most: int = 1,
    mounted: Mounted | None = None,
    watch: Watch | None = None,
) -> list[Train]:
    """Return the trains whose value is nearest to the target, the best first; no other is nearer.

    target   turns of the last shaft for one of the first, above 0
    gears    teeth of the gears owned, one entry for each, 2 gears or more
    sizes    how many gears a train may have: any of 2, 4, 6
    most     how many trains to return at most
    mounted  which trains can be mounted, and how; None lets all be
    watch    told how far the search is; it may raise to end it, and nothing is left half done

    The list is shorter when there are not so many trains, empty when there is none.
    Raises FaultsFound or BadNumber when the gears or the target are out of their range.
    """
    check_asked(target, gears)
    shortlist = Shortlist(target, most, mounted)
    for size in sorted(sizes):
        if size <= len(gears):
            sweep(shortlist, Products(gears, size // 2), watch)
    return shortlist.trains()


def sweep(shortlist: Shortlist, products: Products, watch: Watch | None = None) -> None:
    """Offer the shortlist every train that could be on it, as the head of this file says.

    The two walks are written out, and their limits held in local names, for they are all the time there is.
    """
    top, bottom = shortlist.target.as_integer_ratio()
    of_below, of_above, offer = shortlist.of_below, shortlist.of_above, shortlist.offer
    limit_top, limit_bottom = shortlist.limit_top, shortlist.limit_bottom
    values, end = products.values, len(products.values)
    for below, value in enumerate(values):
        if watch is not None and below % _STEPS_BETWEEN_WATCHES == 0:
            watch(below, end)
        wanted, part = value * top, value * of_below
        middle = bisect_right(values, wanted // bottom)
        above = middle - 1
        while above >= 0:
            miss = wanted - values[above] * bottom
            weight = part + of_above * values[above]
            if miss * limit_bottom > limit_top * weight:
                break
            offer(miss, weight, products, above, below)
            limit_top, limit_bottom = shortlist.limit_top, shortlist.limit_bottom
            above -= 1
        above = middle
        while above < end:
            miss = values[above] * bottom - wanted
            weight = part + of_above * values[above]
            if miss * limit_bottom > limit_top * weight:
                break
            offer(miss, weight, products, above, below)
            limit_top, limit_bottom = shortlist.limit_top, shortlist.limit_bottom
            above += 1
    if watch is not None:
        watch(end, end)


def exact_trains(target: Fraction, products: Products) -> list[Found]:
    """Return every train of two of these products with exactly this value, in the order they are told.

    A product below that the target's bottom does not divide has no partner; for any other the
    partner is one number, looked up.
    """
    top, bottom = target.as_integer_ratio()
    if products.common_multiple % top or products.common_multiple % bottom:
        return []
    found = []
    for below, value in enumerate(products.values):
        times, rest = divmod(value, bottom)
        if rest:
            continue
        first = bisect_left(products.values, times * top)
        for above in range(first, bisect_right(products.values, times * top, first)):
            if products.are_owned(above, below):
                drivers, driven = products.gears_of[above], products.gears_of[below]
                teeth = sum(drivers) + sum(driven)
                found.append(Found(Fraction(0), len(drivers) + len(driven), teeth, drivers, driven))
    return sorted(found)


def check_asked(target: Fraction, gears: Sequence[int]) -> None:
    """Raise what is wrong with a target ratio (BadNumber) or a set of gears (FaultsFound)."""
    if target <= 0:
        raise BadNumber(
            "ratio",
            f"{as_text(target)}; the ratio of a train is above 0 "
            "(which way it turns is a matter of idlers, not of the ratio)",
        )
    faults = [
        fault
        for place, teeth in enumerate(gears, 1)
        for fault in count_fault(f"gear {place} of the list", teeth, LEAST_TEETH, "a change gear has")
    ]
    if len(gears) < 2:
        found = "one gear" if gears else "no gears"
        faults.append(Fault("gears", f"{found}; a train needs two or more, as 24, 28, 32, 40"))
    if len(gears) > MOST_GEARS:
        faults.append(Fault("gears", f"{len(gears):,} of them; at most {MOST_GEARS:,}"))
    if faults:
        raise FaultsFound(faults)


def products_counted(gears: Sequence[int], size: int) -> int:
    """Return how many products a search of trains of this size sorts at most: the measure of its length.

    Raises FaultsFound when they are more than a search can hold.
    """
    count = comb(len(gears), size // 2)
    if count > MOST_PRODUCTS:
        message = (
            f"{len(gears)} of them make {count:,} sets of {size // 2}; trains of {size} gears are "
            f"sought among {MOST_PRODUCTS:,} sets at most"
        )
        raise FaultsFound([Fault("gears", message)])
    return count
