"""The measurement of a part as a file to keep with it."""

from fractions import Fraction
from typing import TYPE_CHECKING

from crankwise.accuracy.tolerance import STANDARDS
from crankwise.plan.plan import Plan
from crankwise.tasks.inspect import Inspection
from crankwise.tasks.job_accuracy import Judgement
from crankwise.wording.figures import decimal
from crankwise.wording.inspection import compared_lines, inspection_lines, measured_text
from crankwise.wording.run import asked_text
from crankwise.wording.ways import method_name, setup_text

if TYPE_CHECKING:
    from crankwise.sheets.pdf_pages import Paper


def report_bytes(
    judged: Judgement, name: str, date: str, plan: Plan | None = None, paper: "Paper" = "A4"
) -> bytes:
    """Return the report as a PDF.

    name  of the part;  date  of the measurement, as 2026-03-14
    plan  how it was divided; None where that is not known

    Raises MissingExtra.
    """
    from crankwise.sheets.measurement_report import Report, measurement_report_bytes

    found = judged.found
    facts = [("Measured", f"{measured_text(found.kind)}, {date}")]
    if plan:
        facts += [
            ("Made", f"{asked_text(plan)} on {plan.head.name}"),
            ("Divided by", f"{method_name(plan.way)}, {setup_text(plan.way)}"),
        ]
    findings = inspection_lines(found)
    if found.part is None:
        return measurement_report_bytes(Report(f"{name}: measured", facts, findings), paper)
    if judged.predicted:
        findings += compared_lines(found.part, judged.predicted)
    numbers = list(plan.part.divisions.numbers) if plan else range(len(found.part.single))
    table = [
        (str(number), _um(pitch), _um(error))
        for number, pitch, error in zip(numbers, found.part.single, found.part.cumulative, strict=True)
    ]
    report = Report(
        f"{name}: measured",
        facts,
        findings,
        found.part.cumulative,
        found.part.single,
        table,
        class_limits(found),
    )
    return measurement_report_bytes(report, paper)


def class_limits(found: Inspection) -> tuple[float, float]:
    """Return what the class that was reached allows single and cumulative pitch; 0 where there is no class."""
    if not found.gear or not found.reached or found.reached.gear is None:
        return 0.0, 0.0
    allowed = STANDARDS["iso-2013"].allowed(found.gear, found.reached.gear)
    return allowed.single_pitch, allowed.cumulative_pitch


def _um(value: float) -> str:
    return decimal(Fraction(value), 1)
