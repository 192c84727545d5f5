"""Name the fault from what is left over: big residues are nearly always one blunder, and each kind signs.

A residue is where the work was found less where it should be, at one position, with how near it was
measured. Every explanation that fits all of them is told, the plainest first; two that cannot be told
apart by these residues are both told. Source: closure residues behave as surveyors report of theirs;
the signatures are common practice, and each follows from what the fault does to the angle.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import cos, pi, sin
from typing import Literal

from crankwise.run.gear_at_hand import MOST_TIMES, Gear

Kind = Literal[
    "miscount",
    "miscount of moves",
    "whole turn",
    "misread numeral",
    "miscount of holes",
    "miscount of notches",
    "read backwards",
    "wrong approach",
    "slip",
    "off centre",
    "wrong arms",
    "wrong step",
]

Remedy = Literal[
    "find the row and go on from it",
    "go back past it and come up again",
    "read again and come up again",
    "count again from the start",
    "re-anchor from here on",
    "true the work on its own arbor",
    "set the arms again",
    "set every position from the start",
]

REMEDIES: dict[Kind, Remedy] = {
    "miscount": "find the row and go on from it",
    "miscount of moves": "find the row and go on from it",
    "whole turn": "go back past it and come up again",
    "misread numeral": "read again and come up again",
    "miscount of holes": "count again from the start",
    "miscount of notches": "count again from the start",
    "read backwards": "read again and come up again",
    "wrong approach": "go back past it and come up again",
    "slip": "re-anchor from here on",
    "off centre": "true the work on its own arbor",
    "wrong arms": "set the arms again",
    "wrong step": "set every position from the start",
}

ARMS_OUT = (1, -1, 2, -2)
"""Holes that sector arms are set wrong by; more is seen."""

LEAST_FOR_A_CURVE = 5
"""Residues from which a sine is told: through fewer a sine can always be laid."""


@dataclass(frozen=True, slots=True)
class Residue:
    """What is left over at one position.

    row      its row
    target   its exact angle from the start, in turns
    found    where the work was found less where it should be, in turns; positive the way it advances
    within   how near that was measured, either way, in turns
    reading  what the scale that is set should show there, dial or ring; None where holes or notches are counted
    """

    row: int
    target: Fraction
    found: Fraction
    within: Fraction
    reading: Fraction | None = None

    @property
    def is_nothing(self) -> bool:
        """Whether it may as well be nothing."""
        return abs(self.found) <= self.within


@dataclass(frozen=True, slots=True)
class Explanation:
    """A fault that explains every residue.

    kind       what it is
    size       what it does to the work, in turns of the spindle, positive ahead; a sine's amplitude;
               what a wrong step adds at each row
    times      how many parts, moves, turns, intervals, holes or notches; 0 where it is not counted in those
    since      the first row that shows it
    clear      the last row before it that does not; None when there is none
    until      the last row that shows it, when a later one is clear again; None when it stays
    remedy     what to do
    """

    kind: Kind
    size: Fraction
    times: int
    since: int
    clear: int | None
    until: int | None
    remedy: Remedy


def explain(residues: Sequence[Residue], gear: Gear, true_at_start: bool = False) -> tuple[Explanation, ...]:
    """Return every fault that explains all residues, the plainest first; none when nothing is left over.

    residues       at rows in rising order, each row once
    true_at_start  whether nothing was left over before the first row, where everything was set to zero
    """
    if all(residue.is_nothing for residue in residues):
        return ()
    once_before_twice = sorted(_blunders(residues, gear), key=lambda one: max(1, abs(one.times)))
    found = [
        *once_before_twice,
        *_arms(residues, gear),
        *_steps(residues),
        *_ramps(residues, gear, true_at_start),
        *_sines(residues),
    ]
    return tuple(found)


def _stretch(residues: Sequence[Residue]) -> tuple[int, int]:
    """Return the first and the last of the residues that are not nothing."""
    off = [index for index, residue in enumerate(residues) if not residue.is_nothing]
    return off[0], off[-1]


def _one_size(residues: Iterable[Residue]) -> tuple[Fraction, Fraction] | None:
    """Return the least and the most that one and the same size may be at all of these; None when no size fits."""
    low = max(residue.found - residue.within for residue in residues)
    high = min(residue.found + residue.within for residue in residues)
    return (low, high) if low <= high else None


def _multiple(bounds: tuple[Fraction, Fraction], unit: Fraction) -> int | None:
    """Return how many of a unit lie within bounds, the fewest; None when none but 0 does."""
    low, high = bounds
    middle = (low + high) / 2
    times = [count for count in range(-MOST_TIMES, MOST_TIMES + 1) if count and low <= count * unit <= high]
    return min(times, key=lambda count: (abs(count), abs(count * unit - middle)), default=None)


def _blunders(residues: Sequence[Residue], gear: Gear) -> Iterator[Explanation]:
    """Yield the blunders whose size is known beforehand, whether they stayed or were one position's."""
    first, last = _stretch(residues)
    bounds = _one_size(residues[first : last + 1])

    def told(kind: Kind, size: Fraction, times: int) -> Explanation:
        return _explanation(residues, first, last, kind, size, times)

    if bounds is not None:
        wider = bounds[0] - gear.rounded, bounds[1] + gear.rounded
        interval = abs(gear.mark * gear.interval) if gear.mark and gear.interval else None
        units: tuple[tuple[Kind, tuple[Fraction | None, ...], tuple[Fraction, Fraction]], ...] = (
            ("miscount", (gear.part,), wider),
            ("miscount of moves", (None if gear.move == gear.part else gear.move,), wider),
            ("whole turn", (gear.turn,), bounds),
            ("misread numeral", (interval,), bounds),
            ("miscount of holes", gear.holes, bounds),
            ("miscount of notches", gear.notches, bounds),
        )
        for kind, several, within in units:
            fewest = min(
                ((times, unit) for unit in several if unit and (times := _multiple(within, unit))),
                key=lambda one: abs(one[0]),
                default=None,
            )
            if fewest is not None:
                yield told(kind, fewest[0] * fewest[1], fewest[0])
        if gear.backlash:
            for size in (gear.backlash, -gear.backlash):
                if bounds[0] <= size <= bounds[1]:
                    yield told("wrong approach", size, 0)
    off = residues[first : last + 1]
    if (
        gear.mark
        and gear.interval
        and all(_is_mirrored(residue, gear.mark, gear.interval) for residue in off)
    ):
        yield told("read backwards", off[0].found, 0)


