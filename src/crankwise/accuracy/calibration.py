"""Find a head's errors from readings: which waves, how large, how surely; or why it cannot be told.

Nothing is dropped in silence: a reading that stands out is fitted with the others and shown.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import atan2, hypot, pi, sqrt
from typing import NamedTuple

from crankwise.accuracy.chances import t_limit
from crankwise.accuracy.harmonics import (
    LOOKS_ALIKE,
    MOST_WHEEL,
    MOST_WORM,
    Reading,
    Readings,
    Tried,
    Wave,
    can_be_told,
    inflation,
    look_alike,
    select,
    widest_gap,
)
from crankwise.accuracy.least_squares import Indistinct, Solved, least_squares
from crankwise.errors import Mendable
from crankwise.head.known_errors import Harmonic, KnownErrors, Measured, Of

TO_SPARE = 3
"""Readings wanted beyond the unknowns, so that the scatter itself is told."""
MOST_INFLATION = 10
STANDS_OUT = 0.01
"""A reading stands out when chance alone would make any one of them so once in a hundred measurements."""


class CannotTell(Mendable):
    """These readings cannot tell the head's errors; the text says why, and what would."""


class Found(NamedTuple):
    """One wave as found.

    amplitude    in seconds of arc
    phase        in turns: the error is amplitude * cos(order * angle - phase)
    uncertainty  standard uncertainty of the amplitude, in seconds of arc
    """

    wave: Wave
    amplitude: float
    phase: float
    uncertainty: float


class Outlier(NamedTuple):
    """A reading that stands out: what it is out by, and how many times its own standard deviation."""

    reading: Reading
    residual: float
    times: float


@dataclass(frozen=True)
class Calibration:
    """What the readings say.

    waves       in the order of the unknowns, after the constant and the backlash
    solved      the unknowns with their covariance
    tried       the further waves that were tried, in order
    cannot_say  what these readings leave open, a sentence each
    """

    readings: Readings
    waves: tuple[Wave, ...]
    solved: Solved
    tried: tuple[Tried, ...]
    cannot_say: tuple[str, ...]

    @property
    def residual(self) -> float:
        """What one reading scatters about the fit: its standard deviation, in seconds of arc."""
        return self.solved.scatter

    @property
    def constant(self) -> float:
        """The constant of the readings, in seconds of arc; for closure it is minus the gauge's error."""
        return self.solved.values[0]

    @property
    def backlash(self) -> float | None:
        """How much further on the spindle stands when turned back to a setting, in seconds of arc; None unmeasured."""
        return self.solved.values[1] if self.readings.reverses else None

    @property
    def _first(self) -> int:
        return 2 if self.readings.reverses else 1

    def covariance(self, i: int, j: int) -> float:
        """Return the covariance of two unknowns, in square seconds of arc."""
        return self.solved.inverse[i][j] * self.residual**2

    @property
    def constant_uncertainty(self) -> float:
        """The standard uncertainty of the constant, in seconds of arc."""
        return sqrt(self.covariance(0, 0))

    @property
    def found(self) -> tuple[Found, ...]:
        """Each wave with its amplitude, its phase and how surely they are known."""
        return tuple(self._found(index, wave) for index, wave in enumerate(self.waves))

    def _found(self, index: int, wave: Wave) -> Found:
        at = self._first + 2 * index
        cosine, sine = self.solved.values[at : at + 2]
        amplitude = hypot(cosine, sine)
        c, s = (cosine / amplitude, sine / amplitude) if amplitude else (sqrt(0.5), sqrt(0.5))
        variance = (
            c * c * self.covariance(at, at)
            + s * s * self.covariance(at + 1, at + 1)
            + 2 * c * s * self.covariance(at, at + 1)
        )
        return Found(wave, amplitude, atan2(sine, cosine) / (2 * pi) % 1, sqrt(max(variance, 0.0)))

    @property
    def outliers(self) -> tuple[Outlier, ...]:
        """The readings that stand out, as seen from the fit to all others.

        Source: externally studentised residuals, held against Student's t; common practice in regression.
        """
        freedom = self.solved.freedom - 1
        if freedom < 1 or not self.residual:
            return ()
        limit = t_limit(freedom, STANDS_OUT / len(self.readings.readings))
        columns = design(self.readings, self.waves)
        found = []
        for index, (reading, residual) in enumerate(
            zip(self.readings.readings, self.solved.residuals, strict=True)
        ):
            if abs(residual) < self.residual:
                continue  # cannot stand out, however the others lie
            row = [column[index] for column in columns]
            free = 1 - sum(
                one * sum(map(float.__mul__, line, row))
                for one, line in zip(row, self.solved.inverse, strict=True)
            )
            rest = (self.solved.squares - residual**2 / free) / freedom if free > 1e-9 else 0.0
            times = residual / sqrt(rest * free) if rest > 1e-18 * self.solved.squares else float("inf")
            if abs(times) > limit:
                found.append(Outlier(reading, residual, times))
        return tuple(found)

    def known_errors(self, date: str, reference: str = "", left_out: int = 0) -> KnownErrors:
        """Return what a head file keeps: coefficients to 1e-4 of a second, far finer than they are known.

        date       of the measurement, as 2026-03-14
        reference  what it was measured against; empty for closure
        left_out   readings that its owner left out
        """
        first = self._first
        count = 2 * len(self.waves)
        values = self.solved.values[first:]
        return KnownErrors(
            date,
            tuple(
                Harmonic(wave.of, wave.order, _kept(values[2 * i]), _kept(values[2 * i + 1]))
                for i, wave in enumerate(self.waves)
            ),
            tuple(
                tuple(_kept(self.covariance(first + i, first + j), 6) for j in range(i + 1))
                for i in range(count)
            ),
            self.solved.freedom,
            _kept(self.residual),
            (),
            None if self.backlash is None else _kept(self.backlash),
            "closure" if self.readings.closes else "reference",
            tuple(map(_measured, self.readings.readings)),
            reference,
            left_out,
        )


