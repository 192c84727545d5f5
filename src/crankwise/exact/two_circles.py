"""Two circles of one plate as a single fine scale: the number theory of compound settings.

Circles of A and B holes, with g = gcd(A, B), make a scale of L = lcm(A, B) places in one turn: the
place P is reached by a holes on the one and b on the other when a/A + b/B = P/L, that is when

    a (B/g) + b (A/g) = P.

B/g and A/g share no factor, so every P can be had: a is the residue of P / (B/g) modulo A/g, and b
follows. All other answers step a by A/g and b by -B/g. Nothing is searched hole by hole.
Source: derived; linear congruences, as in any elementary number theory.
"""

from collections.abc import Iterator
from math import gcd


def splits(place: int, first: int, second: int) -> Iterator[tuple[int, int]]:
    """Yield every (a, b) with a/first + b/second = place/lcm, each part under one turn either way.

    place          places of the common scale; 0 and below are read as they are
    first, second  holes of the two circles, 1 or more

    a rises from one answer to the next; either may be 0 or negative (the other way round).

    >>> list(splits(200, 15, 17))
    [(10, 2)]
    """
    common = gcd(first, second)
    first_step, second_step = first // common, second // common
    a = place * pow(second_step, -1, first_step) % first_step if first_step > 1 else 0
    a -= first_step * ((a + first - 1) // first_step)
    while a < first:
        b = (place - a * second_step) // first_step
        if -second < b < second:
            yield a, b
        a += first_step


def fewest_holes(place: int, first: int, second: int) -> tuple[int, int, int]:
    """Return (turns, a, b): whole turns and the split with the fewest holes to count for a place.

    place          places of the common scale from the start, 0 or more
    first, second  holes of the two circles, 1 or more

    turns + a/first + b/second = place/lcm, with a from 0 to below `first` and b under one turn
    either way. The crank is never asked to go back past the start. Ties go to b forward.
    """
    lcm = first * second // gcd(first, second)
    turns, part = divmod(place, lcm)
    options = [
        (a + abs(b), b < 0, turns + whole, a, b)
        for whole in (-1, 0, 1)
        if turns + whole >= min(turns, 0)
        for a, b in splits(part - whole * lcm, first, second)
        if a >= 0
    ]
    _, _, turns, a, b = min(options)
    return turns, a, b