def _is_mirrored(residue: Residue, mark: Fraction, interval: int) -> bool:
    """Return whether a residue is what comes of counting from the wrong one of the two numerals."""
    if residue.reading is None:
        return False
    lower = residue.reading // interval * interval
    mirrored = 2 * lower + interval - residue.reading
    off = (mirrored - residue.reading) * mark
    return off != 0 and abs(residue.found - off) <= residue.within


def _arms(residues: Sequence[Residue], gear: Gear) -> Iterator[Explanation]:
    """Yield sector arms that span a hole or two too many or too few: every move is out by as much.

    The row's number is how many moves were made; what they come to is known to a whole turn.
    """
    first, last = _stretch(residues)
    sizes = {times * hole for hole in gear.holes for times in ARMS_OUT}
    for each in sorted(sizes, key=lambda size: (abs(size), size < 0)):
        if gear.by_arms and all(_is_near(residue, each * residue.row) for residue in residues):
            times = next(times for hole in gear.holes for times in ARMS_OUT if times * hole == each)
            yield _explanation(residues, first, last, "wrong arms", each, times)
            return


def _is_near(residue: Residue, size: Fraction) -> bool:
    off = (residue.found - size) % 1
    return min(off, 1 - off) <= residue.within


def _steps(residues: Sequence[Residue]) -> Iterator[Explanation]:
    """Yield a slip: one size that stays to the end, whatever it is.

    A step at the last residue alone may be a slip as well. A position that was clear again is none.
    """
    first, last = _stretch(residues)
    if last != len(residues) - 1:
        return
    bounds = _one_size(residues[first:])
    if bounds is not None:
        yield _explanation(residues, first, last, "slip", (bounds[0] + bounds[1]) / 2, 0)


