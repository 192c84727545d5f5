"""The part: its divisions, its rim, and the kind of work done at each position."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, get_args

from crankwise.exact.length import along, rim_length
from crankwise.part.divisions import Divisions

Work = Literal["space", "line", "hole", "flat", "position"]
"""What is made at each position; "position" where it has not been said."""

WORKS: tuple[Work, ...] = get_args(Work)


@dataclass(frozen=True, slots=True)
class Mark:
    """What to do at one position, beyond the cut itself.

    line_class  which class of line: short, middle, long; empty for work that is no line
    numeral     figures to stamp or engrave there
    note        anything else the operator must know there
    """

    line_class: str = ""
    numeral: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Part:
    """What is to be made.

    divisions  the positions
    rim_mm     diameter at which errors are told as lengths, in millimetres; None if not asked
    work       what is made at each position
    marks      one for each position worked, in order; empty where there is nothing to tell apart
    is_geared  whether change gears turn the work while it is cut, as a helical gear: its spindle is never locked
    """

    divisions: Divisions
    rim_mm: Fraction | None = None
    work: Work = "position"
    marks: tuple[Mark, ...] = ()
    is_geared: bool = False

    @property
    def is_straight(self) -> bool:
        """Whether its positions lie along a line: it has no rim, and everything at it is a length."""
        return self.divisions.is_straight

    def length_of(self, turns: Fraction) -> Fraction | None:
        """Return how long an error is at the work, in mm: along the slide, or at the rim; None without a rim."""
        if self.is_straight:
            return along(turns)
        return None if self.rim_mm is None else rim_length(turns, self.rim_mm)
