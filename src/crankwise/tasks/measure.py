"""Measure the head: plan which settings to take, and find its errors from the readings."""

from dataclasses import dataclass
from fractions import Fraction
from math import sqrt
from typing import Any

from crankwise.accuracy.calibration import Calibration, calibrate
from crankwise.accuracy.calibration_doubt import band
from crankwise.accuracy.closure import Closed
from crankwise.accuracy.harmonics import LEVEL
from crankwise.accuracy.measuring_plan import REFERENCES, MeasuringPlan, measuring_plan
from crankwise.errors import BadDivisions, BadFile, BadNumber, UnknownThing
from crankwise.exact.number import as_text, read_number
from crankwise.files.head_toml import write_head
from crankwise.files.readings_csv import Sheet
from crankwise.head.calibrated import with_calibration
from crankwise.head.head import Head
from crankwise.head.known_errors import OF, KnownErrors, Of
from crankwise.tasks.answers import FORMAT
from crankwise.tasks.divide import whole_number
from crankwise.tasks.heads import write_head_file
from crankwise.tasks.readings import Read, head_readings, open_readings

LAW = (
    "error = sum of amplitude * cos(order * angle - phase); the angle is the spindle's for the wheel, the crank's for "
    "the worm"
)


def plan_measuring(
    head: Head, points: str | None, reference: str, steps: str | None = None, reverse: bool = False
) -> MeasuringPlan:
    """Return which settings of the head to measure; all as typed. Raises Mendable."""
    if reference not in REFERENCES:
        raise UnknownThing(f"reference: {reference!r}; a head is measured by {', '.join(REFERENCES)}")
    _check_turns(head)
    return measuring_plan(
        head,
        whole_number(points, "points") if points else 36,
        reference,
        whole_number(steps, "steps") if steps else None,
        reverse,
    )


def _check_turns(head: Head) -> None:
    if head.is_straight:
        raise BadDivisions(
            "head",
            f"{head.name} is a slide, which turns nothing; what is measured here is how far out a spindle stands",
        )


def plan_answer(plan: MeasuringPlan) -> dict[str, Any]:
    """Return the plan as a plain object, ready for JSON."""
    return {
        "format": FORMAT,
        "reference": plan.reference,
        "needs": REFERENCES[plan.reference].needs,
        "points": [
            {
                "number": point.number,
                "setting_deg": as_text(point.place * 360),
                "direction": "back" if point.back else "forward",
                "step": point.step or None,
                "turns": point.setting.turns,
                "reading": None if point.setting.reading is None else as_text(point.setting.reading),
                "holes": point.setting.holes[0] if point.setting.holes else None,
                "circle": point.setting.circle,
                "notches": point.setting.notches,
                "steps": point.setting.steps,
            }
            for point in plan.points
        ],
        "steps": plan.steps or None,
        "rounds": plan.rounds,
        "told": [
            {"of": one.wave.of, "order": one.wave.order, "u_for_1_arcsec": one.per_second}
            for one in plan.told
        ],
        "cannot_say": list(plan.cannot_say),
    }


def plan_csv(plan: MeasuringPlan) -> str:
    """Return the plan as a file to fill in: what `fit` reads, with the last column left open."""
    if plan.steps:
        rows = [f"{point.step},{_degrees(point.place)}," for point in plan.points]
        return "\n".join(("step,start_deg,gauge_arcsec", *rows)) + "\n"
    rows = [f"{_degrees(point.place)},,{'back' if point.back else 'forward'}" for point in plan.points]
    return "\n".join(("setting_deg,measured_deg,direction", *rows)) + "\n"


def _degrees(place: Fraction) -> str:
    """To eight decimals, a twentieth of a thousandth of a second: as exact as a plain column of figures may be."""
    text = as_text(place * 360)
    return f"{float(place * 360):.8f}" if "/" in text else text


@dataclass(frozen=True, slots=True)
class Fit:
    """What readings tell of a head, and the head as it is then known.

    known  the errors as the head file keeps them
    """

    before: Head
    head: Head
    read: Read
    calibration: Calibration
    known: KnownErrors

    @property
    def band(self) -> float:
        """Half the width of the band that holds the error curve at its least sure place, 19 times in 20, in arcsec."""
        return band(self.known, self.head.ratio or Fraction(1))

    @property
    def height(self) -> float:
        """The greatest less the least error, in seconds of arc, wherever the crank stands."""
        return sum(self.known.swing(of) for of in OF)


def fit(
    head: Head,
    path: str,
    date: str,
    only: str | None = None,
    without: str | None = None,
    gaps_are_meant: bool = False,
    reference: str = "",
) -> Fit:
    """Return what a file of readings tells of the head; the rest as for `fit_sheet`. Raises Mendable."""
    return fit_sheet(head, open_readings(path), date, only, without, gaps_are_meant, reference)


