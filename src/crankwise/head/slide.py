"""The slide of a mill or a planer: how far one turn of its screw takes the work along, and how far it goes."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from crankwise.errors import Fault, FaultsFound
from crankwise.exact.length import STRAIGHT_MM
from crankwise.exact.number import as_text

LEAST_LEAD_MM, MOST_LEAD_MM = Fraction(1, 100), Fraction(100)
"""What a lead is believed to be: from a fine micrometer's thread tenfold to a planer's; judgement."""
LEAST_TRAVEL_MM, MOST_TRAVEL_MM = Fraction(1), Fraction(50_000)
"""What a travel is believed to be: from a micrometer stage to the longest planer; judgement."""


@dataclass(frozen=True, slots=True)
class Slide:
    """A slide with its leadscrew.

    lead_mm    travel of the slide for one turn of the screw, 0.01 to 100 mm
    travel_mm  how far it goes from end to end, 1 mm to 50 m; None where nobody has told

    Raises FaultsFound.
    """

    lead_mm: Fraction
    travel_mm: Fraction | None = None

    def __post_init__(self) -> None:
        if faults := list(self._faults()):
            raise FaultsFound(faults)

    def _faults(self) -> Iterator[Fault]:
        if not LEAST_LEAD_MM <= self.lead_mm <= MOST_LEAD_MM:
            told = f"{as_text(self.lead_mm)} mm; a lead is from 0.01 to 100 mm, as 5mm, 1/10in or 0.1in"
            yield Fault("lead", told)
        if self.travel_mm is not None and not LEAST_TRAVEL_MM <= self.travel_mm <= MOST_TRAVEL_MM:
            told = f"{as_text(self.travel_mm)} mm; a slide travels from 1 mm to 50 m, as 400mm or 16in"
            yield Fault("travel", told)

    @property
    def ratio(self) -> Fraction:
        """Turns of the screw for the whole way round of the wheel that a slide is reckoned as."""
        return STRAIGHT_MM / self.lead_mm