def stood_out(known: KnownErrors, ratio: Fraction) -> frozenset[int]:
    """Return which readings of a kept calibration stood out of the fit, counted from 0.

    ratio  crank turns for one turn of the spindle; 1 where no crank turns

    Only of one whose file says of each reading where its step began or whether it was turned back.
    """
    readings = Readings(
        tuple(
            Reading(
                index,
                one.setting / 360,
                float(one.error),
                None if one.begun is None else one.begun / 360,
                one.back,
            )
            for index, one in enumerate(known.readings)
        ),
        ratio,
    )
    waves = tuple(Wave(one.of, one.order) for one in known.harmonics)
    try:
        solved = least_squares(design(readings, waves), readings.errors)
    except Indistinct:
        return frozenset()
    return frozenset(one.reading.number for one in Calibration(readings, waves, solved, (), ()).outliers)


def _measured(one: Reading) -> Measured:
    begun = None if one.begun is None else one.begun * 360
    return Measured(one.place * 360, _kept(one.error), begun, one.back)


def _kept(value: float, places: int = 4) -> Fraction:
    return Fraction(f"{value:.{places}f}")


def design(readings: Readings, waves: Sequence[Wave]) -> list[list[float]]:
    """Return the columns of the constant, the backlash where it was met, and these waves."""
    return readings.plain_columns() + [column for wave in waves for column in readings.columns(wave)]


def calibrate(readings: Sequence[Reading], ratio: Fraction | None, only: Of | None = None) -> Calibration:
    """Return the errors of the head that these readings tell.

    readings  of one run or several: all at places, or all of steps
    ratio     crank turns for one turn of the spindle; None on a head without a worm
    only      "wheel" or "worm" where the other is not to be told

    Raises CannotTell with the reason.
    """
    measured = Readings(tuple(readings), ratio)
    waves, cannot_say = tellable(measured, only)
    first = [wave for wave in waves if wave.order == 1]
    further = [wave for wave in waves if wave.order > 1]
    _enough(measured, first)
    try:
        for wave, times in inflation(measured, first):
            if times > MOST_INFLATION:
                raise CannotTell(
                    f"the {_named(wave)} comes out {times:.0f} times less sure than from as many readings well "
                    "spread; measure points all round the spindle, and 8 or more within one crank turn at two places"
                )
        selection = select(measured, first, further)
        solved = least_squares(design(measured, selection.waves), measured.errors)
    except Indistinct:
        raise CannotTell(
            "at these settings the errors of wheel and worm cannot be told from each other; measure points all "
            "round the spindle, and 8 or more within one crank turn at two places"
        ) from None
    return Calibration(measured, selection.waves, solved, selection.tried, cannot_say)


