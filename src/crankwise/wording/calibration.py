"""A calibration that a head keeps, in words: when, how, how surely, and what a correction by it leaves."""

from collections.abc import Sequence
from fractions import Fraction

from crankwise.accuracy.chances import t_limit
from crankwise.accuracy.harmonics import Wave
from crankwise.head.head import Head
from crankwise.head.known_errors import KnownErrors
from crankwise.wording.figures import decimal
from crankwise.wording.measure import Table, arcsec, wave_name

REFERENCE_NAMES = {
    "index": "an index table",
    "polygon": "a polygon of known angles",
    "gauges": "angle gauges or a sine bar",
    "indicator": "an arm and an indicator",
    "mirror": "a mirror and a light spot",
    "closure": "one fixed angle stepped round: no reference (closure)",
}
"""What a home shop measures a head with, the last without any reference."""


def how_measured(known: KnownErrors) -> str:
    """Return how a head was measured: against an index table, 72 readings."""
    if known.method == "closure":
        by = "by closure, one fixed angle stepped round"
    elif known.reference:
        by = f"against {REFERENCE_NAMES[known.reference]}"
    else:
        by = "against a reference"
    count = len(known.readings)
    told = f", {count} reading{'' if count == 1 else 's'}" if count else ""
    left_out = f", {known.left_out} more left out" if known.left_out else ""
    return f"{by}{told}{left_out}"


def kept_lines(head: Head) -> list[str]:
    """Return a line for each calibration that a head keeps, numbered, and what it found under it."""
    if not head.calibrations:
        return ["never measured: crankwise measure plan says which settings to take"]
    lines = []
    for number, known in enumerate(head.calibrations, 1):
        in_force = "; in force" if known is head.known_errors else ""
        lines.append(f"{number}  {known.date}  {how_measured(known)}{in_force}")
        found = [f"{wave_name(Wave(one.of, one.order))} {arcsec(one.amplitude)}" for one in known.harmonics]
        found += [f"a table of {len(known.table)} points"] if known.table else []
        lines += [f"     {one}" for one in found]
    return lines


def waves_table(known: KnownErrors, uncertainties: Sequence[float]) -> Table:
    """Return headings and a row for each wave, with the bound that 19 in 20 keep.

    uncertainties  the standard uncertainty of each wave's amplitude, in seconds of arc
    """
    times = t_limit(known.freedom)
    return ["error", "to either side", "known to, 19 in 20", "phase"], [
        [
            wave_name(Wave(one.of, one.order)),
            arcsec(one.amplitude),
            f"±{arcsec(unsure * times)}",
            f"{decimal(Fraction(one.phase * 360), 0)}°",
        ]
        for one, unsure in zip(known.harmonics, uncertainties, strict=True)
    ]


def calibration_lines(known: KnownErrors, height: float, bound: float) -> list[str]:
    """Return what else it says, a sentence each.

    height  the greatest less the least error, in seconds of arc
    bound   how surely the curve is known, 19 times in 20
    """
    lines = [f"The head's error goes over {arcsec(height)} in all, wherever the crank stands."]
    if bound:
        lines.append(
            f"As seen from the zero, the curve is known to ±{arcsec(bound)} at worst, 19 times in 20."
        )
    lines.append(f"One reading scattered by {arcsec(float(known.residual))} about it (standard deviation).")
    if known.table:
        lines.append(f"A table of {len(known.table)} points belongs to it, with straight lines between them.")
    if known.backlash is not None:
        lines.append(
            f"Turned back to a setting, the spindle stood {arcsec(float(known.backlash))} further on: the backlash."
        )
    return lines


def remains_text(worst_before: float, worst_after: float, bound: float, places: int) -> str:
    """Return what a correction leaves, looked at so many places round the spindle."""
    return (
        f"Looked at {places} places round the spindle, on the head's finest scale: with plain settings the worst is "
        f"{arcsec(worst_before)} out, with corrected ones {arcsec(worst_after)}. That much remains since the scale has "
        f"no finer places; beside it, what is not known of the errors: ±{arcsec(bound)}."
    )


def readings_table(known: KnownErrors, left: Sequence[float]) -> Table:
    """Return headings and a row for each reading that it was found from.

    left  what is left of each; nothing where that cannot be told
    """
    steps = any(one.begun is not None for one in known.readings)
    headings = (["from"] if steps else []) + ["setting", "gauge" if steps else "measured"]
    reverses = any(one.back for one in known.readings)
    headings += (["come to it"] if reverses else []) + (["left of it"] if left else [])
    rows = []
    for index, one in enumerate(known.readings):
        cells = [_degrees(one.begun)] if steps and one.begun is not None else [""] if steps else []
        cells += [_degrees(one.setting), arcsec(float(one.error))]
        cells += ["turning back" if one.back else "going on"] if reverses else []
        rows.append(cells + ([arcsec(left[index])] if left else []))
    return headings, rows


def _degrees(value: Fraction) -> str:
    return f"{decimal(value, 4)}°"
