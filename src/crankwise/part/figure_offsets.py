"""How far to turn the spindle on from a line for each figure of its numeral.

The shanks of stamps are wider than the figures, so the figures of one numeral are stamped one by one under
one guide: the spindle is turned on or back from the line, never the stamp moved. Source: common practice.
"""

from crankwise.part.graduated import Graduated, Line
from crankwise.part.scale_direction import ScaleDirection


def figure_offsets(
    work: Graduated, direction: ScaleDirection, is_turned_round: bool, line: Line
) -> tuple[float, ...]:
    """Return the offset of each figure in turns, above 0 the way the positions rise.

    direction        which way the numbers run
    is_turned_round  whether the positions are met against the numbers

    Empty where there is one figure, and for numerals that do not stand upright, whose figures are not side by
    side round the work. Floats, good to 1e-12 turn.
    """
    numerals = work.numerals
    if numerals is None or len(line.numeral) < 2 or numerals.stand != "upright":
        return ()
    circle = work.surface.circle_mm(work.middle_mm)
    sign = 1 if _reads_with_the_positions(work, direction, is_turned_round) else -1
    return tuple(sign * float(middle) / circle for middle in numerals.lettering.figure_middles(line.numeral))


def _reads_with_the_positions(work: Graduated, direction: ScaleDirection, is_turned_round: bool) -> bool:
    """Whether a numeral's reader, its feet towards them, sees the positions rise to the right.

    With the feet to the axis a numeral at the top of a ring stands upright, and its right is clockwise. On a
    drum the same holds with the feet to the end that is looked at, which is where the reading edge is.
    """
    numerals, surface = work.numerals, work.surface
    feet_out = numerals is not None and numerals.feet_out
    is_behind = numerals is not None and numerals.behind
    if surface.kind == "drum":
        right_is_clockwise = feet_out == is_behind
    else:
        right_is_clockwise = feet_out == work.numerals_lie_inward
    rises_clockwise = (direction.numbers_run == "clockwise") != is_turned_round
    return right_is_clockwise == rises_clockwise