def fit_sheet(
    head: Head,
    sheet: Sheet,
    date: str,
    only: str | None = None,
    without: str | None = None,
    gaps_are_meant: bool = False,
    reference: str = "",
) -> Fit:
    """Return what readings tell of the head.

    date       of the measurement, as 2026-03-14
    only       "wheel" or "worm" where the other is not to be told
    without    lines to leave out, separated by commas
    reference  what it was measured against, to be kept with it; empty where that is not said

    Raises Mendable; CannotTell when the readings are sound but cannot tell the errors.
    """
    _check_turns(head)
    read = head_readings(sheet, head.ratio, _lines(without), gaps_are_meant)
    calibration = calibrate(read.readings, head.ratio, _only(only))
    known = calibration.known_errors(date, "" if read.closed else reference, len(read.left_out))
    return Fit(head, with_calibration(head, known), read, calibration, known)


def _only(typed: str | None) -> Of | None:
    if typed is None:
        return None
    for of in OF:
        if typed == of:
            return of
    raise UnknownThing(f"only: {typed!r}; write wheel or worm")


def _lines(typed: str | None) -> tuple[int, ...]:
    if not typed:
        return ()
    numbers = [read_number(piece, "without") for piece in typed.split(",")]
    if any(number.denominator != 1 for number in numbers):
        raise BadNumber("without", "lines are counted whole, as 14,17")
    return tuple(int(number) for number in numbers)


def fit_answer(found: Fit) -> dict[str, Any]:
    """Return what was found as a plain object, ready for JSON; angles are floats in seconds of arc."""
    calibration = found.calibration
    answer: dict[str, Any] = {
        "format": FORMAT,
        "method": found.known.method,
        "date": found.known.date,
        "readings": len(found.read.readings),
        "left_out_lines": list(found.read.left_out),
        "harmonics": [
            {
                "of": one.wave.of,
                "order": one.wave.order,
                "amplitude_arcsec": one.amplitude,
                "phase_deg": one.phase * 360,
                "u_arcsec": one.uncertainty,
            }
            for one in calibration.found
        ],
        "law": LAW,
        "residual_arcsec": calibration.residual,
        "freedom": calibration.solved.freedom,
        "backlash_arcsec": calibration.backlash,
        "confidence": 0.95,
        "band_arcsec": found.band,
        "height_arcsec": found.height,
        "outliers": [
            {
                "line": one.reading.number,
                "setting_deg": as_text(one.reading.place * 360),
                "residual_arcsec": one.residual,
                "standard_deviations": one.times if abs(one.times) != float("inf") else None,
            }
            for one in calibration.outliers
        ],
        "test": f"further harmonics by an F test at {LEVEL:.0%}, shared among all that are tried",
        "tried": [
            {
                "of": one.wave.of,
                "order": one.wave.order,
                "f": one.ratio,
                "chance": one.chance,
                "taken": one.taken,
            }
            for one in calibration.tried
        ],
        "cannot_say": list(calibration.cannot_say),
        "residuals": _residuals(calibration),
        "head": write_head(found.head),
    }
    if found.read.closed:
        answer |= _closed_answer(found.read.closed, calibration)
    return answer


def _residuals(calibration: Calibration) -> list[dict[str, Any]]:
    return [
        {
            "line": reading.number,
            "setting_deg": as_text(reading.place * 360),
            "measured_arcsec": reading.error,
            "residual_arcsec": residual,
        }
        for reading, residual in zip(calibration.readings.readings, calibration.solved.residuals, strict=True)
    ]


def _closed_answer(closed: tuple[Closed, ...], calibration: Calibration) -> dict[str, Any]:
    return {
        "gauge_arcsec": float(sum(one.gauge for one in closed) / len(closed)),
        "u_gauge_arcsec": calibration.residual / sqrt(sum(len(one.steps) for one in closed)),
        "rounds": [
            {
                "gauge_arcsec": float(one.gauge),
                "height_arcsec": float(one.height),
                "steps": [
                    {
                        "step": number,
                        "error_arcsec": float(step.error),
                        "cumulative_arcsec": float(step.cumulative),
                    }
                    for number, step in enumerate(one.steps, 1)
                ],
            }
            for one in closed
        ],
    }


def today() -> str:
    """Return the date of today, as 2026-03-14."""
    from datetime import datetime

    return datetime.now().astimezone().date().isoformat()


def write_measured(found: Fit, path: str) -> None:
    """Write the head file that knows its errors. Raises BadFile."""
    write_head_file(found.head, path)


_STYLE = (
    "svg{background:#fff}.nought{fill:none;stroke:#888;stroke-width:.5}.cumulative{fill:none;stroke:#036;"
    "stroke-width:1.2}.reading{fill:#036}.wrong{fill:#c30}.caption{font:9px sans-serif;text-anchor:middle;fill:#333}"
)


def write_picture(found: Fit, path: str) -> None:
    """Draw the errors and what is left of each reading to an SVG file. Raises BadFile."""
    from crankwise.draw.head_errors import Left, head_errors
    from crankwise.draw.svg import standing_alone
    from crankwise.files.whole_file import write_whole

    if not path.lower().endswith(".svg"):
        raise BadFile(f"{path}: a picture is written as SVG; let the name end with .svg")
    calibration = found.calibration
    out = {one.reading.number for one in calibration.outliers}
    left = [
        Left(float(reading.place % 1), residual, reading.number in out)
        for reading, residual in zip(calibration.readings.readings, calibration.solved.residuals, strict=True)
    ]
    write_whole(path, standing_alone(head_errors(found.known, left), _STYLE).encode())
