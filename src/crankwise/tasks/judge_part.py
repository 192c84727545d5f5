"""A job's part as it was measured, beside what was predicted for it."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from crankwise.accuracy.bounds import Bounds
from crankwise.accuracy.budget import Budget
from crankwise.errors import BadLength, UnknownThing
from crankwise.exact.length import read_diameter, read_length
from crankwise.exact.number import as_text
from crankwise.files.readings_csv import Sheet
from crankwise.part.card import Card, CardLine
from crankwise.part.chordal import thickness_from_chord
from crankwise.part.depth import infeed_left_mm
from crankwise.part.gear import Gear
from crankwise.part.span import thickness_from_span
from crankwise.plan.plan import Plan
from crankwise.tasks.inspect import NO_LIMITS, Inspection, Limits, inspected, inspection_answer
from crankwise.tasks.job_accuracy import gear_size, job_budget, job_rim
from crankwise.tasks.part_readings import UNITS, column_of

MEASURING = "Measuring"
"""The title of a measuring card."""


@dataclass(frozen=True, slots=True)
class Judgement:
    """A part as it was measured, beside what was predicted for it.

    budget     its prediction; None where sizes were measured, which are not predicted
    deeper_mm  how much deeper the spaces of a gear must go for a tooth that measures outside its limits, in mm;
               below 0, too deep already; None where no infeed follows from what was measured
    """

    found: Inspection
    budget: Budget | None
    deeper_mm: float | None = None

    @property
    def predicted(self) -> Bounds | None:
        """What 19 parts in 20 keep; None where nothing is predicted."""
        return self.budget.part if self.budget else None

    @property
    def is_as_predicted(self) -> bool | None:
        """Whether both deviations are within the prediction; None where there is none."""
        if self.predicted is None or self.found.part is None:
            return None
        part = self.found.part
        return (
            part.single_pitch <= self.predicted.single and part.cumulative_pitch <= self.predicted.cumulative
        )


def judged(
    plan: Plan,
    sheet: Sheet,
    value: object = None,
    rim: str = "",
    wanted: str = "",
    limits: Limits = NO_LIMITS,
    pins: str = "",
) -> Judgement:
    """Return what the readings of a part say, beside what was predicted for it.

    value   the kind's own value, from which the gear's class follows
    rim     diameter at which errors are told, as typed; of a part that names none
    wanted  what sizes should be, as typed; empty where that was not said
    limits  of the sizes, low and high, in mm
    pins    diameter of the pins over which distances of holes were measured, as typed

    Raises Mendable.
    """
    found, rim_mm = inspected_part(plan, sheet, value, rim, wanted, limits, pins)
    return Judgement(found, None if rim_mm is None else job_budget(plan, value, f"{as_text(rim_mm)}mm"))


def inspected_part(
    plan: Plan,
    sheet: Sheet,
    value: object = None,
    rim: str = "",
    wanted: str = "",
    limits: Limits = NO_LIMITS,
    pins: str = "",
) -> tuple[Inspection, Fraction | None]:
    """Return the same without the prediction, and the diameter in mm at which errors are told; None for sizes.

    Holes whose job names no rim are told on the circle that their distances close on. Raises Mendable.
    """
    gear = gear_size(value)
    kind, _ = UNITS[column_of(sheet)]
    divisions = plan.part.divisions
    pins_mm = read_diameter(pins, "pins") if pins else None
    if pins_mm and kind != "chord_mm":
        raise BadLength("pins: distances of holes are measured over pins; leave it empty for all else")
    if kind == "size_mm":
        wanted_mm = read_length(wanted, "wanted") if wanted else None
        return inspected(sheet, None, None, wanted_mm, divisions, limits), None
    if kind == "chord_mm" and not rim and gear is None and plan.part.rim_mm is None:
        found = inspected(sheet, divisions=divisions, pins_mm=pins_mm)
        return found, Fraction(f"{found.diameter_mm:.6f}")
    rim_mm = job_rim(plan, gear, rim)
    return inspected(sheet, gear, rim_mm, None, divisions, pins_mm=pins_mm), rim_mm


def measured_sizes(cards: Sequence[Card]) -> tuple[CardLine, ...]:
    """Return what the measuring cards give a length and its limits for: each can be measured at several places."""
    return tuple(
        line
        for card in cards
        if card.title == MEASURING
        for line in card.lines
        if line.unit == "mm" and line.value is not None and (line.low, line.high) != (None, None)
    )


def size_named(cards: Sequence[Card], name: str) -> CardLine:
    """Return the line of the measuring cards that begins so. Raises UnknownThing."""
    lines = measured_sizes(cards)
    for line in lines:
        if line.what.lower().startswith(name.strip().lower()):
            return line
    told = "; ".join(line.what for line in lines)
    raise UnknownThing(
        f"of: {name!r} is not on the measuring card; " + (f"it has: {told}" if told else "this part has none")
    )


def limits_of(line: CardLine) -> Limits:
    """Return the limits of a card's line, exactly."""
    return (
        None if line.low is None else Fraction(line.low),
        None if line.high is None else Fraction(line.high),
    )


def judged_size(plan: Plan, sheet: Sheet, line: CardLine, value: object = None) -> Judgement:
    """Return what a size at several places says, held against the measuring card.

    value  the kind's own value: of a gear the infeed follows that its teeth ask for

    Raises Mendable.
    """
    if UNITS[column_of(sheet)][0] != "size_mm":
        raise BadLength(f"of: {line.what} is a size, and these readings are none; use size_mm or size_in")
    assert line.value is not None
    wanted = Fraction(line.value)
    found = inspected(sheet, None, None, wanted, plan.part.divisions, limits_of(line))
    return Judgement(found, None, _infeed(found, line, value))


def _infeed(found: Inspection, line: CardLine, value: object) -> float | None:
    """Return the infeed that a mean outside its limits asks for; pins are left out, as their size is not known here."""
    sizes = found.sizes
    if not isinstance(value, Gear) or sizes is None or None in (sizes.low, sizes.high):
        return None
    assert sizes.low is not None
    assert sizes.high is not None
    if sizes.low <= sizes.mean <= sizes.high:
        return None
    if spanned := re.fullmatch(r"span over (\d+) teeth", line.what):
        return infeed_left_mm(value, thickness_from_span(value, int(spanned[1]), float(sizes.mean)))
    if line.what == "chord of a tooth":
        thickness = thickness_from_chord(value, float(sizes.mean))
        return None if thickness is None else infeed_left_mm(value, thickness)
    return None


def judgement_answer(judged: Judgement) -> dict[str, Any]:
    """Return it as a plain object, ready for JSON: the inspection, and the prediction beside it."""
    predicted = judged.predicted
    deeper = {} if judged.deeper_mm is None else {"deeper_mm": judged.deeper_mm}
    return (
        inspection_answer(judged.found)
        | deeper
        | {
            "predicted": None
            if predicted is None
            else {
                "single_pitch_um": predicted.single,
                "cumulative_pitch_um": predicted.cumulative,
                "confidence": 0.95,
                "kept": judged.is_as_predicted,
            }
        }
    )
