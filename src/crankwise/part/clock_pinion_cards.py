"""The preparation card and the measuring card of a clock pinion: cut by itself, and not of the wheel's brass.

Common practice; judgement. No size of a leaf is told: they are the cutter's.
"""

from crankwise.exact.number import PI
from crankwise.part.card import Card, CardLine
from crankwise.part.clock_wheel import ClockWheel
from crankwise.part.usual_lines import CLOSING, TRACE


def pinion_preparation_card(wheel: ClockWheel) -> Card:
    """Return what to have ready before the first space of the pinion, in the order of work."""
    return Card(
        "Preparation",
        (
            CardLine("pinion, pitch diameter", wheel.pinion_pitch_diameter_mm, "mm"),
            CardLine(
                "pinion, outside diameter",
                note="from the table that comes with the cutter: it belongs to the cutter's form",
            ),
            CardLine(
                "pinion cutter",
                using=f"cycloidal pinion cutter of this module for {wheel.leaves} leaves",
                note="roughing slot first; its own depth, from the same table",
            ),
            CardLine(
                "blank",
                note="silver steel, or another steel that hardens; one at a time, best in one piece with its arbor; "
                "it must run true, and its free end is held on a centre: a thin blank springs from the cutter",
            ),
            CardLine("cutter on centre", note="and square: a leaf cut off centre leans, and it shows"),
            TRACE,
            CardLine(
                "after cutting",
                note="harden, temper and polish the leaves; then see that the arbor still runs true",
            ),
        ),
    )


def pinion_measuring_card(wheel: ClockWheel) -> Card:
    """Return what to check of the pinion, and what to do if it is off."""
    return Card(
        "Measuring",
        (
            CardLine(
                "centre distance",
                wheel.centres_mm,
                "mm",
                note="set with its wheel in a depthing tool before the plates are drilled; it matters more than "
                "the form of the leaves",
            ),
            CardLine(
                "pitch, from leaf to leaf",
                PI * wheel.module_mm,
                "mm",
                note="round the pitch circle, as of the wheel",
            ),
            CardLine("last space", note="a last leaf thinner than the others: the count or the step was off"),
            CLOSING,
        ),
    )
