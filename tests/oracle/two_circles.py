"""Plain brute force over the holes of two circles: slow, and shares nothing with the package."""

from fractions import Fraction


def every_split(part: Fraction, first: int, second: int) -> set[tuple[int, int]]:
    """Return every (a, b) with a/first + b/second = part, each under one turn either way; 0 is allowed."""
    wanted = part * first * second
    return {
        (a, b)
        for a in range(-first + 1, first)
        for b in range(-second + 1, second)
        if a * second + b * first == wanted
    }


def exact_compounds(part: Fraction, first: int, second: int) -> set[frozenset[tuple[int, int]]]:
    """Return every compound setting for this part of a turn of the crank, as (circle, holes) of its two moves.

    Both moves are made, each under one turn, together they go forward, and whole turns are left out: they
    are added to the crank's own move.
    """
    wanted, turn = part * first * second, first * second
    found = set()
    for a in range(-first + 1, first):
        for b in range(-second + 1, second):
            together = a * second + b * first
            if a and b and 0 < together <= wanted and (wanted - together) % turn == 0:
                found.add(frozenset({(first, a), (second, b)}))
    return found


def nearest_place(turns: Fraction, first: int, second: int) -> Fraction:
    """Return the least distance from these turns of the crank to any a/first + b/second."""
    turn, wanted = first * second, turns % 1 * first * second
    places = {(a * second + b * first) % turn for a in range(first) for b in range(second)}
    return min(min(abs(place - wanted), turn - abs(place - wanted)) for place in places) / turn
