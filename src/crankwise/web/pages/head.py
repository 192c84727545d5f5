"""One head: its pictures, how far out it was measured to be, its file, and what can be done with it."""

from typing import Any

from crankwise.accuracy.calibration_doubt import amplitude_uncertainty
from crankwise.draw.head import head_faces
from crankwise.draw.head_errors import before_and_after, before_and_after_round, head_errors
from crankwise.errors import BadNumber
from crankwise.files.head_toml import write_head
from crankwise.head.calibrated import with_in_force
from crankwise.head.head import Head
from crankwise.tasks.calibrations import (
    KeptCalibration,
    calibration_in_force,
    calibration_mark,
    calibration_number,
    calibrations_answer,
    drop_calibration,
    kept_calibration,
)
from crankwise.web.answers import GoTo, Page
from crankwise.web.objects import head_object
from crankwise.web.visit import Visit
from crankwise.wording.calibration import (
    calibration_lines,
    how_measured,
    readings_table,
    remains_text,
    waves_table,
)
from crankwise.wording.head import described


def show(visit: Visit) -> Page:
    """Show one head; `?calibration=` shows one that is not in force."""
    kept = visit.workshop.head(visit.id("head_id"))
    head = kept.head
    in_force = calibration_in_force(head)
    asked = visit.query.get("calibration", "")
    number = calibration_number(head, asked) if asked else in_force
    values = {
        "kept": kept,
        "parts": described(head),
        "faces": head_faces(head),
        "toml": write_head(head),
        "in_force": in_force,
        "calibrations": _listed(head),
        "shown": _shown(kept_calibration(head, number)) if number else None,
    }
    return Page("head.html", values, head_object(kept) | {"calibrations": calibrations_answer(head)})


def _listed(head: Head) -> list[tuple[int, str, str]]:
    """Every calibration, the last one first: its number, its date, how it was measured."""
    numbered = list(enumerate(head.calibrations, 1))
    return [(number, known.date, how_measured(known)) for number, known in reversed(numbered)]


def _shown(one: KeptCalibration) -> dict[str, Any]:
    known, bound = one.known, one.bound
    unsure = [amplitude_uncertainty(known, index) for index in range(len(known.harmonics))]
    remains = remains_text(one.worst_before, one.worst_after, bound, len(one.rows)) if one.rows else ""
    return {
        "number": one.number,
        "mark": calibration_mark(known),
        "date": known.date,
        "in_force": one.in_force,
        "how": how_measured(known),
        "waves": waves_table(known, unsure) if known.harmonics else None,
        "lines": calibration_lines(known, one.height, bound),
        "picture": head_errors(known, one.left),
        "curves": [before_and_after(one.rows), before_and_after_round(one.rows)] if one.rows else [],
        "remains": remains,
        "readings": readings_table(known, [left.residual for left in one.left]) if known.readings else None,
    }


def put_in_force(visit: Visit) -> GoTo:
    """Put one of the head's calibrations in force; jobs and runs keep the head that they were planned with."""
    head_id = visit.id("head_id")
    number = calibration_number(visit.workshop.head(head_id).head, visit.typed("calibration"))
    now = visit.workshop.change_head(head_id, lambda head: with_in_force(head, number - 1))
    answer = head_object(now) | {"calibrations": calibrations_answer(now.head)}
    return GoTo(f"/heads/{head_id}#calibrations", answer)


def drop_one_calibration(visit: Visit) -> GoTo:
    """Drop one of the head's calibrations, once its owner says that the file that has it lies safe."""
    head_id = visit.id("head_id")
    visit.workshop.head(head_id)  # one that is not there is told before all else
    if not visit.typed("sure"):
        raise BadNumber("sure", "nothing was dropped; keep the head file first, and tick that you have it")
    number, mark = visit.typed("calibration"), visit.typed("mark")
    now = visit.workshop.change_head(head_id, lambda head: drop_calibration(head, number, mark))
    answer = head_object(now) | {"calibrations": calibrations_answer(now.head)}
    return GoTo(f"/heads/{head_id}#calibrations", answer)


def drop(visit: Visit) -> GoTo:
    """Take a head away; jobs made with it keep their own copy."""
    head_id = visit.id("head_id")
    visit.workshop.drop_head(head_id)
    return GoTo("/heads", {"dropped": head_id})
