"""Find the multipliers of the lattices in accuracy/lattice.py: run it, and copy what it prints.

A lattice of n points has the coordinates (i a^j mod n + 1/2) / n. Every one of its dimensions is filled as evenly
as n points can; a is the multiplier for which pairs and more of dimensions are filled best too, by the figure
P2 = mean over i of product over j of (1 + w^j 2 pi^2 B2({i a^j / n})) - 1, the less the better, where
B2(x) = x^2 - x + 1/6 and later dimensions weigh less (w = 0.8). Source: any book on lattice rules.
"""

import sys
from math import pi

NUMBERS_OF_POINTS = (31, 61, 127, 251, 503)
DIMENSIONS = 8
WEIGHT = 0.8


def badness(multiplier: int, points: int) -> float:
    """Return P2 of one lattice."""
    kernel = [2 * pi**2 * ((i / points) ** 2 - i / points + 1 / 6) for i in range(points)]
    total = 0.0
    for i in range(points):
        product, place, weight = 1.0, i, 1.0
        for _ in range(DIMENSIONS):
            product *= 1 + weight * kernel[place]
            place, weight = place * multiplier % points, weight * WEIGHT
        total += product
    return total / points - 1


def main() -> None:
    """Print the best multiplier of each lattice."""
    best = {
        points: min((badness(multiplier, points), multiplier) for multiplier in range(2, points))[1]
        for points in NUMBERS_OF_POINTS
    }
    sys.stdout.write(f"{best}\n")


if __name__ == "__main__":
    main()
