"""The part: its divisions, its rim, and the kind of work done at each position."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, get_args

from crankwise.part.divisions import Divisions

Work = Literal["space", "line", "hole", "flat", "position"]
"""What is made at each position; "position" where it has not been said."""

WORKS: tuple[Work, ...] = get_args(Work)


@dataclass(frozen=True, slots=True)
class Part:
    """What is to be made.

    divisions  the positions
    rim_mm     diameter at which errors are told as lengths, in millimetres; None if not asked
    work       what is made at each position
    """

    divisions: Divisions
    rim_mm: Fraction | None = None
    work: Work = "position"
