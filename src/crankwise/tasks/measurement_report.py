"""The measurement of a part as a file to keep with it."""

from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from crankwise.accuracy.inspected_part import Inspection
from crankwise.accuracy.inspection import Inspected, Sizes
from crankwise.accuracy.tolerance import STANDARDS, allowed_as_reached
from crankwise.exact.length import INCH
from crankwise.plan.plan import Plan
from crankwise.tasks.judge_part import Judgement
from crankwise.wording.figures import decimal
from crankwise.wording.inspection import compared_lines, deeper_text, inspection_lines, measured_text
from crankwise.wording.run import asked_text
from crankwise.wording.ways import method_name, setup_text

if TYPE_CHECKING:
    from crankwise.sheets.pdf_pages import Paper

Rows = list[tuple[str, str, str]]


def report_bytes(
    judged: Judgement,
    name: str,
    date: str,
    plan: Plan | None = None,
    paper: "Paper" = "A4",
    what: str = "",
    further: Sequence[tuple[str, str]] = (),
) -> bytes:
    """Return the report as a PDF.

    name     of the part;  date  of the measurement, as 2026-03-14
    plan     how it was divided; None where that is not known
    what     what was measured, where a size has a name of its own: span over 15 teeth
    further  what else is to be kept with it, each a name and its value

    Raises MissingExtra.
    """
    from crankwise.sheets.measurement_report import Report, measurement_report_bytes

    found = judged.found
    facts = [("Measured", f"{what or measured_text(found.kind)}, {date}")]
    if plan:
        facts += [
            ("Made", f"{asked_text(plan)} on {plan.head.name}"),
            ("Divided by", f"{method_name(plan.way)}, {setup_text(plan.way)}"),
        ]
    facts += further
    findings = judged_lines(judged)
    title = f"{name}: measured"
    if found.part is None:
        table = _size_rows(found.sizes) if found.sizes else []
        report = Report(title, facts, findings, table=table, headings=("place", "mm", "in"))
        return measurement_report_bytes(report, paper)
    report = Report(
        title,
        facts,
        findings,
        found.part.cumulative,
        found.part.single,
        _pitch_rows(found.part, found.numbers),
        class_limits(found),
    )
    return measurement_report_bytes(report, paper)


def judged_lines(judged: Judgement, inch_first: bool = False) -> list[str]:
    """Return what a measured part says, and how it stands to its prediction, a line each."""
    found = judged.found
    lines = inspection_lines(found, inch_first)
    if judged.deeper_mm is not None:
        lines.append(deeper_text(judged.deeper_mm, inch_first))
    if judged.budget and found.part:
        lines += compared_lines(found.part, judged.budget, found.causes, inch_first)
    return lines


def _pitch_rows(part: Inspected, numbers: Sequence[int]) -> Rows:
    pitches = [_um(pitch) for pitch in part.single]
    pitches += [""] * (len(part.angles) - len(pitches))
    return [
        (str(number), pitch, _um(error))
        for number, pitch, error in zip(numbers, pitches, part.cumulative, strict=True)
    ]


def _size_rows(sizes: Sizes) -> Rows:
    return [
        (str(place), decimal(size, 3), decimal(size / INCH, 4)) for place, size in enumerate(sizes.all, 1)
    ]


def class_limits(found: Inspection) -> tuple[float, float]:
    """Return what the class that was reached allows single and cumulative pitch; 0 where there is no class."""
    allowed = allowed_as_reached(STANDARDS["iso-2013"], found.gear, found.reached)
    return (allowed.single_pitch, allowed.cumulative_pitch) if allowed else (0.0, 0.0)


def _um(value: float) -> str:
    return decimal(Fraction(value), 1)
