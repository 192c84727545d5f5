"""Measure the part: what the measuring card asks for, typed place by place, and what it says."""

from dataclasses import replace
from typing import Any

from crankwise.draw.pitch_errors import pitch_errors
from crankwise.errors import BadNumber, FaultsFound, Mendable
from crankwise.files.readings_csv import decoded
from crankwise.plan.plan import Plan
from crankwise.tasks.job_accuracy import gear_of, needs_rim
from crankwise.tasks.job_plan import job_made
from crankwise.tasks.judge_part import Judgement, judgement_answer
from crankwise.tasks.kept_parts import TypedMeasurement, judged_measurement, measurement_answer
from crankwise.tasks.measure import today
from crankwise.tasks.measure_part import read_date
from crankwise.tasks.measurement_report import class_limits, judged_lines, report_bytes
from crankwise.tasks.sheet import read_paper
from crankwise.tasks.workshop import KeptJob
from crankwise.web.answers import Answer, Download, GoTo, Page, file_name
from crankwise.web.errors import sentences_of
from crankwise.web.measure_form import Question, placed, questions, read_form
from crankwise.web.visit import Visit
from crankwise.wording.inspection import verdict_text
from crankwise.wording.run import asked_text

LONGEST_NOTE = 1000
LONGEST_PIECE = 40
MOST_READINGS = 400_000
"""Characters of readings that a workshop keeps of one part."""


def show(visit: Visit) -> Page:
    """Ask for the readings; `?what=pitch` says of what, `?run=7` which run made the part."""
    job = visit.workshop.job(visit.id("job_id"))
    return _page(visit, job, visit.query.get("what", ""), run_id=_run_named(job, visit.query.get("run", "")))


def act(visit: Visit) -> Answer:
    """Look at what was typed, keep it, or hand out its report."""
    job = visit.workshop.job(visit.id("job_id"))
    what = visit.typed("what")
    question = _question(visit, job, what)
    run_id = None
    try:
        run_id = _run_named(job, visit.typed("run"))
        plan = visit.workshop.run(run_id).plan if run_id is not None else job.plan
        uploaded = decoded(visit.upload, visit.upload_name) if visit.upload else ""
        typed = read_form(question, visit.form, uploaded)
        read_piece(typed.piece)
        if len(typed.readings) > MOST_READINGS:
            raise BadNumber(
                "readings", f"{len(typed.readings):,} characters; at most {MOST_READINGS:,} are kept"
            )
        found = judged_measurement(plan, job_made(job.asked), typed)
        date = read_date(visit.typed("date")) if visit.typed("date") else today()
        note = visit.typed("note")
        if len(note) > LONGEST_NOTE:
            raise BadNumber("note", f"{len(note):,} characters; {LONGEST_NOTE:,} at most")
    except Mendable as error:
        return _page(visit, job, what, error=error, run_id=run_id)
    if visit.typed("do") == "keep":
        kept = visit.workshop.keep_measurement(job.id, typed, date, run_id, note)
        return GoTo(f"/jobs/{job.id}/measured/{kept.id}", measurement_answer(kept, found))
    if visit.typed("do") == "report":
        return report(visit, job, plan, found, date, typed, run_id, note)
    filled = dict(visit.form)
    if visit.upload:
        filled["readings"] = typed.readings
    return _page(visit, job, what, found=found, filled=filled, run_id=run_id)


def report(
    visit: Visit,
    job: KeptJob,
    plan: Plan,
    found: Judgement,
    date: str,
    typed: TypedMeasurement,
    run_id: int | None = None,
    note: str = "",
) -> Download:
    """Return the report of a measured part as a file to keep; `paper` as asked for. Raises BadFile, MissingExtra."""
    paper = read_paper(visit.typed("paper") or visit.query.get("paper", "A4"))
    further = [("Run", str(run_id))] if run_id in job.run_ids else []
    further += [("Piece", typed.piece)] if typed.piece else []
    further += [("Note", note)] if note else []
    content = report_bytes(found, job.name, date, plan, paper, typed.of, further)
    plain = file_name(job.name, "part")
    return Download(content, "application/pdf", f"{plain}-measured.pdf")


