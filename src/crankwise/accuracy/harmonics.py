"""The waves in a head's errors: what a reading says of them, whether readings can tell them, and their fit.

A reading of the error at one place is a sum of waves of the wheel and of the worm, a constant, and the
backlash where the head was turned back. A reading of one step (closure) is the difference of the waves at
its two ends, and the constant is the gauge. Either way the unknowns come in linearly.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import cos, pi, sin
from typing import NamedTuple

from crankwise.accuracy.chances import f_beyond
from crankwise.accuracy.least_squares import (
    CANNOT_TELL,
    Indistinct,
    cholesky,
    dot,
    least_squares,
    left_over,
    normal_matrix,
)
from crankwise.head.known_errors import Of

MOST_WHEEL = 6
MOST_WORM = 4
LEVEL = 0.01
"""A further wave is taken when chance alone would show as much once in a hundred such measurements."""
LOOKS_ALIKE = 0.9
"""Part of the worm's wave that one wave of the wheel may make up before the two are taken for each other."""


class Reading(NamedTuple):
    """What was measured at one place.

    number   where it stands, as its owner counts: the line of the file
    place    the setting of the spindle, in turns from the head's zero
    error    what was measured, in seconds of arc: measured less set; of a step, its gauge reading
    begun    where the step began, in turns; None for a reading at one place
    back     whether the head was turned back to this setting
    """

    number: int
    place: Fraction
    error: float
    begun: Fraction | None = None
    back: bool = False


class Wave(NamedTuple):
    """One wave: of the wheel or of the worm, so many in one turn of it."""

    of: Of
    order: int


class Tried(NamedTuple):
    """One further wave that was tried, the best of its round.

    ratio   the variance ratio F that taking it gives
    chance  how often chance alone gives as much
    taken   whether it was taken
    """

    wave: Wave
    ratio: float
    chance: float
    taken: bool


@dataclass(frozen=True)
class Readings:
    """Readings of one head, and the waves as they stand in them.

    readings  one or more
    ratio     crank turns for one turn of the spindle; None on a head without a worm
    """

    readings: tuple[Reading, ...]
    ratio: Fraction | None

    @property
    def closes(self) -> bool:
        """Whether the readings are of steps."""
        return self.readings[0].begun is not None

    @property
    def reverses(self) -> bool:
        """Whether some settings were come to by turning back."""
        backs = {one.back for one in self.readings}
        return len(backs) == 2

    @cached_property
    def errors(self) -> list[float]:
        """What was measured, in order, in seconds of arc."""
        return [one.error for one in self.readings]

    @cached_property
    def spindle(self) -> list[Fraction]:
        """Every place of the spindle that came in, as parts of a turn, rising, each once."""
        places = {one.place % 1 for one in self.readings}
        return sorted(places | {one.begun % 1 for one in self.readings if one.begun is not None})

    @cached_property
    def crank(self) -> list[Fraction]:
        """Every place of the crank that came in, as parts of its turn, rising; to a thousandth, each once."""
        if self.ratio is None:
            return []
        places = [one.place * self.ratio for one in self.readings]
        places += [one.begun * self.ratio for one in self.readings if one.begun is not None]
        return sorted({Fraction(round(place % 1 * 1000) % 1000, 1000) for place in places})

    def columns(self, wave: Wave) -> tuple[list[float], list[float]]:
        """Return what one second of the wave's cosine, and of its sine, adds to each reading."""
        if wave not in self._made:
            self._made[wave] = self._columns(wave)
        return self._made[wave]

    @cached_property
    def _made(self) -> dict[Wave, tuple[list[float], list[float]]]:
        """Columns already worked out: the same wave is asked for many times over."""
        return {}

    def _columns(self, wave: Wave) -> tuple[list[float], list[float]]:
        turns = wave.order * (self.ratio or 1) if wave.of == "worm" else Fraction(wave.order)
        ends = [_both(one.place * turns) for one in self.readings]
        if self.closes:
            begun = [_both((one.begun or Fraction(0)) * turns) for one in self.readings]
            ends = [(c - d, s - t) for (c, s), (d, t) in zip(ends, begun, strict=True)]
        return [cosine for cosine, _ in ends], [sine for _, sine in ends]

    def plain_columns(self) -> list[list[float]]:
        """Return the columns that are always there: the constant (minus the gauge), and the backlash if it was met."""
        found = [[1.0] * len(self.readings)]
        if self.reverses:
            found.append([float(one.back) for one in self.readings])
        return found


def _both(turns: Fraction) -> tuple[float, float]:
    # Whole turns are dropped before the float is made: 1,000 turns of the crank must not cost digits.
    angle = 2 * pi * ((turns.numerator % turns.denominator) / turns.denominator)
    return cos(angle), sin(angle)


