"""Bring readings of a head: see what they tell and what stands out, and keep them as a calibration."""

from typing import Any

from crankwise.draw.head_errors import Left, head_errors
from crankwise.errors import BadNumber, Mendable
from crankwise.files.readings_csv import decoded, read_sheet
from crankwise.head.calibrated import keeps, with_calibration
from crankwise.head.known_errors import REFERENCES
from crankwise.tasks.calibrations import calibrations_answer
from crankwise.tasks.measure import Fit, fit_answer, fit_sheet, today
from crankwise.tasks.workshop import KeptHead
from crankwise.web.answers import Answer, GoTo, Page
from crankwise.web.errors import sentences_of
from crankwise.web.objects import head_object
from crankwise.web.visit import Visit
from crankwise.wording.calibration import REFERENCE_NAMES
from crankwise.wording.fields import options_as_fields
from crankwise.wording.measure import TEST, fit_notes, found_table

_FIELDS = ("readings", "date", "reference", "only", "without", "gaps")
_PASTED = "what was pasted"


def show(visit: Visit) -> Page:
    """Show where to bring readings."""
    kept = visit.workshop.head(visit.id("head_id"))
    return _page(kept, dict.fromkeys(_FIELDS, "") | {"date": today()})


def take_in(visit: Visit) -> Answer:
    """Show what the readings tell; keep it where that was asked."""
    kept = visit.workshop.head(visit.id("head_id"))
    typed = {name: visit.typed(name) for name in _FIELDS} | {"date": visit.typed("date") or today()}
    try:
        source = visit.upload_name if visit.upload else _PASTED
        if visit.upload:
            typed["readings"] = decoded(visit.upload, source)
        if not typed["readings"]:
            raise BadNumber("readings", "none; choose the file that was filled in, or paste its text")
        found = fit_sheet(
            kept.head,
            read_sheet(typed["readings"], source),
            typed["date"],
            typed["only"] or None,
            typed["without"],
            bool(typed["gaps"]),
            typed["reference"],
        )
    except Mendable as error:
        return _page(kept, typed, error=error)
    if not visit.typed("keep"):
        return _page(kept, typed, found)
    now = visit.workshop.change_head(kept.id, lambda head: with_calibration(head, found.known))
    answer = head_object(now) | {"calibrations": calibrations_answer(now.head)}
    return GoTo(f"/heads/{kept.id}#calibrations", answer)


def _page(
    kept: KeptHead, typed: dict[str, str], found: Fit | None = None, error: Mendable | None = None
) -> Page:
    values = {
        "kept": kept,
        "filled": typed,
        "references": [("", "not said"), *((key, REFERENCE_NAMES[key]) for key in REFERENCES)],
        "found": _found(found) if found else None,
        "sentences": sentences_of(error),
    }
    as_json = fit_answer(found) if found else {"head": head_object(kept)}
    return Page("head_readings.html", values, as_json, error=error)


def _found(found: Fit) -> dict[str, Any]:
    calibration = found.calibration
    out = {one.reading.number for one in calibration.outliers}
    rows = list(zip(calibration.readings.readings, calibration.solved.residuals, strict=True))
    left = [Left(float(one.place % 1), residual, one.number in out) for one, residual in rows]
    in_force = found.head.known_errors
    return {
        "date": found.known.date,
        "table": found_table(calibration.found, calibration.solved.freedom),
        "notes": [options_as_fields(note) for note in fit_notes(calibration, found.band, found.height)],
        "test": TEST,
        "picture": head_errors(found.known, left),
        "later": in_force.date if in_force and in_force != found.known else "",
        "is_new": not keeps(found.before, found.known),
    }
