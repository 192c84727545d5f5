"""The form in which a measured part is typed: what can be measured of it, and a field for each place."""

from collections.abc import Mapping
from dataclasses import dataclass

from crankwise.errors import Fault, FaultsFound
from crankwise.plan.plan import Plan
from crankwise.tasks.job_accuracy import gear_of
from crankwise.tasks.kept_parts import TypedMeasurement
from crankwise.tasks.measuring_card import columns_of, measured_sizes
from crankwise.tasks.part_kinds import MadePart
from crankwise.wording.card import limits_text, value_text
from crankwise.wording.inspection import HOW, TITLES, UNIT_NAMES

MOST_FIELDS = 60
"""Readings that have a field each; more are pasted, or come as a file."""
PLACES = 8
"""Fields for a size at several places; those left empty were not measured."""
INCH_COLUMNS = {"pitch_um": "pitch_thou", "chord_mm": "chord_in", "size_mm": "size_in"}


@dataclass(frozen=True, slots=True)
class Question:
    """One thing that can be measured of a part.

    key     its name in an address
    title   what it is
    column  what its readings hold, in millimetres, micrometres or degrees
    how     how it is measured, and with what
    labels  of its fields, in order; none where there are too many for fields
    of      the line of the measuring card that it is; empty for all else
    should  what it should be, and its limits; empty where the card does not say
    """

    key: str
    title: str
    column: str
    how: str
    labels: tuple[str, ...]
    of: str = ""
    should: str = ""

    @property
    def units(self) -> list[tuple[str, str]]:
        """The columns that its readings may be typed in, each with the name of its unit."""
        columns = [self.column, *filter(None, [INCH_COLUMNS.get(self.column)])]
        return [(column, UNIT_NAMES[column]) for column in columns]

    @property
    def is_of_places(self) -> bool:
        """Whether it is a size at as many places as one likes."""
        return self.column == "size_mm"


def questions(plan: Plan, made: MadePart, inch_first: bool) -> tuple[Question, ...]:
    """Return what can be measured of a job's part, what its measuring card asks for first."""
    divisions = plan.part.divisions
    numbers = divisions.numbers
    named = [str(number) for number in numbers] if len(numbers) <= MOST_FIELDS else []
    on = [*named[1:], *named[:1]]
    between = tuple(f"{one} to {other}" for one, other in zip(named, on, strict=True))
    asked = [
        Question(
            kind.partition("_")[0],
            TITLES[kind],
            kind,
            HOW[kind],
            tuple(named) if kind == "position_deg" else between,
        )
        for kind in columns_of(plan.part, gear_of(made))
    ]
    places = tuple(f"place {place}" for place in range(1, PLACES + 1))
    for index, line in enumerate(measured_sizes(made.cards)):
        should = "; ".join(filter(None, (value_text(line, inch_first), limits_text(line, inch_first))))
        how = "; ".join(filter(None, (line.using, line.note)))
        asked.append(Question(f"size{index}", line.what, "size_mm", how, places, line.what, should))
    asked.append(Question("size", TITLES["size_mm"], "size_mm", HOW["size_mm"], places))
    return tuple(asked)


def read_form(question: Question, form: Mapping[str, str], uploaded: str = "") -> TypedMeasurement:
    """Return what was typed, the fields below one another.

    uploaded  the text of a file that was sent with it

    Raises FaultsFound when readings stand in two places, or some of them nowhere.
    """
    column = form.get("unit", "")
    if column not in dict(question.units):
        column = question.column
    fields = [form.get(f"r{index}", "").strip() for index in range(len(question.labels))]
    pasted = uploaded or form.get("readings", "").strip()
    if pasted and any(fields):
        raise FaultsFound(
            [Fault("readings", "typed in the fields and pasted or sent too; leave one of them empty")]
        )
    if not pasted:
        empty = [index for index, text in enumerate(fields) if not text]
        if not question.is_of_places and any(fields) and empty:
            told = "missing; every one is needed"
            raise FaultsFound([Fault(f"r{index}", told) for index in empty])
        if not any(fields):
            raise FaultsFound([Fault("readings", "none typed; write what was measured, one reading a line")])
        pasted = "\n".join(text for text in fields if text)
    typed = {name: form.get(name, "").strip() for name in ("rim", "pins", "wanted", "piece")}
    return TypedMeasurement(column, pasted, question.of, **typed)


def placed(error: FaultsFound, question: Question, form: Mapping[str, str]) -> dict[str, str]:
    """Return what is wrong with each field, by its name: a reading's line is its field where fields were typed."""
    filled = [index for index in range(len(question.labels)) if form.get(f"r{index}", "").strip()]
    wrong = {}
    for fault in error.faults:
        if fault.line is not None and 0 < fault.line <= len(filled):
            wrong[f"r{filled[fault.line - 1]}"] = fault.message
        elif fault.place[1:].isdecimal():
            wrong[fault.place] = fault.message
    return wrong
