"""The slide of a mill or a planer: how far one turn of its screw takes the work along."""

from dataclasses import dataclass
from fractions import Fraction

from crankwise.errors import Fault, FaultsFound
from crankwise.exact.length import STRAIGHT_MM
from crankwise.exact.number import as_text

LEAST_LEAD_MM, MOST_LEAD_MM = Fraction(1, 100), Fraction(100)
"""What a lead is believed to be: from a fine micrometer's thread tenfold to a planer's; judgement."""


@dataclass(frozen=True, slots=True)
class Slide:
    """A slide with its leadscrew.

    lead_mm  travel of the slide for one turn of the screw, 0.01 to 100 mm

    Raises FaultsFound.
    """

    lead_mm: Fraction

    def __post_init__(self) -> None:
        if not LEAST_LEAD_MM <= self.lead_mm <= MOST_LEAD_MM:
            raise FaultsFound(
                [
                    Fault(
                        "lead",
                        f"{as_text(self.lead_mm)} mm; a lead is from 0.01 to 100 mm, as 5mm, 1/10in or 0.1in",
                    )
                ]
            )

    @property
    def ratio(self) -> Fraction:
        """Turns of the screw for the whole way round of the wheel that a slide is reckoned as."""
        return STRAIGHT_MM / self.lead_mm
