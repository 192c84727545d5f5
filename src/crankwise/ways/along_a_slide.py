"""The working of a slide's dial: lengths and marks, as it would be written beside the machine."""

from fractions import Fraction

from crankwise.exact.length import along
from crankwise.exact.number import as_text
from crankwise.head.dial import Dial
from crankwise.head.slide import Slide
from crankwise.part.divisions import EqualSteps
from crankwise.ways.scale import Scale
from crankwise.ways.way import Step

DECIMALS = 10
"""Of a pitch in the working, which may hold pi to fifty; its value beside it loses nothing."""


def working_along(
    slide: Slide, dial: Dial, scale: Scale, steps: EqualSteps, worst: Fraction
) -> tuple[Step, ...]:
    """Return the working, step by step: one step, the last position from the start, its error, the bound.

    worst  the largest error of any position, in turns of the wheel that the slide is reckoned as
    """
    lead, marks, per_mark = as_text(slide.lead_mm), dial.marks, dial.places_per_mark
    last = steps.count - 1
    in_marks = steps.step_mm * dial.marks / slide.lead_mm
    place = scale.nearest(steps.last_target)
    set_to = Fraction(place, per_mark)
    turns = place // dial.places
    worth = slide.lead_mm / dial.marks
    return (
        Step("a mark is worth", f"{lead} / {marks}", worth, "mm"),
        Step("one step", f"{_length(steps.step_mm)} / {as_text(worth)}", in_marks, "marks"),
        Step(
            f"position {last}, counted from the start",
            f"{last} x {_length(steps.step_mm)} / {as_text(worth)}",
            in_marks * last,
            "marks",
        ),
        Step(
            f"the nearest that can be set, to 1/{per_mark}"
            if per_mark > 1
            else "the nearest that can be set",
            f"{place} / {per_mark}",
            set_to,
            "marks",
        ),
        Step(
            "whole turns in that",
            f"{as_text(set_to)} / {marks}, rounded down",
            Fraction(turns),
            "turns",
        ),
        Step("and on the dial", f"{as_text(set_to)} - {turns} x {marks}", set_to - turns * marks, "marks"),
        Step(
            f"error of position {last}",
            f"({as_text(set_to)} - {_length(in_marks * last)}) x {as_text(worth)}",
            along(scale.achieved(place) - steps.last_target),
            "mm",
        ),
        Step(
            "bound for any position: half of the least that can be set",
            f"{lead} / (2 x {marks} x {per_mark})",
            slide.lead_mm / (2 * dial.places),
            "mm",
        ),
        Step("worst position of these", "the largest of them all, either way", along(worst), "mm"),
    )


def _length(value: Fraction) -> str:
    """A length or a count in full where it is short, else to ten decimals, cut off."""
    text = as_text(value)
    if "/" not in text and len(text) <= DECIMALS + 4:
        return text
    whole, part = divmod(int(value * 10**DECIMALS), 10**DECIMALS)
    return f"{whole}.{part:0{DECIMALS}d}"
