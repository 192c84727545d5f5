"""Brute force with fractions: every notch, hole and reading, tried one by one. Shares nothing with the package.

A scale is `turns` of its wheel for one of the spindle, and `places` in one turn of that wheel. The
targets are fractions of a turn. Slow on purpose.
"""

from fractions import Fraction


def stands(turns: Fraction, places: int) -> list[Fraction]:
    """Where the spindle stands at each place, for a little over two turns of the spindle."""
    step = 1 / (turns * places)
    found, at = [], Fraction(0)
    while at <= 2 + step:
        found.append(at)
        at += step
    return found


def least_distances(turns: Fraction, places: int, targets: list[Fraction]) -> list[Fraction]:
    """How far each target is from the place nearest to it."""
    every = stands(turns, places)
    return [min(abs(stand - target) for stand in every) for target in targets]


def comes_round(turns: Fraction, places: int) -> bool:
    """Whether one full turn of the spindle is itself a place."""
    return Fraction(1) in stands(turns, places)


def constant_moves(turns: Fraction, places: int, targets: list[Fraction]) -> set[int]:
    """Every number of places, if any, that carries a place at the first target on to each of the others."""
    every = stands(turns, places)
    if targets[0] not in every:
        return set()
    first = every.index(targets[0])
    found = set()
    for move in range(1, len(every)):
        if all(
            first + move * index < len(every) and every[first + move * index] == target
            for index, target in enumerate(targets)
        ):
            found.add(move)
    return found
