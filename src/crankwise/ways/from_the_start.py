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
    # Targets rise, so that the first beyond the start is the nearest to it.
    position, target = next((row for row in divisions.targets() if row[1]), (0, Fraction(0)))
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
        *_head_steps(scale, place),
        Step(
            f"error of position {position}",
            f"({as_text(Fraction(place, per_line))} - {as_text(in_lines)}) / ({as_text(scale.ratio)} x {lines})"
            + (f" + {as_text(scale.head_error(place))}" if scale.key else ""),
            scale.achieved(place) - target,
            "angle",
        ),
        *_bound_steps(scale),
        Step("worst position of these", f"{as_text(worst * scale.all_round)} of a place", worst, "angle"),
        Step("check: a full circle", f"{as_text(scale.ratio)} x {lines}", scale.ratio * lines, unit),
    )


def _head_steps(scale: Scale, place: int) -> tuple[Step, ...]:
    """What the head itself is out by there, where it was measured and is corrected for."""
    if not scale.key:
        return ()
    error = scale.head_error(place)
    return (Step("what the head is out by there, as measured", f"{as_text(error)} turn", error, "angle"),)


def _bound_steps(scale: Scale) -> tuple[Step, ...]:
    """No such bound stands where the places are not quite evenly apart."""
    if scale.key:
        return ()
    return (
        Step(
            "bound for any position: half of the least that can be set",
            f"1 / (2 x {as_text(scale.ratio)} x {scale.places})",
            1 / (2 * scale.all_round),
            "angle",
        ),
    )