def _ramps(residues: Sequence[Residue], gear: Gear, true_at_start: bool) -> Iterator[Explanation]:
    """Yield a wrong step: what is left over grows by the same at every row, from nothing at the start.

    Through one residue and the start a line can always be laid, so that the step must also be one that rounding makes.
    """
    steps = [residue for residue in residues if residue.row]
    if not steps or any(not residue.is_nothing for residue in residues if not residue.row):
        return
    low = max((residue.found - residue.within) / residue.row for residue in steps)
    high = min((residue.found + residue.within) / residue.row for residue in steps)
    if low > high or low <= 0 <= high:
        return
    is_rounding = gear.rounded_step is not None and min(abs(low), abs(high)) <= gear.rounded_step
    if len(steps) > 1 or (true_at_start and steps[0].row > 1 and is_rounding):
        first, last = _stretch(residues)
        yield _explanation(residues, first, last, "wrong step", (low + high) / 2, 0)


def _sines(residues: Sequence[Residue]) -> Iterator[Explanation]:
    """Yield work off centre: once up and down in a turn.

    Floats: the sine is fitted to readings good to a few figures. The fit makes the worst residue, in
    units of its uncertainty, as small as reweighted least squares can; it fits when that is at most 1.
    Source: Lawson's algorithm, from any book on approximation.
    """
    if len(residues) < LEAST_FOR_A_CURVE:
        return
    values = [float(residue.found) for residue in residues]
    near = [float(residue.within) or 1e-12 for residue in residues]
    # Nothing is left over at the start, where everything was zeroed, so the cosine is taken from its top.
    angles = [2 * pi * float(residue.target) for residue in residues]
    basis = [[cos(angle) - 1, sin(angle)] for angle in angles]
    weights = [1 / len(residues)] * len(residues)
    for _ in range(60):
        fitted = _least_squares(basis, values, [w / n**2 for w, n in zip(weights, near, strict=True)])
        if fitted is None:
            return
        off = [
            abs(value - sum(f * b for f, b in zip(fitted, row, strict=True))) / width
            for value, row, width in zip(values, basis, near, strict=True)
        ]
        if max(off) <= 1:
            size = Fraction((fitted[0] ** 2 + fitted[1] ** 2) ** 0.5).limit_denominator(10**9)
            if float(size) > min(near):
                first, last = _stretch(residues)
                yield _explanation(residues, first, last, "off centre", size, 0)
            return
        total = sum(w * o for w, o in zip(weights, off, strict=True))
        weights = [w * o / total for w, o in zip(weights, off, strict=True)]


def _least_squares(
    basis: Sequence[Sequence[float]], values: Sequence[float], weights: Sequence[float]
) -> list[float] | None:
    """Return the factors of a weighted least-squares fit, by elimination; None when they are not set."""
    size = len(basis[0])
    table = [
        [sum(w * row[i] * row[j] for w, row in zip(weights, basis, strict=True)) for j in range(size)]
        + [sum(w * row[i] * value for w, row, value in zip(weights, basis, values, strict=True))]
        for i in range(size)
    ]
    scale = max(abs(table[i][i]) for i in range(size))
    for column in range(size):
        pivot = max(range(column, size), key=lambda row: abs(table[row][column]))
        if abs(table[pivot][column]) <= 1e-9 * scale:
            return None
        table[column], table[pivot] = table[pivot], table[column]
        for row in range(size):
            if row != column:
                factor = table[row][column] / table[column][column]
                table[row] = [a - factor * b for a, b in zip(table[row], table[column], strict=True)]
    return [table[i][size] / table[i][i] for i in range(size)]


def _explanation(
    residues: Sequence[Residue], first: int, last: int, kind: Kind, size: Fraction, times: int
) -> Explanation:
    return Explanation(
        kind,
        size,
        times,
        since=residues[first].row,
        clear=residues[first - 1].row if first else None,
        until=residues[last].row if last < len(residues) - 1 else None,
        remedy=REMEDIES[kind],
    )
