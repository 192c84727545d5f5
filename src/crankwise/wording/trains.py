"""Trains of change gears in words: which gear stands where, and which way the plate turns."""

from crankwise.head.train import Train
from crankwise.ways.differential import Differential


def plate_text(way: Differential) -> str:
    """Return how the plate is geared: plate against the crank, 56 on the spindle to 24 on the plate's shaft, ..."""
    direction = "with" if way.wanted > 0 else "against"
    return f"plate {direction} the crank: {places_text(way.train)}, {idlers_text(way.idlers)}"


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
