"""How far off centre something runs, and which way, from indicator readings round it; and the cure.

The indicator rises where the surface stands out. Turned on its axis, work whose centre is off by e in the
direction p reads, at the angle a of the work under the indicator,

    middle + e cos(a - p)

to a second order, e^2 / 4R of a radius R, that no shop sees. Least squares over three readings or more.
Source: derived, from a circle off centre; common practice.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import atan2, cos, hypot, pi, sin, sqrt
from typing import NamedTuple

from crankwise.accuracy.chances import t_limit
from crankwise.accuracy.least_squares import Indistinct, Solved, least_squares
from crankwise.errors import BadNumber
from crankwise.exact.angle import ARCSECONDS

USUAL_SCREWS = (Fraction(0), Fraction(1, 4), Fraction(1, 2), Fraction(3, 4))
MOST_READINGS = 10_000
OUT_OF_ROUND = 3
"""Times what the readings can tell, from where what is left is said to be the shape of the surface."""

CONTRADICTING = 10
"""Times the same, from where readings that show no offset are said to contradict one another. Judgement."""


class Indicated(NamedTuple):
    """One reading: the work's angle under the indicator, in turns, and what it shows, in millimetres."""

    angle: Fraction
    shown: Fraction


class Screw(NamedTuple):
    """One jaw or screw: where it stands, in turns, and how far it goes in, in millimetres; below 0 it comes back."""

    angle: Fraction
    inward: float


@dataclass(frozen=True)
class OffCentre:
    """Where the centre stands.

    offset       how far off, in millimetres: half of what the indicator swings
    direction    which way, in turns: where the surface stands out most
    uncertainty  standard uncertainty of the offset, in millimetres
    direction_uncertainty  of the direction, in turns; None where the offset does not stand out of it
    middle       of the readings, in millimetres
    residual     what is left when the once per turn is taken out: a standard deviation, in millimetres;
                 None with three readings, which leave nothing over
    resolution   the smallest step of the readings, in millimetres
    freedom      readings beyond the three unknowns
    """

    offset: float
    direction: float
    uncertainty: float
    direction_uncertainty: float | None
    middle: float
    residual: float | None
    resolution: Fraction
    freedom: int

    @property
    def bound(self) -> float:
        """The offset is known to either side so closely, 19 times in 20, in millimetres."""
        return self.uncertainty * (t_limit(self.freedom) if self._from_scatter else 1.959963984540054)

    @property
    def _from_scatter(self) -> bool:
        return self.residual is not None and self.residual > self._from_resolution

    @property
    def _from_resolution(self) -> float:
        return float(self.resolution) / sqrt(12)

    @property
    def is_seen(self) -> bool:
        """Whether the readings show any offset at all."""
        return self.offset > self.bound

    @property
    def is_out_of_round(self) -> bool:
        """Whether more is left than the readings' own steps make: the surface is not round, or chatter or dirt."""
        return (
            self.residual is not None
            and self.freedom >= 2
            and self.residual > OUT_OF_ROUND * self._from_resolution
            and self.residual > self.offset / 20
        )

    @property
    def contradicts_itself(self) -> bool:
        """Whether no offset is seen for all that is left over, though that is far more than the readings' steps."""
        return (
            not self.is_seen
            and self.residual is not None
            and self.residual > CONTRADICTING * self._from_resolution
        )

    def screws(self, angles: Sequence[Fraction] = USUAL_SCREWS) -> tuple[Screw, ...]:
        """Return how far each jaw or screw goes in, so that the work comes to the centre.

        angles  where they stand on the work, in turns
        Source: derived; the offset's part along each screw.
        """
        return tuple(
            Screw(angle, self.offset * cos(2 * pi * (float(angle) - self.direction))) for angle in angles
        )

    def scale_error(self, diameter_mm: Fraction) -> float:
        """Return how far out a scale of this diameter reads at most for it, either way, in seconds of arc.

        Source: derived; e / R, once per turn.
        """
        return 2 * self.offset / float(diameter_mm) / (2 * pi) * ARCSECONDS


