"""The working shared by all ways that set each position to the nearest place from the start."""

from fractions import Fraction

from crankwise.exact.number import as_text
from crankwise.part.divisions import Divisions, EqualDivisions
from crankwise.ways.scale import Scale
from crankwise.ways.way import Step


def working_from_the_start(
    scale: Scale, divisions: Divisions, worst: Fraction, unit: str, per_line: int
) -> tuple[Step, ...]:
    """Return the working, step by step.

    scale     the scale that is set
    worst     the largest error, in turns of the spindle
    unit      what its lines are called: marks, holes, graduations
    per_line  places that can be told apart from one line to the next
    """
    lines = scale.places // per_line
    position, target = min(
        ((number, target) for number, target in divisions.targets() if target),
        default=(0, Fraction(0)),
        key=lambda row: row[1],
    )
    in_lines = target * scale.ratio * lines
    place = scale.nearest(target)
    if isinstance(divisions, EqualDivisions):
        one_part = f"{as_text(scale.ratio)} x {lines} / {divisions.count}"
        if divisions.every != 1:
            one_part += f" x {divisions.every}"
        rows = [
            Step(
                "one move, from one position to the next",
                one_part,
                divisions.step * scale.ratio * lines,
                unit,
            )
        ]
    else:
        rows = []
    return (
        *rows,
        Step(
            f"position {position}, counted from the start",
            f"{as_text(target)} x {as_text(scale.ratio)} x {lines}",
            in_lines,
            unit,
        ),
        Step(
            f"the nearest that can be set, to 1/{per_line}"
            if per_line > 1
            else "the nearest that can be set",
            f"{place} / {per_line}",
            Fraction(place, per_line),
            unit,
        ),
        Step(
            f"error of position {position}",
            f"({as_text(Fraction(place, per_line))} - {as_text(in_lines)}) / ({as_text(scale.ratio)} x {lines})",
            scale.achieved(place) - target,
            "angle",
        ),
        Step(
            "bound for any position: half of the least that can be set",
            f"1 / (2 x {as_text(scale.ratio)} x {scale.places})",
            1 / (2 * scale.all_round),
            "angle",
        ),
        Step("worst position of these", f"{as_text(worst * scale.all_round)} of a place", worst, "angle"),
        Step("check: a full circle", f"{as_text(scale.ratio)} x {lines}", scale.ratio * lines, unit),
    )
