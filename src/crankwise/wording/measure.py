"""Measuring the head, centring, and correcting, in words: every figure to what it is known by."""

from collections.abc import Sequence
from fractions import Fraction

from crankwise.accuracy.calibration import Calibration, Found
from crankwise.accuracy.centring import OffCentre, Pointed, TwoPointers
from crankwise.accuracy.chances import t_limit
from crankwise.accuracy.harmonics import LEVEL, Wave
from crankwise.accuracy.measuring_plan import REFERENCES, MeasuringPlan, Point
from crankwise.exact.angle import ARCSECONDS
from crankwise.exact.length import INCH
from crankwise.head.head import Head
from crankwise.plan.corrected import Compared, CorrectedScale
from crankwise.wording.angle import degrees_minutes_seconds
from crankwise.wording.figures import decimal
from crankwise.wording.settings import setting_text

Table = tuple[list[str], list[list[str]]]

FINEST_GAUGE = 0.1
"""Seconds of arc that readings scatter by at least, with a mirror and a telescope too. Judgement."""

_TIMES = {1: "once", 2: "twice", 3: "three times", 4: "four times", 5: "five times", 6: "six times"}
_ORDER = "Measure in this order, each setting come up to from the same side; lock as you will when you work."
_CLOSURE = (
    "Set the gauge once and never touch it: at each row set the head, put the gauge against the first stop, advance "
    "by one step, read the indicator. A larger step reads larger, in seconds of arc."
)
BEGIN = (
    "Begin where the head was measured from: ring at 0 and the crank at the dial's 0, the dial not set anew. "
    "Come up to every setting from the side from which it was measured."
)


TEST = (
    "The waves once per turn are always taken. A further one is taken when an F test says that chance alone would "
    f"show as much in {LEVEL:.0%} of such measurements, shared among all that are tried."
)


NO_FINE_SCALE = (
    "corrected: this head has no dial, hole circle or stepper drive that comes round whole, "
    "so nothing can be corrected"
)
NOT_YET_CENTRED = (
    "How far off the scale is, and which way: with its diameter, and 3 settings or more, spread round."
)


def arcsec(value: float, places: int = 1) -> str:
    """Return seconds of arc to so many decimals: 12.3"."""
    return f'{decimal(Fraction(value), places)}"'


def _micro(value_mm: float) -> str:
    """Return a length in millimetres to the micrometre."""
    return f"{decimal(Fraction(value_mm), 3)} mm"


def _in_thou(value_mm: float) -> str:
    """Return a length in thousandths of an inch, then in millimetres."""
    return f"{decimal(Fraction(value_mm) / INCH * 1000, 2)} thou ({_micro(value_mm)})"


def wave_name(wave: Wave) -> str:
    """Return what a wave is: worm, once per turn of the crank."""
    of = "crank" if wave.of == "worm" else "spindle"
    return f"{wave.of}, {_TIMES.get(wave.order, f'{wave.order} times')} per turn of the {of}"


def plan_table(plan: MeasuringPlan) -> Table:
    """Return headings and a row for each setting to measure."""
    headings = ["number"] + (["step"] if plan.steps else []) + ["setting", "what the head shows"]
    reverses = any(point.back for point in plan.points)
    headings += ["come to it"] if reverses else []

    def row(point: Point) -> list[str]:
        cells = [str(point.number)] + ([str(point.step)] if plan.steps else [])
        cells += [degrees_minutes_seconds(point.place), setting_text(plan.head, point.setting)]
        return cells + (["turning back" if point.back else "going on"] if reverses else [])

    return headings, [row(point) for point in plan.points]


def _zeros_text(head: Head) -> str:
    """Return what stands at 0 before the first setting; corrected settings count from there."""
    scales = [name for name, scale in (("ring", head.ring), ("dial", head.dial)) if scale]
    if not scales:
        return "Mark the notch or hole that you begin at: it stays the zero."
    by_holes = ", the pin in a hole that you mark" if head.circles else ""
    leave = ", and leave the dial so" if head.dial else by_holes
    return f"Set the head at its zeros first: {' and '.join(scales)} at 0{leave}."


def plan_notes(plan: MeasuringPlan) -> list[str]:
    """Return how the plan is carried out, and what it will tell, a sentence each."""
    notes = [f"Needs {REFERENCES[plan.reference].needs}.", f"{_ORDER} {_zeros_text(plan.head)}"]
    notes += [_CLOSURE] if plan.steps else []
    if plan.steps:
        notes.append(
            f"{plan.rounds} rounds of {plan.steps} steps; each begins a part of a crank turn further on, so that the "
            "worm shows."
            if plan.rounds > 1
            else f"One round of {plan.steps} steps."
        )
    notes += [
        f"With readings good to 1 second it tells the {wave_name(one.wave)} to {arcsec(one.per_second, 2)}."
        for one in plan.told
    ]
    notes += [f"It leaves open: {reason}." for reason in plan.cannot_say]
    return notes


def found_table(found: Sequence[Found], freedom: int) -> Table:
    """Return headings and a row for each wave found, with the bound that 19 in 20 keep."""
    times = t_limit(freedom)
    return ["error", "to either side", "known to, 19 in 20", "phase"], [
        [
            wave_name(one.wave),
            arcsec(one.amplitude),
            f"±{arcsec(one.uncertainty * times)}",
            f"{decimal(Fraction(one.phase * 360), 0)}°",
        ]
        for one in found
    ]


