"""Which fault each odd pitch of a finished part points to, with the odds against the next explanation of it."""

from collections.abc import Sequence
from itertools import accumulate
from math import cos, exp, pi, sin, sqrt
from typing import Literal, NamedTuple

from crankwise.accuracy.inspection import Inspected
from crankwise.accuracy.least_squares import Indistinct, dot, least_squares
from crankwise.accuracy.step_signatures import Rest, Signature, seen_signatures, signatures, usual_columns

StepName = Literal["slip", "added-up", "bad-setting", "misread"]

MOST_ODDS = 1000.0
"""Odds beyond it are told as more than that: scatter is not so surely normal."""
_CANCEL = 3
"""Standard deviations within which two odd pitches take each other back."""
_FINEST = 1e-3
"""Of the largest pitch: readings are never finer, however well the others agree."""
_STEP_SEEN = 0.5
"""Of a step's own square, in positions: below it a step is told from level and wave by nothing but chance."""


class Step(NamedTuple):
    """A fault that makes a pitch stand out.

    size  the step, or how far the position is out, or by how much the pitch was misread
    at    the position after which the step or the misread pitch is, or which is out
    odds  how many times likelier than the next explanation, at most MOST_ODDS; None where the readings cannot
          tell it from a misreading
    """

    name: StepName
    size: float
    at: int
    odds: float | None


class Steps(NamedTuple):
    """The faults of a part, and the pitches that they change, by index."""

    steps: tuple[Step, ...]
    places: frozenset[int]


def part_steps(part: Inspected) -> Steps:
    """Return the faults that the pitches of a part show beyond chance, and how sure each is.

    Source: `step_signatures`; the odds are a ratio of likelihoods of normal scatter, the size of the fault being
    free in each explanation.
    """
    seen = seen_signatures(part)
    if not seen:
        return Steps((), frozenset())
    count, usual = len(part.single), usual_columns(part)
    try:
        solved = least_squares([*usual, *(one.column(count) for one in seen)], part.single)
    except Indistinct:
        return Steps((), frozenset())
    spread = max(solved.scatter, _FINEST * part.single_pitch)
    sizes = solved.values[len(usual) :]
    steps = [_named(part, seen, index, size, spread) for index, size in enumerate(sizes)]
    steps = _taken_back(steps, spread)
    places = frozenset(place for one in seen for place, _ in one.marks)
    closing = next((index for index, one in enumerate(seen) if one.kind == "closing"), None)
    if closing is not None:
        level_and_wave = [dot(solved.values[: len(usual)], row) for row in zip(*usual, strict=True)]
        left = [one - there for one, there in zip(part.single, level_and_wave, strict=True)]
        others = places - {count - 1}
        left = [0.0 if place in others else one for place, one in enumerate(left)]
        odds = steps[closing].odds if part.targets else None
        steps[closing] = _slipped_or_added_up(left, count - 1, bool(part.targets), odds)
    return Steps(tuple(sorted(steps, key=lambda one: -abs(one.size))), places)


def _named(part: Inspected, seen: Sequence[Signature], index: int, size: float, spread: float) -> Step:
    """Return the fault that a signature is of, with its odds."""
    one = seen[index]
    odds = _odds(part, seen, index, spread)
    if one.kind == "position":
        # A position's own angle misread leaves the very same two pitches.
        return Step("bad-setting", size, one.at, None if part.targets else odds)
    return Step("slip" if one.kind == "slip" else "misread", size, one.at, odds)


def _odds(part: Inspected, seen: Sequence[Signature], index: int, spread: float) -> float:
    """Return how many times likelier a signature is than the next one that changes its first odd pitch."""
    one, count = seen[index], len(part.single)
    others = [signature.column(count) for number, signature in enumerate(seen) if number != index]
    mine = {place for place, _ in one.marks} - ({count - 1} if one.kind == "slip" else set())
    rivals = [rival for rival in signatures(part) if mine & {place for place, _ in rival.marks}]
    gains = dict(zip(rivals, Rest(part.single, [*usual_columns(part), *others], rivals).gains(), strict=True))
    more = gains.pop(one) - max(gains.values(), default=0.0)
    return min(exp(min(max(more, 0.0) / (2 * spread**2), 50.0)), MOST_ODDS)


def _taken_back(steps: Sequence[Step], spread: float) -> list[Step]:
    """Return the steps with two lone pitches that cancel told as what they are: a slip, and its return.

    Two misreadings of one size the opposite way would be a rare chance; but it is one, so no odds are told.
    """
    found = list(steps)
    for number, one in enumerate(found):
        for other in range(number + 1, len(found)):
            both = (found[number], found[other])
            if all(each.name == "misread" for each in both) and abs(one.size + found[other].size) < (
                _CANCEL * sqrt(2) * spread
            ):
                found[number], found[other] = (each._replace(name="slip", odds=None) for each in both)
    return found


def _slipped_or_added_up(left: Sequence[float], closing: int, of_positions: bool, odds: float | None) -> Step:
    """Return what the last pitch takes back: the step that fits the curve best, or a slope where that fits better.

    Either is fitted beside a level and a wave once per turn, which may not have been seen for the step. One
    that is not about as large as what the last pitch takes back is not believed; that pitch was then misread, or
    is told as a step where positions were measured one by one.
    A last pitch that was misread leaves the same slope as a step that was added up, for it alone closes the sum.
    Source: derived; least squares, level and wave being projected out of the curve and of what is tried.
    """
    count = len(left)
    turns = [2 * pi * k / count for k in range(count)]
    even = ([sqrt(1 / count)] * count, *([sqrt(2 / count) * f(turn) for turn in turns] for f in (cos, sin)))
    # All pitches with the last come to nothing; what was taken for their mean is put back.
    back = sum(left) / count
    curve = [0.0, *accumulate(one - back for one in left[:-1])]
    for row in even:
        along = dot(row, curve)
        curve = [one - along * there for one, there in zip(curve, row, strict=True)]

    slope = [float(k) for k in range(count)]
    free = dot(slope, slope) - sum(dot(row, slope) ** 2 for row in even)
    found = dot(slope, curve)
    best, size, at, name = found**2 / free, found / free * count, closing, "added-up"
    after = [0.0] * (len(even) + 1)
    for k in range(count - 1, 0, -1):  # a step before position k: all from k on
        after = [one + row[k] for one, row in zip(after, (*even, curve), strict=True)]
        free = count - k - sum(one**2 for one in after[:-1])
        if free > _STEP_SEEN and after[-1] ** 2 / free > best:
            best, size, at, name = after[-1] ** 2 / free, after[-1] / free, k - 1, "slip"
    if abs(size + left[closing]) > abs(left[closing]) / 2:
        return Step("slip" if of_positions else "misread", left[closing], closing, None)
    if name == "slip":
        return Step("slip", size, at, odds)
    return Step("added-up", left[closing], closing, odds)
