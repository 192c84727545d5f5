"""What can be measured of a finished part: the sizes of its measuring card, and how its positions can be read."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from crankwise.accuracy.inspection import LEAST_POSITIONS
from crankwise.errors import UnknownThing
from crankwise.part.card import Card, CardLine
from crankwise.part.divisions import EqualDivisions
from crankwise.part.gear import Gear
from crankwise.part.part import Part
from crankwise.tasks.inspect import Limits
from crankwise.wording.card import length_text

MEASURING = "Measuring"
"""The title of a measuring card."""


def columns_of(part: Part, gear: Gear | None) -> tuple[str, ...]:
    """Return what of a part's positions can be measured, each one of `part_readings.COLUMNS`, the usual first.

    gear  that the part is; None for any other

    Neighbours tell only where they close the circle; too few positions, or a straight row of them, tell nothing.
    """
    divisions = part.divisions
    if part.is_straight or len(divisions) < LEAST_POSITIONS:
        return ()
    if not (isinstance(divisions, EqualDivisions) and divisions.goes_round):
        return ("position_deg",)
    if gear is not None:
        return "pitch_um", "position_deg"
    if part.work == "hole":
        return "chord_mm", "position_deg"
    return "position_deg", "pitch_um"


def measured_sizes(cards: Sequence[Card]) -> tuple[CardLine, ...]:
    """Return what the measuring cards give a length and its limits for: each can be measured at several places.

    Where two have one name, as over two sizes of pins, each is named with the length that the line before it tells.
    """
    lines = [line for card in cards if card.title == MEASURING for line in card.lines]
    found = [
        (line, before)
        for before, line in pairwise([CardLine(""), *lines])
        if line.unit == "mm" and line.value is not None and (line.low, line.high) != (None, None)
    ]
    named = Counter(line.what for line, _ in found)
    return tuple(_with(before, line) if named[line.what] > 1 else line for line, before in found)


def _with(before: CardLine, line: CardLine) -> CardLine:
    told = length_text(before.value) if before.unit == "mm" and before.value is not None else ""
    return replace(line, what=f"{line.what}, {before.what} {told}".rstrip(" ,"))


def size_named(cards: Sequence[Card], name: str) -> CardLine:
    """Return the first line of the measuring cards that begins so, in capitals or not. Raises UnknownThing."""
    lines, asked = measured_sizes(cards), name.strip().lower()
    for line in lines:
        if asked and line.what.lower().startswith(asked):
            return line
    told = "; ".join(line.what for line in lines)
    raise UnknownThing(
        f"of: {name!r} is not on the measuring card; " + (f"it has: {told}" if told else "this part has none")
    )


def limits_of(line: CardLine) -> Limits:
    """Return the limits of a card's line, exactly."""
    return (
        None if line.low is None else Fraction(line.low),
        None if line.high is None else Fraction(line.high),
    )
