"""Places along a slide, by the dial of its leadscrew: the settings of a rack, or of the two slides of a mill.

The same rules as for a crank: a setting counts from the start, in whole turns and what the dial then shows,
rounded once to what can be read, so that no error is handed on to the next place.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from crankwise.errors import Fault, FaultsFound
from crankwise.exact.number import as_text
from crankwise.exact.places import nearest_place
from crankwise.head.dial import Dial


@dataclass(frozen=True, slots=True)
class Leadscrew:
    """The screw of a slide, with its dial.

    lead_mm  travel of the slide for one turn of the screw, above 0
    dial     its dial

    Raises FaultsFound.
    """

    lead_mm: Fraction
    dial: Dial

    def __post_init__(self) -> None:
        if self.lead_mm <= 0:
            raise FaultsFound(
                [
                    Fault(
                        "leadscrew", f"{as_text(self.lead_mm)} mm; a lead is above 0, as 5mm, 1/10in or 0.1in"
                    )
                ]
            )


@dataclass(frozen=True, slots=True)
class SlideSetting:
    """Where to stop the slide.

    position   the number of the place, from 0
    target_mm  where it should be, from the start
    turns      whole turns of the screw from the start; below 0 where the slide has to go back past it
    reading    what the dial shows then, in marks, from 0 to below all of them
    error_mm   achieved minus target
    """

    position: int
    target_mm: Fraction
    turns: int
    reading: Fraction
    error_mm: Fraction


def slide_setting(screw: Leadscrew, target_mm: Fraction, position: int = 0) -> SlideSetting:
    """Return the setting nearest to a place, counted from the start.

    The slide is at most half a readable place out. Source: derived; as `nearest_place`.

    >>> slide_setting(Leadscrew(Fraction(5), Dial(100)), Fraction(12)).reading
    Fraction(40, 1)
    """
    places = screw.dial.places
    place = nearest_place(target_mm, places / screw.lead_mm)
    turns, rest = divmod(place, places)
    achieved = Fraction(place) * screw.lead_mm / places
    return SlideSetting(
        position, target_mm, turns, Fraction(rest, screw.dial.places_per_mark), achieved - target_mm
    )


def slide_settings(screw: Leadscrew, targets_mm: Iterable[Fraction]) -> Iterator[SlideSetting]:
    """Yield the setting of each place, numbered from 0."""
    for position, target in enumerate(targets_mm):
        yield slide_setting(screw, target, position)
