"""A measured part in words: its deviations, the class, what they point to."""

from fractions import Fraction
from typing import Protocol

from crankwise.accuracy.bounds import Bounds
from crankwise.accuracy.inspection import Cause, Inspected, Sizes
from crankwise.accuracy.tolerance import STANDARDS, Reached
from crankwise.wording.figures import decimal
from crankwise.wording.measure import cause_text


class Shown(Protocol):
    """What is told of a part."""

    @property
    def part(self) -> Inspected | None:
        """Its deviations."""

    @property
    def sizes(self) -> Sizes | None:
        """Its sizes, where those were measured."""

    @property
    def diameter_mm(self) -> float | None:
        """The circle that chords close on."""

    @property
    def reached(self) -> Reached | None:
        """The classes, of a gear."""

    @property
    def outside(self) -> tuple[str, ...]:
        """What lies outside the standard."""

    @property
    def causes(self) -> tuple[Cause, ...]:
        """What the deviations point to."""


def inspection_lines(found: Shown) -> list[str]:
    """Return what was measured and what it says, a line each."""
    lines = []
    if found.sizes:
        lines.append(f"Mean {_mm(found.sizes.mean)}, from least to greatest {_mm(found.sizes.spread)}.")
        if found.sizes.off is not None:
            more = "more" if found.sizes.off > 0 else "less"
            lines.append(f"That is {_mm(abs(found.sizes.off))} {more} than wanted.")
    if part := found.part:
        lines.append(f"{len(part.single)} pitches: the largest deviation of one is {_um(part.single_pitch)}.")
        lines.append(
            f"The cumulative curve is {_um(part.cumulative_pitch)} high; neighbours differ by "
            f"{_um(part.adjacent_pitch)} at most."
        )
        if found.diameter_mm is not None:
            lines.append(f"The chords close on a circle of {_mm(Fraction(found.diameter_mm))}.")
        if reached := found.reached:
            grade = "rougher than the roughest class" if reached.gear is None else f"class {reached.gear}"
            lines.append(f"By {STANDARDS['iso-2013'].name}: {grade} ({STANDARDS['iso-2013'].source}).")
        lines += [f"Beware: {sentence}." for sentence in found.outside]
        lines += [f"It points to: {cause_text(cause)}." for cause in found.causes]
        if not found.causes:
            lines.append(
                "It points to no single cause: what is left is as chance makes it, or the positions are few."
            )
    return lines


def _mm(value: Fraction) -> str:
    return f"{decimal(value, 3)} mm"


def _um(value: float) -> str:
    return f"{decimal(Fraction(value), 1)} µm"


def compared_lines(part: Inspected, predicted: Bounds) -> list[str]:
    """Return the measured part beside its prediction, a line each, and what to make of it."""
    lines = []
    over = []
    for what, measured, bound in (
        ("single pitch", part.single_pitch, predicted.single),
        ("cumulative", part.cumulative_pitch, predicted.cumulative),
    ):
        kept = measured <= bound
        over += [] if kept else [what]
        told = "within" if kept else "beyond"
        lines.append(f"{what}: {_um(measured)} measured, {_um(bound)} predicted: {told} the prediction.")
    if over:
        lines.append(
            "One part in twenty goes beyond its prediction by chance alone; look at the cause above, and measure "
            "what the budget only took to be typical."
        )
    elif part.cumulative_pitch < predicted.cumulative / 3:
        lines.append(
            "Much better than predicted: some typical size was too cautious, and measuring brings it down."
        )
    return [line[0].upper() + line[1:] for line in lines]


MEASURED = {
    "pitch_um": "each pitch against the first, µm",
    "chord_mm": "distance of each hole to the next, mm",
    "position_deg": "angle of each position, degrees",
    "size_mm": "a size at several places (over pins, across teeth, a thickness), mm",
}
"""What can be measured of a part, by the name of its column."""


def measured_text(kind: str) -> str:
    """Return what was measured, without its unit: the distance of each hole to the next."""
    return MEASURED[kind].rpartition(",")[0]