def widest_gap(places: Sequence[Fraction]) -> Fraction:
    """Return the widest part of a turn without a place, round the zero too; places rising, 1 or more.

    >>> widest_gap([Fraction(0), Fraction(1, 4), Fraction(1, 2)])
    Fraction(1, 2)
    """
    return max(
        (after - before) % 1 or Fraction(1)
        for before, after in zip(places, (*places[1:], places[0]), strict=True)
    )


def can_be_told(places: Sequence[Fraction], most: int) -> list[int]:
    """Return the orders, 1 up to `most`, that places so far apart can tell: more than two to each wave.

    Source: the sampling theorem, for the widest gap.
    """
    gap = widest_gap(places)
    return [order for order in range(1, most + 1) if 2 * order * gap < 1]


def look_alike(readings: Readings, one: Wave, other: Wave) -> float:
    """Return how much of one wave another makes up at these readings, with the constant: 0 to 1."""
    mine, theirs = readings.columns(one), readings.columns(other)
    plain = readings.plain_columns()
    try:
        lower = cholesky(normal_matrix([*plain, *theirs]))
        alone = cholesky(normal_matrix(plain))
    except Indistinct:
        return 0.0
    worst = 0.0
    for column in mine:
        squares = dot(column, column)
        without = left_over(alone, [dot(column, there) for there in plain], squares)
        if without <= CANNOT_TELL * len(column):
            continue  # this half of the wave does not show at all
        left = left_over(lower, [dot(column, there) for there in (*plain, *theirs)], squares)
        worst = max(worst, 1 - left / without)
    return worst


class Selection(NamedTuple):
    """The waves taken, and how they were chosen."""

    waves: tuple[Wave, ...]
    tried: tuple[Tried, ...]


def select(readings: Readings, first: Sequence[Wave], further: Sequence[Wave]) -> Selection:
    """Return the waves that the readings ask for: the first ones always, further ones by an F test.

    In each round the further wave that takes away most is tried: it is taken when chance alone would take
    away as much with a chance of LEVEL, shared among all that are tried (Bonferroni). The first that
    is not taken ends it.
    Raises Indistinct when the first ones cannot be told apart.
    Source: the F test for two further unknowns in a linear model; common practice in regression.
    """
    plain = readings.plain_columns()
    every = [*first, *further]
    columns = plain + [column for wave in every for column in readings.columns(wave)]
    middle = sum(readings.errors) / len(readings.errors)
    errors = [error - middle for error in readings.errors]
    matrix = normal_matrix(columns)
    right, squares = [dot(column, errors) for column in columns], dot(errors, errors)

    def left_with(chosen: Sequence[Wave]) -> float:
        kept = [*range(len(plain))]
        for wave in chosen:
            at = len(plain) + 2 * every.index(wave)
            kept += [at, at + 1]
        lower = cholesky([[matrix[i][j] for j in kept] for i in kept])
        return left_over(lower, [right[i] for i in kept], squares)

    taken, waiting, tried = list(first), list(further), []
    left = left_with(taken)
    while waiting:
        freedom = len(errors) - len(plain) - 2 * len(taken) - 2
        if freedom < 3:
            break
        best, best_left = None, left
        for wave in waiting:
            try:
                with_it = left_with([*taken, wave])
            except Indistinct:
                continue
            if with_it < best_left:
                best, best_left = wave, with_it
        if best is None:
            break
        # Below a billionth of the whole, what is left is the rounding of floats and no signal.
        floor = max(best_left, squares * 1e-18)
        ratio = (left - best_left) / 2 / (floor / freedom) if floor else 0.0
        chance = f_beyond(ratio, 2, freedom)
        good = chance < LEVEL / len(further) and left - best_left > squares * 1e-15
        tried.append(Tried(best, ratio, chance, good))
        if not good:
            break
        taken.append(best)
        waiting.remove(best)
        left = best_left
    return Selection(tuple(sorted(taken, key=lambda wave: (wave.of, wave.order))), tuple(tried))


def inflation(readings: Readings, waves: Sequence[Wave]) -> Iterator[tuple[Wave, float]]:
    """Yield each wave with how many times less surely it is known than from as many readings well spread.

    Raises Indistinct when they cannot be told apart at all.
    """
    plain = readings.plain_columns()
    columns = plain + [column for wave in waves for column in readings.columns(wave)]
    inverse = least_squares(columns, readings.errors).inverse
    ideal = 2 / len(readings.readings)
    for index, wave in enumerate(waves):
        at = len(plain) + 2 * index
        yield wave, (max(inverse[at][at], inverse[at + 1][at + 1]) / ideal) ** 0.5