def read_piece(typed: str) -> str:
    """Return the number or mark of a piece. Raises BadNumber when it is no short one."""
    if len(typed) > LONGEST_PIECE:
        raise BadNumber(
            "piece", f"{len(typed):,} characters; a number or a short mark, {LONGEST_PIECE} at most"
        )
    return typed


def result_values(found: Judgement, inch_first: bool) -> dict[str, Any]:
    """Return what is shown of a measured part: the verdict, its sentences, its picture."""
    part = found.found.part
    picture = ""
    if part is not None:
        wrong = next((cause.at for cause in found.found.causes if cause.name == "bad-setting"), None)
        place = None if wrong is None else list(found.found.numbers).index(wrong)
        limits = class_limits(found.found)
        picture = pitch_errors(part.cumulative, part.goes_round, *limits, wrong=place)
    return {
        "verdict": verdict_text(found.is_as_predicted, found.found.sizes),
        "lines": judged_lines(found, inch_first),
        "picture": picture,
    }


def _question(visit: Visit, job: KeptJob, what: str) -> Question:
    """Return what is measured: as asked, else the first there is."""
    asked = questions(job.plan, job_made(job.asked), visit.preferences.inch_first)
    return next((one for one in asked if one.key == what), asked[0])


def _run_named(job: KeptJob, typed: str) -> int | None:
    if not typed:
        return None
    if typed not in map(str, job.run_ids):
        raise BadNumber("run", f"{typed[:20]!r} is no run of this job")
    return int(typed)


def _page(
    visit: Visit,
    job: KeptJob,
    what: str,
    found: Judgement | None = None,
    error: Mendable | None = None,
    filled: dict[str, str] | None = None,
    run_id: int | None = None,
) -> Page:
    made = job_made(job.asked)
    inch_first = visit.preferences.inch_first
    asked = questions(job.plan, made, inch_first)
    question = next((one for one in asked if one.key == what), asked[0])
    form = visit.form if filled is None else filled
    wrong: dict[str, str] = {}
    if isinstance(error, FaultsFound):
        wrong = placed(error, question, form)
    sentences = sentences_of(error)
    if wrong and isinstance(error, FaultsFound):
        error_left = [fault for fault in error.faults if fault.message not in wrong.values()]
        sentences = [replace(fault, line=None).told() for fault in error_left]
    units = question.units
    usual = units[1][0] if inch_first and len(units) > 1 else units[0][0]
    values: dict[str, Any] = {
        "job": job,
        "asked": asked_text(job.plan),
        "questions": asked,
        "question": question,
        "form": form,
        "unit": form.get("unit") or usual,
        "date": form.get("date") or today(),
        "runs": [("", "not said"), *((str(run_id), f"run {run_id}") for run_id in job.run_ids)],
        "run": form.get("run", str(run_id or (job.run_ids[-1] if len(job.run_ids) == 1 else ""))),
        "run_id": run_id,
        "run_number": run_id,
        "needs_rim": needs_rim(job.plan, gear_of(made)),
        "wrong": wrong,
        "sentences": sentences,
        "found": found,
        **(result_values(found, inch_first) if found else {}),
    }
    as_json = judgement_answer(found) if found else _asked_object(job, asked)
    return Page("job_measure.html", values, as_json, error=error)


def _asked_object(job: KeptJob, asked: tuple[Question, ...]) -> dict[str, Any]:
    return {
        "job_id": job.id,
        "asks": [
            {
                "what": one.key,
                "title": one.title,
                "units": [column for column, _ in one.units],
                "readings": None if one.is_of_places else len(job.plan.part.divisions),
                "of": one.of or None,
            }
            for one in asked
        ],
    }
