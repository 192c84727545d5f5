"""The calibrations that a head keeps: each as it is shown, and which of them is in force."""

from dataclasses import dataclass, replace
from fractions import Fraction
from hashlib import sha256
from typing import Any

from crankwise.accuracy.calibration import stood_out
from crankwise.accuracy.calibration_doubt import amplitude_uncertainty, band
from crankwise.draw.head_errors import Left
from crankwise.errors import BadNumber
from crankwise.exact.angle import ARCSECONDS
from crankwise.exact.number import as_text
from crankwise.head.calibrated import with_in_force, without_calibration
from crankwise.head.head import Head
from crankwise.head.known_errors import OF, Harmonic, KnownErrors
from crankwise.plan.corrected import Compared, all_round
from crankwise.tasks.divide import whole_number


@dataclass(frozen=True, slots=True)
class KeptCalibration:
    """One calibration of a head.

    number    its place in the head's list, from 1
    in_force  whether the head's settings are corrected by it
    left      what is left of each reading; nothing where the file does not say enough
    bound     the error curve is known to either side so closely, 19 times in 20, in seconds of arc
    rows      places round the spindle before and after the correction; nothing on a head without a fine scale
    """

    number: int
    known: KnownErrors
    in_force: bool
    left: tuple[Left, ...]
    bound: float
    rows: tuple[Compared, ...]

    @property
    def height(self) -> float:
        """The greatest less the least error, in seconds of arc, wherever the crank stands."""
        return sum(self.known.swing(of) for of in OF)

    @property
    def worst_before(self) -> float:
        """The worst place of the plain settings, in seconds of arc."""
        return max((abs(float(row.before * ARCSECONDS)) for row in self.rows), default=0.0)

    @property
    def worst_after(self) -> float:
        """The worst place of the corrected ones, in seconds of arc, beside what is not known."""
        return max((abs(float(row.after * ARCSECONDS)) for row in self.rows), default=0.0)


def calibration_in_force(head: Head) -> int | None:
    """Return the number of the calibration in force, from 1; None on a head that was never measured."""
    if not head.calibrations:
        return None
    return next(number for number, one in enumerate(head.calibrations, 1) if one is head.known_errors)


def kept_calibration(head: Head, number: int) -> KeptCalibration:
    """Return one calibration of a head, counted from 1; it is there."""
    known = head.calibrations[number - 1]
    ratio = head.ratio or Fraction(1)
    residuals = known.residuals(ratio)
    outliers = stood_out(known, ratio) if residuals else frozenset()
    left = tuple(
        Left(float(known.readings[index].setting / 360 % 1), residual, index in outliers)
        for index, residual in enumerate(residuals)
    )
    is_in_force = number == calibration_in_force(head)
    return KeptCalibration(number, known, is_in_force, left, band(known, ratio), all_round(head, known))


def calibration_number(head: Head, typed: str) -> int:
    """Return the number of one of the head's calibrations, as typed. Raises BadDivisions, UnknownThing."""
    number = whole_number(typed, "calibration")
    with_in_force(head, number - 1)
    return number


def put_in_force(head: Head, typed: str) -> Head:
    """Return the head with one of its calibrations in force, by its number as typed. Raises Mendable."""
    return with_in_force(head, calibration_number(head, typed) - 1)


def calibration_mark(known: KnownErrors) -> str:
    """Return a short text that tells one calibration from every other."""
    return sha256(repr(replace(known, in_force=False)).encode()).hexdigest()[:16]


def drop_calibration(head: Head, typed: str, mark: str | None = None) -> Head:
    """Return the head without one of its calibrations, by its number as typed.

    mark  of the one that is meant; None where the head cannot have changed since its number was read

    Raises BadDivisions, UnknownThing; BadNumber when another stands there now, as after a second tap.
    """
    number = calibration_number(head, typed)
    if mark is not None and mark != calibration_mark(head.calibrations[number - 1]):
        raise BadNumber(
            "calibration", f"{number}; the head has changed since this was shown: look again, then drop it"
        )
    return without_calibration(head, number - 1)


def calibrations_answer(head: Head) -> list[dict[str, Any]]:
    """Return every calibration of a head as a plain object, ready for JSON."""
    in_force = calibration_in_force(head)
    return [
        {
            "number": number,
            "date": known.date,
            "method": known.method,
            "reference": known.reference or None,
            "in_force": number == in_force,
            "mark": calibration_mark(known),
            "readings": len(known.readings),
            "left_out": known.left_out,
            "residual_arcsec": float(known.residual),
            "backlash_arcsec": None if known.backlash is None else float(known.backlash),
            "harmonics": [_harmonic(known, index, one) for index, one in enumerate(known.harmonics)],
            "table": [
                {"setting_deg": as_text(point.spindle * 360), "error_arcsec": float(point.error)}
                for point in known.table
            ],
        }
        for number, known in enumerate(head.calibrations, 1)
    ]


def _harmonic(known: KnownErrors, index: int, one: Harmonic) -> dict[str, Any]:
    return {
        "of": one.of,
        "order": one.order,
        "amplitude_arcsec": one.amplitude,
        "phase_deg": one.phase * 360,
        "u_arcsec": amplitude_uncertainty(known, index),
    }