def tellable(measured: Readings, only: Of | None = None) -> tuple[list[Wave], tuple[str, ...]]:
    """Return the waves that readings at these places can tell, and what they leave open, a sentence each.

    Only the places count, not what was measured there. Raises CannotTell where they can tell nothing.
    """
    wheels = [] if only == "worm" else [Wave("wheel", order) for order in _wheel_orders(measured)]
    worm_orders, cannot_say = _worm_orders(measured, only)
    worms = [Wave("worm", order) for order in worm_orders]
    clear = [
        one for one in worms if not any(look_alike(measured, one, other) > LOOKS_ALIKE for other in wheels)
    ]
    cannot_say += tuple(
        f"whether the {_named(one)} is one of the wheel: at these settings they look alike"
        for one in worms
        if one not in clear
    )
    return [*wheels, *clear], cannot_say


def _named(wave: Wave) -> str:
    times = {1: "once", 2: "twice"}.get(wave.order, f"{wave.order} times")
    return f"{wave.of}'s error {times} per turn"


def _too_few(measured: Readings, wanted: int) -> str:
    count = len(measured.readings)
    return (
        f"{count} reading{'' if count == 1 else 's'}; too few: {wanted} at least, so that more is known than "
        "there are unknowns"
    )


def _enough(measured: Readings, first: Sequence[Wave]) -> None:
    wanted = len(measured.plain_columns()) + 2 * len(first) + TO_SPARE
    if len(measured.readings) < wanted:
        raise CannotTell(_too_few(measured, wanted))


def _wheel_orders(measured: Readings) -> list[int]:
    gap = widest_gap(measured.spindle)
    if len(measured.readings) < 3 + TO_SPARE:
        raise CannotTell(_too_few(measured, 3 + TO_SPARE))
    if 2 * gap >= 1:
        raise CannotTell(
            f"the settings leave {float(gap * 360):.0f} degrees of the circle without a reading, so the wheel's "
            "error once per turn cannot be told; measure points all round"
        )
    return can_be_told(measured.spindle, MOST_WHEEL)


def _worm_orders(measured: Readings, only: Of | None) -> tuple[list[int], tuple[str, ...]]:
    """Return the orders of the worm that can be told, and otherwise why not.

    Steps of closure are judged without the worm where they cannot see it; a reference run that cannot
    tell it is refused, since a wave of the worm would pass for one of the wheel.
    """
    if measured.ratio is None or only == "wheel":
        if measured.ratio is None and only == "worm":
            raise CannotTell("this head has no worm; measure its wheel")
        return [], ()
    wanted = len(measured.plain_columns()) + 4 + TO_SPARE
    if only is None and len(measured.readings) < wanted:
        if not measured.closes:
            raise CannotTell(_too_few(measured, wanted))
        return [], (f"nothing of the worm: {_too_few(measured, wanted)}",)
    reason = _worm_hidden(measured)
    if reason is None:
        return can_be_told(measured.crank, MOST_WORM), ()
    if measured.closes and only is None:
        return [], (f"nothing of the worm: {reason}",)
    raise CannotTell(f"{reason}; or ask for the wheel alone (--only wheel)")


def _worm_hidden(measured: Readings) -> str | None:
    mend = "measure 8 or more points within one crank turn, at two places"
    stands = len(measured.crank)
    if stands <= 2:
        places = "the same place" if stands == 1 else "two places"
        return f"every setting stops the crank at {places} of its turn, so the worm's error does not show; {mend}"
    gap = widest_gap(measured.crank)
    if 2 * gap >= 1:
        return (
            f"the settings leave {float(gap * 100):.0f} % of the crank's turn without a reading, so the worm's "
            f"error once per turn cannot be told; {mend}"
        )
    worm = Wave("worm", 1)
    for order in range(1, 2 * MOST_WHEEL + 1):
        if look_alike(measured, worm, Wave("wheel", order)) > LOOKS_ALIKE:
            return (
                f"at these settings the worm's error once per turn looks like the wheel's {order} per turn "
                f"(aliased); {mend}"
            )
    if not any(any(column) for column in measured.columns(worm)):
        return f"every step is whole turns of the crank, so the worm's error does not show; {mend}"
    return None