def fit_notes(calibration: Calibration, band: float, height: float) -> list[str]:
    """Return what else the readings say, a sentence each."""
    count = len(calibration.readings.readings)
    notes = [
        f"{count} readings scatter {arcsec(calibration.residual)} about the fit (standard deviation).",
        (
            f"The head's error goes over {arcsec(height)} in all; as seen from the zero the curve is known to "
            f"±{arcsec(band)} at worst, 19 times in 20."
        ),
    ]
    if calibration.residual < FINEST_GAUGE:
        notes.append(
            "Readings that scatter so little are finer than a shop's gauge: are they in the unit that the column says, "
            "seconds of arc or degrees?"
        )
    if calibration.backlash is not None:
        notes.append(_backlash_text(calibration.backlash))
    if calibration.readings.closes:
        larger = "larger" if calibration.constant <= 0 else "smaller"
        notes.append(
            f"The gauge is {arcsec(abs(calibration.constant))} {larger} than one step "
            f"(standard uncertainty {arcsec(calibration.constant_uncertainty)})."
        )
    notes += [
        f"Line {one.reading.number} stands out: {arcsec(one.residual)} from the fit. It was fitted with the others; "
        f"measure it again, or leave it out (--without {one.reading.number})."
        for one in calibration.outliers
    ]
    for tried in calibration.tried:
        if not tried.taken:
            notes.append(
                f"The next wave tried, {wave_name(tried.wave)}, was not taken: chance alone shows as much in "
                f"{decimal(Fraction(tried.chance * 100), 2)} of 100 such measurements."
            )
    return notes + [f"It leaves open: {reason}." for reason in calibration.cannot_say]


def _backlash_text(backlash: float) -> str:
    if backlash < 0:
        return (
            f"Turned back, it stands {arcsec(-backlash)} less far on; play would leave it further on, so look at which "
            "rows were turned back."
        )
    return f"Turned back, it stands {arcsec(backlash)} further on: that is the backlash."


CONTRADICTING = (
    "The readings contradict one another by far more than their step: one is mistyped or misread, or the surface "
    "is far from round. Read them again."
)
NOTHING_OVER = (
    "Three readings leave nothing over to check them by: the bound is of the indicator's step alone, and a fourth "
    "would show a slip."
)


def centre_lines(
    found: OffCentre,
    screws: Sequence[Fraction],
    diameter_mm: Fraction | None,
    by_pointers: bool = False,
    inch_first: bool = False,
) -> list[str]:
    """Return how far off it is, which way, and what to do, a line each.

    by_pointers  whether two pointers told it, and no indicator
    inch_first   whether it was read in inches, and is told in thousandths of one
    """

    def told(length_mm: float) -> str:
        return _in_thou(length_mm) if inch_first else _micro(length_mm)

    swings = "an indicator on it would swing" if by_pointers else "the indicator swings"
    sure = found.direction_uncertainty
    lines = [
        (
            f"Off centre by {told(found.offset)} ±{told(found.bound)} (19 times in 20); {swings} "
            f"{told(2 * found.offset)} in all."
        )
    ]
    shape = _shape_lines(found)
    if found.contradicts_itself:
        return [*lines, CONTRADICTING, *shape]
    if not found.is_seen:
        return [*lines, "That is no more than the readings can tell: leave it, or read finer.", *shape]
    towards = f" ±{decimal(Fraction(sure * 720), 0)}°" if sure is not None else ""
    lines.append(f"It stands out most at {decimal(Fraction(found.direction * 360), 0)}°{towards}.")
    lines.append(
        f"Move it {told(found.offset)} towards {decimal(Fraction((found.direction * 360 + 180) % 360), 0)}°:"
    )
    for screw in found.screws(screws):
        way = "in" if screw.inward > 0 else "back"
        where = decimal(Fraction(screw.angle * 360), 0)
        lines.append(f"  at {where}°: {told(abs(screw.inward))} {way}")
    if diameter_mm is not None:
        lines.append(
            f"A scale of {decimal(diameter_mm, 1)} mm reads ±{arcsec(found.scale_error(diameter_mm))} out for it, once "
            "per turn; the mean of two opposite pointers is free of it."
        )
    if found.residual is None:
        lines.append(NOTHING_OVER)
    return lines + shape


def pointer_table(rows: Sequence[Pointed], told: TwoPointers) -> Table:
    """Return headings and a row for each setting that was read at two opposite pointers."""
    return ["first pointer", "second", "mean, free of it", "the first is out by"], [
        [*map(degrees_minutes_seconds, (row.first, row.second, mean % 1)), arcsec(float(out))]
        for row, mean, out in zip(rows, told.means, told.swing, strict=True)
    ]


def _shape_lines(found: OffCentre) -> list[str]:
    if not found.is_out_of_round or found.residual is None:
        return []
    return [
        (
            f"Another {_micro(found.residual)} is not once per turn: the surface is not round, or not clean. "
            "Centring does not cure that."
        )
    ]


def corrected_lines(scale: CorrectedScale, curve: Sequence[Compared]) -> list[str]:
    """Return what the correction does, and what remains, a line each."""
    before = max(abs(one.before) for one in curve) * ARCSECONDS
    after = max(abs(one.after) for one in curve) * ARCSECONDS
    unsure = max(one.uncertainty for one in curve) * t_limit(scale.errors.freedom)
    done = (
        f"Corrected by the errors measured on {scale.errors.date}: the worst position was {arcsec(float(before))} "
        f"out and is {arcsec(float(after))} out."
    )
    remains = (
        f"What remains beside that: the errors are known to ±{arcsec(unsure)} (19 times in 20), and one reading "
        f"of the measurement scattered by {arcsec(float(scale.errors.residual))}."
    )
    return [done, remains, BEGIN]
