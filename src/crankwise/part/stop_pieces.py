"""The set of stop pieces that give the lengths of the lines, as thicknesses to make.

The tool starts each stroke at the same place, past the reading edge, and runs on to a fixed stop. With
nothing between, it cuts the longest line; a piece dropped in takes its own thickness off the length.
Source: common practice.
"""

from dataclasses import dataclass
from fractions import Fraction

from crankwise.part.line_classes import LineClass, LineClasses


@dataclass(frozen=True, slots=True)
class StopPiece:
    """One class of line and the piece for it: thickness 0 is none, the bare stop."""

    line_class: LineClass
    thickness_mm: Fraction


def stop_pieces(classes: LineClasses) -> tuple[StopPiece, ...]:
    """Return the piece of each class, the thickest first, the longest lines on the bare stop last.

    Source: derived; longest length less the class's own.
    """
    longest = classes.longest.length_mm
    return tuple(StopPiece(one, longest - one.length_mm) for one in classes.classes)
