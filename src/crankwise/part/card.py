"""Cards to work from: what to prepare before the first cut, and what to measure after the last.

A card is values, not sentences: the words, the units shown and the rounding are `wording`'s.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

Quantity = Fraction | float
"""An exact value where there is one; a float where it comes from the geometry of a flank or a root."""

Unit = Literal["mm", "turn", "count", "text"]


@dataclass(frozen=True, slots=True)
class ToothSize:
    """What of a gear's teeth a line of a measuring card measures.

    kind    span over some teeth; pins, over two of them in opposite spaces; chord of one tooth
    teeth   of a span, how many it covers
    pin_mm  of a measurement over pins or balls, the diameter of one
    """

    kind: Literal["span", "pins", "chord"]
    teeth: int = 0
    pin_mm: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class CardLine:
    """One line of a card.

    what       what it is, in the trade's words: "outside diameter"
    value      the value in `unit`; None for a line that is only words
    unit       mm, turn (an angle), count (a bare number), or text
    low, high  limits of the value in the same unit; None where there are none
    using      what it is made or measured with: "micrometer over 15 teeth"
    note       why, or what to do if it is off
    set_in     the runs of the part, from 1, for which this is set on the machine: it stands at the head of their sheets
    measures   of a size from which a tooth's thickness follows, how it is taken; None for all else
    """

    what: str
    value: Quantity | None = None
    unit: Unit = "text"
    low: Quantity | None = None
    high: Quantity | None = None
    using: str = ""
    note: str = ""
    set_in: tuple[int, ...] = ()
    measures: ToothSize | None = None


@dataclass(frozen=True, slots=True)
class Card:
    """A preparation card or a measuring card.

    title  what it is for
    lines  in the order of work
    """

    title: str
    lines: tuple[CardLine, ...]
