"""Closure: one fixed angle, stepped round the circle, calibrates itself, since all steps make one turn.

A gauge reading of a step is the step's error less the gauge's own error. Over one round the errors of all
steps come to nothing, so the mean reading is minus the gauge's error, and nothing else need be known.
Source: Uncertainty analysis for angle calibrations using circle closure, J. Res. NIST 103 (1998) no. 2;
the sum is derived: readings r = s - g with the sum of s zero give g = -mean r.
"""

from collections.abc import Sequence
from fractions import Fraction
from itertools import accumulate
from typing import NamedTuple

from crankwise.errors import BadAngle

LEAST_STEPS = 2


class Step(NamedTuple):
    """One step of the round.

    error       how much longer than it should be, in seconds of arc
    cumulative  how far on its end stands, in seconds of arc; the last comes back to 0
    """

    error: Fraction
    cumulative: Fraction


class Closed(NamedTuple):
    """A round that closes.

    gauge  how much larger than one step the gauge's angle is, in seconds of arc
    steps  in order
    """

    gauge: Fraction
    steps: tuple[Step, ...]

    @property
    def height(self) -> Fraction:
        """The greatest less the least cumulative error, in seconds of arc."""
        ends = [step.cumulative for step in self.steps]
        return max(ends) - min(ends)


def close(readings: Sequence[Fraction]) -> Closed:
    """Return the error of each step and of the gauge from one round of gauge readings, exactly.

    readings  one a step, in order, in seconds of arc; one full round, 2 or more
    Raises BadAngle when there are fewer.
    """
    if len(readings) < LEAST_STEPS:
        raise BadAngle("closure", f"{len(readings)} step; a round has {LEAST_STEPS} or more")
    mean = Fraction(sum(readings), len(readings))
    errors = [reading - mean for reading in readings]
    return Closed(-mean, tuple(map(Step, errors, accumulate(errors))))
