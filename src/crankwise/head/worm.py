"""The worm and its wheel: how many turns of the crank make one turn of the spindle."""

from dataclasses import dataclass
from fractions import Fraction

from crankwise.errors import Fault, FaultsFound
from crankwise.exact.number import as_text
from crankwise.head.rules import MOST, Growth, count_fault

USUAL_RATIOS = (5, 30, 40, 60, 72, 80, 90, 120, 180, 360)
"""Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Worm:
    """A worm drive.

    ratio        crank turns for one turn of the spindle, exact, above 0
    wheel_teeth  teeth of the worm wheel, where the ratio comes from them
    starts       starts of the worm; a two-start worm halves the ratio
    clockwise    what a clockwise turn of the crank does to the ring's reading
    """

    ratio: Fraction
    wheel_teeth: int | None = None
    starts: int = 1
    clockwise: Growth = "increases"

    def __post_init__(self) -> None:
        if not 0 < self.ratio <= MOST:
            raise FaultsFound(
                [
                    Fault(
                        "ratio",
                        f"{as_text(self.ratio)}; a ratio is above 0 and at most {MOST:,}, as 40 or 45/2",
                    )
                ]
            )
        if self.wheel_teeth is not None and self.ratio * self.starts != self.wheel_teeth:
            starts = f"{self.starts} start{'' if self.starts == 1 else 's'}"
            made = as_text(Fraction(self.wheel_teeth, self.starts))
            raise FaultsFound(
                [
                    Fault(
                        "ratio",
                        f"{as_text(self.ratio)}; a wheel of {self.wheel_teeth} teeth and a worm of {starts} "
                        f"make {made}",
                    )
                ]
            )


def worm_from_teeth(wheel_teeth: int, starts: int = 1, clockwise: Growth = "increases") -> Worm:
    """Return the worm drive with this wheel and worm; its ratio is wheel_teeth / starts.

    Raises FaultsFound when a count is below 1. Source: one turn of the worm moves the wheel on by
    as many teeth as the worm has starts; common practice.
    """
    faults = count_fault("wheel_teeth", wheel_teeth, 1, "a worm wheel has")
    faults += count_fault("starts", starts, 1, "a worm has", "start")
    if faults:
        raise FaultsFound(faults)
    return Worm(Fraction(wheel_teeth, starts), wheel_teeth, starts, clockwise)
