"""A head's errors as they were measured: how far out the spindle is, by where spindle and crank stand.

The error at a spindle angle s and a crank angle c, in seconds of arc, positive the way the work advances, is

    sum over wheel harmonics of  cosine * cos(2 pi order s) + sine * sin(2 pi order s)
  + sum over worm harmonics of   cosine * cos(2 pi order c) + sine * sin(2 pi order c)
  + the table at s, straight lines between its points

with both angles in turns, counted from the zero that the measurement began at: ring and dial at 0. What is
the same everywhere is no error of a division, so the table and the harmonics may carry any constant.

The coefficients are kept as decimals, exactly as the head file says them. The error is worked out in
floats, good to 1e-9 seconds of arc: far finer than any head is measured.
"""

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import atan2, cos, hypot, pi, sin, sqrt
from typing import Literal, NamedTuple, get_args

from crankwise.errors import Fault, FaultsFound
from crankwise.exact.angle import ARCSECONDS
from crankwise.exact.number import as_text

Of = Literal["wheel", "worm"]
OF: tuple[Of, ...] = get_args(Of)
REFERENCES = ("index", "polygon", "gauges", "indicator", "mirror")
"""What a head can be measured against."""
MOST_ORDER = 60
MOST_ARCSEC = 36_000
MOST_HARMONICS = 24
MOST_POINTS = 10_000
SWING_PLACES = 720


class Harmonic(NamedTuple):
    """One wave of the error.

    of      what it goes with: the wheel, once per turn of the spindle; the worm, once per turn of the crank
    order   waves in one turn of that, 1 or more
    cosine  coefficient in seconds of arc
    sine    coefficient in seconds of arc
    """

    of: Of
    order: int
    cosine: Fraction
    sine: Fraction

    @property
    def amplitude(self) -> float:
        """Height of the wave to either side of its middle, in seconds of arc."""
        return hypot(float(self.cosine), float(self.sine))

    @property
    def phase(self) -> float:
        """The phase in turns, 0 to below 1: the error is amplitude * cos(order * angle - phase)."""
        return atan2(float(self.sine), float(self.cosine)) / (2 * pi) % 1


class TablePoint(NamedTuple):
    """One point of a table: the spindle's angle in turns, 0 to below 1, and the error there in seconds of arc."""

    spindle: Fraction
    error: Fraction


class Measured(NamedTuple):
    """One reading that the errors were found from.

    setting  where the head was set, in degrees; of a step of closure, where it ended
    error    what was measured there, in seconds of arc; of a step, its gauge reading
    begun    where the step began, in degrees; None for a reading at one place
    back     whether the head was turned back to this setting
    """

    setting: Fraction
    error: Fraction
    begun: Fraction | None = None
    back: bool = False


