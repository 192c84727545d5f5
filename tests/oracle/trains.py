"""Trains and differential settings by trying every one: slow and plain, sharing nothing with the package."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import permutations

Teeth = tuple[int, ...]


def every_train(gears: Teeth, size: int) -> set[tuple[Teeth, Teeth]]:
    """Return every train of so many of the gears as (drivers, driven), each in rising order."""
    half = size // 2
    return {(tuple(sorted(order[:half])), tuple(sorted(order[half:]))) for order in permutations(gears, size)}


def value(train: tuple[Teeth, Teeth]) -> Fraction:
    """Return drivers over driven, one gear after the other."""
    result = Fraction(1)
    for driver, driven in zip(*train, strict=True):
        result = result * driver / driven
    return result


def clears_shafts(train: tuple[Teeth, Teeth], clearance: int) -> bool:
    """Return whether a train of 2 or 4 gears can be arranged so that no gear reaches the next shaft.

    Distances in half-modules: the centres of a and b in mesh are a + b apart, a gear of c reaches c.
    """
    drivers, driven = train
    if len(drivers) == 1:
        return True
    return any(
        first + second - third >= clearance and third + fourth - second >= clearance
        for first, third in permutations(drivers)
        for second, fourth in permutations(driven)
    )


def every_differential(
    ratio: Fraction, circles: Teeth, gears: Teeth, count: int, clearance: int
) -> Iterator[tuple[int, int, Fraction]]:
    """Yield (circle, holes moved, error of the last position) of every move with every train either way round.

    The crank moves holes / circle past the plate, and the plate moves with or against it by the
    train's value for each turn of the spindle; the spindle's turn follows from the two.
    """
    sizes = [size for size in (2, 4) if size <= len(gears)]
    values = {
        value(train)
        for size in sizes
        for train in every_train(gears, size)
        if clears_shafts(train, clearance)
    }
    for circle in circles:
        for moved in range(1, int((ratio + max(values)) * circle / count) + 3):
            for plate in {*values, *(-one for one in values)}:
                if plate < ratio:
                    spindle = Fraction(moved, circle) / (ratio - plate)
                    yield circle, moved, (spindle - Fraction(1, count)) * (count - 1)