def off_centre(readings: Sequence[Indicated], resolution: Fraction) -> OffCentre:
    """Return where the centre stands.

    readings    3 or more, at different angles spread round it
    resolution  the smallest step of the indicator, in millimetres, 0 or more

    Raises BadNumber when they cannot tell.
    """
    places = sorted({reading.angle % 1 for reading in readings})
    if len(places) < 3:
        raise BadNumber(
            "readings",
            f"at {len(places)} different angle{'' if len(places) == 1 else 's'}; "
            "3 at least, spread round, as 0:0.00,120:0.03,240:0.05",
        )
    if len(readings) > MOST_READINGS:
        raise BadNumber("readings", f"{len(readings):,}; at most {MOST_READINGS:,}")
    gap = max(
        (after - before) % 1 or 1 for before, after in zip(places, (*places[1:], places[0]), strict=True)
    )
    if 4 * gap > 3:
        raise BadNumber(
            "readings",
            f"all within {float((1 - gap) * 360):.4g} degrees; spread them round, or the middle and the "
            "offset cannot be told apart",
        )
    angles = [2 * pi * float(reading.angle % 1) for reading in readings]
    columns = [[1.0] * len(angles), [cos(angle) for angle in angles], [sin(angle) for angle in angles]]
    try:
        solved = least_squares(columns, [float(reading.shown) for reading in readings])
    except Indistinct:
        raise BadNumber(
            "readings", "at these angles the middle and the offset cannot be told apart"
        ) from None
    return _found(solved, resolution)


def _found(solved: Solved, resolution: Fraction) -> OffCentre:
    middle, cosine, sine = solved.values
    offset = hypot(cosine, sine)
    residual = solved.scatter if solved.freedom else None
    one = max(residual or 0.0, float(resolution) / sqrt(12))
    c, s = (cosine / offset, sine / offset) if offset else (sqrt(0.5), sqrt(0.5))
    inverse = solved.inverse

    def along(x: float, y: float) -> float:
        variance = x * x * inverse[1][1] + y * y * inverse[2][2] + 2 * x * y * inverse[1][2]
        return one * sqrt(max(variance, 0.0))

    across = along(-s, c)
    sure = across / offset / (2 * pi) if offset > 2 * across else None
    return OffCentre(
        offset,
        atan2(sine, cosine) / (2 * pi) % 1,
        along(c, s),
        sure,
        middle,
        residual,
        resolution,
        solved.freedom,
    )


class Pointed(NamedTuple):
    """One setting read at two pointers half a turn apart: both readings, in turns."""

    first: Fraction
    second: Fraction


class TwoPointers(NamedTuple):
    """What two opposite pointers tell.

    means    the setting as both together say it, in turns: free of the scale's being off centre
    swing    half the difference, in seconds of arc, once per turn: what one pointer alone is out by
    """

    means: tuple[Fraction, ...]
    swing: tuple[Fraction, ...]


def two_pointers(rows: Sequence[Pointed]) -> TwoPointers:
    """Return the settings free of the scale's eccentricity, exactly, and what one pointer alone is out by.

    rows  the second reading is about half a turn on from the first

    Off centre by e the first reads a + (e/R) sin, the second a + 1/2 - (e/R) sin: their mean is free of e.
    The pointers' own angle, when it is not quite half a turn, is in all means alike and in no division.
    Source: derived; common practice with two verniers or two microscopes.
    """
    halves = [(row.second - row.first) % 1 - Fraction(1, 2) for row in rows]
    means = tuple(row.first + half / 2 for row, half in zip(rows, halves, strict=True))
    return TwoPointers(means, tuple(-half / 2 * ARCSECONDS for half in halves))


def pointed_off_centre(rows: Sequence[Pointed], diameter_mm: Fraction, resolution: Fraction) -> OffCentre:
    """Return where the centre of a scale stands, from readings at two opposite pointers.

    rows         3 or more, at different settings spread round
    diameter_mm  of the scale, above 0
    resolution   the smallest step of a reading, in turns, 0 or more

    The direction is the numeral that stands furthest out. Raises BadNumber when they cannot tell.
    Source: derived; where the scale's centre is off by e towards its reading d, a pointer at the reading a is out
    by (e/R) sin(a - d), which is what an indicator would show a quarter of a turn before. Half the difference of two
    readings, each good to its step, is as good as one of that step by the square root of 2.
    """
    found = two_pointers(rows)
    radius, circle = diameter_mm / 2, Fraction(2 * pi)
    indicated = [
        Indicated((mean - Fraction(1, 4)) % 1, swing / ARCSECONDS * circle * radius)
        for mean, swing in zip(found.means, found.swing, strict=True)
    ]
    return off_centre(indicated, resolution * circle * radius / Fraction(sqrt(2)))
