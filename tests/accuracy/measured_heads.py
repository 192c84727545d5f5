"""A head with errors that are known to the test alone, and readings of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import cos, pi
from random import Random

from crankwise.accuracy.harmonics import Reading

WAVES = (("wheel", 1, 80.0, 0.1), ("wheel", 2, 12.0, 0.16), ("worm", 1, 20.0, 0.32), ("worm", 2, 5.0, 0.25))


@dataclass(frozen=True)
class HiddenHead:
    """Waves of (of, order, amplitude in seconds, phase in turns), and crank turns for one of the spindle."""

    ratio: Fraction = Fraction(72)
    waves: Sequence[tuple[str, int, float, float]] = WAVES

    def error(self, place: Fraction) -> float:
        total = 0.0
        for of, order, amplitude, phase in self.waves:
            turns = place * order * (self.ratio if of == "worm" else 1)
            total += amplitude * cos(2 * pi * (float(turns % 1) - phase))
        return total

    def measured(
        self, places: Sequence[Fraction], sigma: float, seed: int, back: float | None = None
    ) -> list[Reading]:
        """Readings there, and back again where a backlash is given, each with a normal chance of its own."""
        chance = Random(seed)
        runs = [(place, False) for place in places]
        runs += [(place, True) for place in reversed(places)] if back is not None else []
        return [
            Reading(
                number,
                place,
                self.error(place) - self.error(Fraction(0)) + chance.gauss(0, sigma) + (back or 0) * turned,
                None,
                turned,
            )
            for number, (place, turned) in enumerate(runs, 2)
        ]

    def stepped(
        self, starts: Sequence[Sequence[Fraction]], gauge: float, sigma: float, seed: int
    ) -> list[Reading]:
        """Gauge readings of rounds of closure, each from its starts on."""
        chance = Random(seed)
        found: list[Reading] = []
        for one in starts:
            for begun, end in zip(one, [*one[1:], one[0] + 1], strict=True):
                error = self.error(end) - self.error(begun) - gauge + chance.gauss(0, sigma)
                found.append(Reading(len(found) + 2, end, error, begun))
        return found