@dataclass(frozen=True, slots=True)
class KnownErrors:
    """One measurement of a head: its errors, how well they are known, and what they were found from.

    date        when it was measured, as 2026-03-14
    harmonics   the waves, none twice
    covariance  of the coefficients cosine, sine, cosine, sine ... of the harmonics, in square seconds of
                arc: its lower triangle, row by row
    freedom     readings beyond those needed, 1 or more: how well the scatter itself is known
    residual    what one reading scatters about the fit, in seconds of arc
    table       errors at points round the spindle, rising, straight lines between; 2 or more, or none
    backlash    play between turning forward and back, in seconds of arc; None where not measured
    method      how it was measured: "reference" or "closure"
    readings    what it was found from; may be left out
    reference   what it was measured against, one of REFERENCES; empty for closure, or where nobody said
    left_out    readings that its owner left out of the fit
    in_force    whether its owner put it in force, whatever was measured later

    Raises FaultsFound.
    """

    date: str
    harmonics: tuple[Harmonic, ...]
    covariance: tuple[tuple[Fraction, ...], ...]
    freedom: int
    residual: Fraction
    table: tuple[TablePoint, ...] = ()
    backlash: Fraction | None = None
    method: str = "reference"
    readings: tuple[Measured, ...] = ()
    reference: str = ""
    left_out: int = 0
    in_force: bool = False

    def __post_init__(self) -> None:
        if faults := [*self._plain_faults(), *self._harmonic_faults(), *self._table_faults()]:
            raise FaultsFound(faults)

    def _plain_faults(self) -> list[Fault]:
        faults = []
        if not _is_date(self.date):
            faults.append(Fault("date", f"{self.date!r}; a date is written as 2026-03-14"))
        if self.freedom < 1:
            faults.append(Fault("freedom", f"{self.freedom}; at least 1 reading more than were needed"))
        if not 0 <= self.residual <= MOST_ARCSEC:
            faults.append(Fault("residual_arcsec", f"{as_text(self.residual)}; from 0 to {MOST_ARCSEC:,}"))
        if self.backlash is not None and abs(self.backlash) > MOST_ARCSEC:
            faults.append(Fault("backlash_arcsec", f"{as_text(self.backlash)}; at most {MOST_ARCSEC:,}"))
        if self.reference and (self.method == "closure" or self.reference not in REFERENCES):
            told = (
                "a closure run needs no reference; leave it out"
                if self.method == "closure"
                else f"this is one of {', '.join(REFERENCES)}"
            )
            faults.append(Fault("reference", f"{self.reference!r}; {told}"))
        if self.left_out < 0:
            faults.append(Fault("left_out", f"{self.left_out}; readings left out, 0 or more"))
        if not self.harmonics and not self.table:
            faults.append(Fault("", "neither harmonics nor a table; a calibration says one or both"))
        return faults

    def _harmonic_faults(self) -> list[Fault]:
        faults = []
        seen = set()
        if len(self.harmonics) > MOST_HARMONICS:
            faults.append(Fault("harmonics", f"{len(self.harmonics)}; at most {MOST_HARMONICS}"))
        for index, one in enumerate(self.harmonics):
            place = f"harmonics[{index}]"
            if not 1 <= one.order <= MOST_ORDER:
                faults.append(Fault(f"{place}.order", f"{one.order}; from 1 to {MOST_ORDER} in one turn"))
            if max(abs(one.cosine), abs(one.sine)) > MOST_ARCSEC:
                faults.append(Fault(place, f"at most {MOST_ARCSEC:,} seconds of arc is believed"))
            if (one.of, one.order) in seen:
                faults.append(Fault(place, f"the {one.of}'s order {one.order} stands here twice"))
            seen.add((one.of, one.order))
        count = 2 * len(self.harmonics)
        if [len(row) for row in self.covariance] != [*range(1, count + 1)]:
            faults.append(
                Fault(
                    "covariance",
                    f"rows of {', '.join(str(len(row)) for row in self.covariance) or 'nothing'}; "
                    f"{len(self.harmonics)} harmonics have {count} rows, of 1, 2, ... numbers",
                )
            )
        elif any(row[-1] < 0 for row in self.covariance):
            faults.append(Fault("covariance", "the last number of a row is a variance, 0 or more"))
        return faults

    def _table_faults(self) -> list[Fault]:
        if not self.table:
            return []
        if not 2 <= len(self.table) <= MOST_POINTS:
            return [Fault("table", f"{len(self.table)} points; a table has 2 to {MOST_POINTS:,}")]
        angles = [point.spindle for point in self.table]
        if angles != sorted(set(angles)) or angles[0] < 0 or angles[-1] >= 1:
            return [Fault("table", "its angles rise from 0 to below 360 degrees, none twice")]
        if max(abs(point.error) for point in self.table) > MOST_ARCSEC:
            return [Fault("table", f"at most {MOST_ARCSEC:,} seconds of arc is believed")]
        return []

    @property
    def needs_worm(self) -> bool:
        """Whether any of it goes with the crank."""
        return any(one.of == "worm" for one in self.harmonics)

    def steepest(self, ratio: Fraction) -> float:
        """Return a bound of how fast the error changes, in turns of error for one turn of the spindle.

        At 1 or more the spindle would stand still or go back while the crank is turned.
        """
        waves = sum(
            2 * pi * one.order * one.amplitude * (float(ratio) if one.of == "worm" else 1)
            for one in self.harmonics
        )
        after = (*self.table[1:], *self.table[:1])
        slopes = [
            abs(float((two.error - one.error) / ((two.spindle - one.spindle) % 1)))
            for one, two in zip(self.table, after, strict=True)
        ]
        return (waves + max(slopes, default=0.0)) / ARCSECONDS

    def at(self, spindle: Fraction, crank: Fraction) -> float:
        """Return the error where spindle and crank stand at these angles, in seconds of arc.

        spindle, crank  in turns from the zero of the measurement; any, whole turns are dropped exactly
        """
        return self.law()(float(spindle % 1), float(crank % 1))

    def law(self) -> Callable[[float, float], float]:
        """Return what `at` works out, made ready to be asked for many places.

        It is asked for the part of a turn that wheel and worm stand at, 0 to below 1.
        """
        of_wheel, of_worm = (
            [
                (2 * pi * one.order, float(one.cosine), float(one.sine))
                for one in self.harmonics
                if one.of == of
            ]
            for of in OF
        )

        def error(wheel: float, worm: float) -> float:
            # Summed in this order for ever: a kept run must find the same settings again to the last digit.
            sums = []
            for waves, place in ((of_wheel, wheel), (of_worm, worm)):
                out = 0.0
                for turn, cosine, sine in waves:
                    angle = turn * place
                    out += cosine * cos(angle) + sine * sin(angle)
                sums.append(out)
            return sums[0] + sums[1] + self._from_table(wheel)

        return error

    def residuals(self, ratio: Fraction) -> tuple[float, ...]:
        """Return what is left of each reading, in order, in seconds of arc; nothing where that cannot be told.

        ratio  crank turns for one turn of the spindle; 1 where no crank turns

        The constant of the readings (minus the gauge, of closure) and the backlash are taken out: at the least
        squares the rest of each direction comes to nothing.
        """
        if self.method == "closure" and any(one.begun is None for one in self.readings):
            return ()
        if self.backlash is not None and not any(one.back for one in self.readings):
            return ()  # written before files said which settings were come to by turning back

        def out(degrees: Fraction) -> float:
            return self.at(degrees / 360, degrees / 360 * ratio)

        left = [
            float(one.error) - out(one.setting) + (out(one.begun) if one.begun is not None else 0.0)
            for one in self.readings
        ]
        means = {}
        for back in {one.back for one in self.readings}:
            same = [rest for one, rest in zip(self.readings, left, strict=True) if one.back == back]
            means[back] = sum(same) / len(same)
        return tuple(rest - means[one.back] for one, rest in zip(self.readings, left, strict=True))

    def swing(self, of: Of) -> float:
        """Return the greatest less the least error of the wheel, table included, or of the worm, over one turn."""
        turn = [k / SWING_PLACES for k in range(SWING_PLACES)]
        errors = [
            self._waves(of, place) + (self._from_table(place) if of == "wheel" else 0) for place in turn
        ]
        return max(errors) - min(errors)

    def _waves(self, of: Of, place: float) -> float:
        error = 0.0
        for one in self.harmonics:
            if one.of == of:
                angle = 2 * pi * one.order * place
                error += float(one.cosine) * cos(angle) + float(one.sine) * sin(angle)
        return error

    def _from_table(self, spindle: float) -> float:
        if not self.table:
            return 0.0
        index = bisect_right(self.table, spindle, key=lambda point: float(point.spindle))
        before, after = self.table[index - 1], self.table[index % len(self.table)]
        # Before the first point and after the last lies the one side that crosses the zero.
        width = float(after.spindle - before.spindle) % 1 or 1.0
        part = (spindle - float(before.spindle)) % 1 / width
        return float(before.error) + part * float(after.error - before.error)

    def uncertainty(
        self, spindle: Fraction, crank: Fraction, from_spindle: Fraction, from_crank: Fraction
    ) -> float:
        """Return the standard uncertainty of the error at one place as seen from another, in seconds of arc.

        Both places as for `at`. What the harmonics' covariance says; a table adds the residual, once for
        each end. Source: the JCGM guide (GUM), 5.2.2, for a linear law.
        """
        seen_from = self.doubt_from(float(from_spindle % 1), float(from_crank % 1))
        return seen_from(float(spindle % 1), float(crank % 1))

    def doubt_from(self, from_wheel: float, from_worm: float) -> Callable[[float, float], float]:
        """Return what `uncertainty` works out, made ready to be asked for many places as seen from one.

        All are the parts of a turn that wheel and worm stand at, 0 to below 1.
        """
        turns = [(2 * pi * one.order, one.of == "wheel") for one in self.harmonics]
        lower = [[float(one) for one in row] for row in self.covariance]
        of_the_table = 2 * float(self.residual) ** 2 if self.table else 0.0

        def waves(wheel: float, worm: float) -> list[float]:
            angles = [turn * (wheel if of_wheel else worm) for turn, of_wheel in turns]
            return [wave(angle) for angle in angles for wave in (cos, sin)]

        here = waves(from_wheel, from_worm)

        def doubt(wheel: float, worm: float) -> float:
            variance = spread(
                lower, [one - other for one, other in zip(waves(wheel, worm), here, strict=True)]
            )
            if wheel != from_wheel:
                variance += of_the_table
            return sqrt(max(variance, 0.0))

        return doubt


def spread(lower: Sequence[Sequence[float | Fraction]], slope: Sequence[float]) -> float:
    """Return the variance of a linear sum of quantities whose covariance has this lower triangle."""
    variance = 0.0
    for i, row in enumerate(lower):
        variance += float(row[i]) * slope[i] ** 2
        variance += 2 * slope[i] * sum(float(row[j]) * slope[j] for j in range(i))
    return variance


def _is_date(text: str) -> bool:
    """Whether a text is a day of the calendar, as 2026-03-14; no clock is asked."""
    pieces = text.split("-")
    if [len(piece) for piece in pieces] != [4, 2, 2] or not all(piece.isdecimal() for piece in pieces):
        return False
    year, month, day = map(int, pieces)
    leap = year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
    days = (31, 29 if leap else 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
    return 1 <= month <= 12 and 1 <= day <= days[month - 1]
