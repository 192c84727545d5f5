"""Trains of change gears in words: which gear stands where, and which way the plate turns."""

from collections.abc import Callable, Sequence
from fractions import Fraction

from crankwise.exact.length import INCH
from crankwise.exact.number import as_text
from crankwise.exact.ratio import simplest_between
from crankwise.head.train import Train
from crankwise.ways.differential import Differential
from crankwise.wording.figures import decimal


def plate_text(way: Differential) -> str:
    """Return how the plate is geared: plate unlocked, turning against the crank: 56 on the spindle to 24 on ..."""
    direction = "with" if way.wanted > 0 else "against"
    return (
        f"plate unlocked, turning {direction} the crank: {places_text(way.train)}, {idlers_text(way.idlers)}"
    )


def places_text(train: Train, first: str = "the spindle", last: str = "the plate's shaft") -> str:
    """Return each gear with its place, in the order in which it is driven.

    first, last  the shafts at the two ends

    A stud's gears are numbered as the handbooks do, from the last shaft.
    """
    if train.is_simple:
        return f"{train.drivers[0]} on {first} to {train.driven[0]} on {last}"
    if len(train.drivers) == 2:
        (on_first, first_on_stud), (second_on_stud, on_last) = train.drivers, train.driven
        return (
            f"{on_first} on {first} to {second_on_stud}, second on the stud; "
            f"{first_on_stud}, first on the stud, to {on_last} on {last}"
        )
    pairs = [f"{driver} to {driven}" for driver, driven in zip(train.drivers, train.driven, strict=True)]
    return f"from {first}, {', then on its stud '.join(pairs)} on {last}"


def idlers_text(idlers: int) -> str:
    """Return no idler, 1 idler, 2 idlers."""
    return f"{idlers or 'no'} idler{'' if idlers < 2 else 's'}"


def train_text(train: Train) -> str:
    """Return a train as its fraction is written: 48/40 x 24/72, drivers over driven, pairs in mesh."""
    return " x ".join(
        f"{driver}/{driven}" for driver, driven in zip(train.drivers, train.driven, strict=True)
    )


def train_table(
    trains: Sequence[Train],
    target: Fraction,
    is_within: Callable[[Train], bool] | None = None,
    lead_of: Callable[[Train], Fraction] | None = None,
) -> tuple[list[str], list[list[str]]]:
    """Return headings and a row a train: the train, its value, how far out it is, what room it leaves.

    target     the value asked
    is_within  whether a train is near enough, where that was asked
    lead_of    the lead that a train cuts, in mm, where a lead was asked
    """
    has_studs = any(train.clearances for train in trains)
    headings = ["train", "value", "error"]
    headings += ["within"] if is_within else []
    headings += ["lead, mm", "lead, in"] if lead_of else []
    headings += ["room, teeth"] if has_studs else []
    rows = []
    for train in trains:
        row = [train_text(train), str(train.value), error_text(train, target)]
        row += ["yes" if is_within(train) else "no"] if is_within else []
        row += [decimal(lead_of(train), 4), decimal(lead_of(train) / INCH, 5)] if lead_of else []
        row += [str(min(train.clearances, default="")) if train.clearances else ""] if has_studs else []
        rows.append(row)
    return headings, rows


def error_text(train: Train, target: Fraction) -> str:
    """Return how far a train's value is from the target, as a part of the target: exact, +12.3 ppm."""
    if train.value == target:
        return "exact"
    return f"{parts_in_a_million((train.value - target) / target)} ppm"


def parts_in_a_million(part: Fraction) -> str:
    """Return a small part as parts in a million with its sign: four figures, and never 0."""
    millionths = part * 10**6
    text = decimal(millionths, next((count for count in range(9) if abs(millionths) * 10**count >= 1000), 9))
    sign = "" if millionths < 0 else "+"
    return f"{sign}{text}" if text.strip("-0.") else f"{'-' if millionths < 0 else '+'}under 0.000000001"


def proof_text(trains: Sequence[Train], target: Fraction, sizes: Sequence[int], mounted: bool) -> str:
    """Return what the search has proved of the first train."""
    which = f"of {' or '.join(map(str, sizes))} of these gears{' that can be mounted' if mounted else ''}"
    if trains[0].value == target:
        return f"Of all exact trains {which} the first has the fewest gears, and of those the fewest teeth."
    return f"No train {which} comes nearer than the first."


def dropped_text(train: Train, reasons: Sequence[str]) -> str:
    """Return why a train was dropped."""
    return f"dropped: {train_text(train)} = {train.value}: {'; '.join(reasons)}"


def refusal_text(trains: Sequence[Train], target: Fraction, within: Fraction | None) -> str:
    """Return why the answer is no, with the nearest train, and what gears would do it."""
    if not trains:
        return "no train of these gears can be mounted"
    best = trains[0]
    allowed = within or Fraction(0)
    near = f"within {parts_in_a_million(allowed / target).lstrip('+')} ppm" if allowed else "exactly"
    text = f"no train makes {as_text(target)} {near}; the nearest is {train_text(best)}, {error_text(best, target)} out"
    simplest = simplest_between(target - allowed, target + allowed) if allowed < target else target
    return f"{text}; the simplest ratio that would do is {simplest.numerator}/{simplest.denominator}"
