"""Scales from a law: an angle for each value, by a formula or between calibrated points.

The law comes as a function from a value to an angle in turns. Where it works in floats (logarithms, sines)
its angles are kept to 1e-12 turn, which is 0.0000013 seconds of arc; the floats themselves are good to about that.
"""

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from crankwise.errors import BadDivisions
from crankwise.exact.number import as_text
from crankwise.part.divisions import AngleList
from crankwise.part.scale_lines import MOST_LINES, Scale

Law = Callable[[Fraction], Fraction | float]
"""From a value to its angle in turns: a Fraction where that is exact."""
FINEST = 10**12
"""Parts of a turn to which an angle from floats is kept."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """Values from one to another by a step: 1 to 2 by 0.1. Falling ones have a step below 0."""

    first: Fraction
    last: Fraction
    step: Fraction

    def __post_init__(self) -> None:
        told = f"from {as_text(self.first)} to {as_text(self.last)} by {as_text(self.step)}"
        if not self.step or (self.last - self.first) / self.step <= 0:
            raise BadDivisions(
                "values", f"{told} never comes there; write them as FIRST:LAST:STEP, as 1:10:0.5"
            )
        steps = (self.last - self.first) / self.step
        if steps.denominator != 1:
            raise BadDivisions(
                "values", f"{told} does not end on the last; the step goes whole into the stretch"
            )
        if steps > MOST_LINES:
            raise BadDivisions("values", f"{told} makes {int(steps):,} lines; at most {MOST_LINES:,}")

    def values(self) -> list[Fraction]:
        """Return the values, both ends included."""
        return [
            self.first + self.step * place for place in range(int((self.last - self.first) / self.step) + 1)
        ]


def stretched(stretches: Sequence[Stretch]) -> tuple[Fraction, ...]:
    """Return the values of stretches that follow each other; where two meet, the value is there once."""
    values: list[Fraction] = []
    for stretch in stretches:
        more = stretch.values()
        values += more[1:] if values and values[-1] == more[0] else more
    return tuple(values)


def scale_of_law(name: str, values: Sequence[Fraction], law: Law) -> Scale:
    """Return a line for each value, where the law puts it, measured from the first.

    values  what the lines stand for, in the order in which their angles rise

    A last line exactly a full circle on is the first line met again and is left out. Raises BadDivisions
    naming the values between which the angle does not rise, or at which it passes the full circle.
    """
    if not values:
        raise BadDivisions("values", "none; write them as 1:10:0.5, or one by one")
    reached = [law(value) for value in values]
    is_exact = all(isinstance(angle, Fraction) for angle in reached)
    angles = [Fraction(round(Fraction(angle - reached[0]) * FINEST), FINEST) for angle in reached]
    if is_exact:
        angles = [Fraction(angle) - Fraction(reached[0]) for angle in reached]
    for place in range(1, len(values)):
        _check_rise(values, angles, place)
    note = ""
    if len(angles) > 1 and angles[-1] == 1:
        note = (
            f"{as_text(values[-1])} is a full circle on and falls on {as_text(values[0])}: one line for both"
        )
        values, angles = values[:-1], angles[:-1]
    if angles[-1] >= 1:
        place = next(place for place, angle in enumerate(angles) if angle >= 1)
        raise BadDivisions(
            "scale",
            f"at {as_text(values[place])} it is {_degrees(angles[place])} degrees past {as_text(values[0])}, a "
            f"full circle or more; end it before that, or make all its angles smaller, times "
            f"{as_text(Fraction(int(1000 / angles[-1]), 1000))}",
        )
    return Scale(name, AngleList(tuple(angles)), tuple(values), is_exact=is_exact, note=note)


def _check_rise(values: Sequence[Fraction], angles: Sequence[Fraction], place: int) -> None:
    before, here = angles[place - 1], angles[place]
    if here > before:
        return
    at = f"from {as_text(values[place - 1])} to {as_text(values[place])}"
    if place == 1 and here < before:
        raise BadDivisions(
            "scale",
            f"{at} the angle falls, by {_degrees(before - here)} degrees; lines are cut with the angle rising: "
            "give the values in the other order, or put a minus before the formula",
        )
    does = "stays where it is" if here == before else f"falls back by {_degrees(before - here)} degrees"
    raise BadDivisions(
        "scale",
        f"{at} the angle {does}; it must rise from line to line: end the values before that, "
        "or correct the formula or the table",
    )


def _degrees(turns: Fraction) -> str:
    return as_text(round(turns * 360, 4))


def between_points(points: Sequence[tuple[Fraction, Fraction]]) -> Law:
    """Return the law that goes straight from each calibrated point to the next.

    points  (value, angle in turns), two or more, in order of their values either way

    The law raises BadDivisions for a value outside the points: nothing is known there.
    Source: linear interpolation, exact.
    """
    if len(points) < 2:
        raise BadDivisions("points", "one only; lines between calibrated points need two or more")
    rising = sorted(points)
    if rising not in ([*points], [*reversed(points)]) or len({value for value, _ in points}) < len(points):
        raise BadDivisions(
            "points", "their values do not run one way; give each value once, rising or falling all along"
        )
    at = [value for value, _ in rising]

    def law(value: Fraction) -> Fraction:
        if not at[0] <= value <= at[-1]:
            raise BadDivisions(
                "values",
                f"{as_text(value)} lies outside the calibrated points, {as_text(at[0])} to {as_text(at[-1])}",
            )
        place = min(bisect_right(at, value), len(at) - 1)
        (low, angle), (high, next_angle) = rising[place - 1], rising[place]
        return angle + (next_angle - angle) * (value - low) / (high - low)

    return law
