"""Measure a part from files: its job where there is one, its readings, and the report to keep with it."""

from dataclasses import dataclass
from datetime import date as day
from typing import Any

from crankwise.errors import BadDivisions, BadFile, BadNumber
from crankwise.files.readings_csv import MOST_BYTES, Sheet, decoded
from crankwise.files.typed_file import typed_bytes
from crankwise.files.whole_file import write_whole
from crankwise.plan.plan import Plan
from crankwise.tasks.heads import load_head
from crankwise.tasks.inspect import inspect_sheet
from crankwise.tasks.job_accuracy import gear_of
from crankwise.tasks.job_file import LoadedJob, load_job
from crankwise.tasks.jobs import ways_for
from crankwise.tasks.judge_part import Judgement, judged, judged_size, judgement_answer
from crankwise.tasks.measure import today
from crankwise.tasks.measurement_report import report_bytes
from crankwise.tasks.measuring_card import size_named
from crankwise.tasks.part_readings import UNITS, typed_readings
from crankwise.tasks.sheet import chosen_way, read_paper


@dataclass(frozen=True, slots=True)
class MeasuredPart:
    """A part that was measured.

    name  of the part;  plan  how it was divided; None without a job
    what  the line of the measuring card that was measured; empty for all else
    """

    judged: Judgement
    name: str
    plan: Plan | None
    what: str = ""


def measured_part(
    path: str,
    *,
    job: str | None = None,
    head: str | None = None,
    way: str | None = None,
    column: str = "pitch_um",
    of: str | None = None,
    teeth: str | None = None,
    module: str | None = None,
    dp: str | None = None,
    helix: str | None = None,
    rim: str | None = None,
    wanted: str | None = None,
    pins: str | None = None,
) -> MeasuredPart:
    """Return what a file of readings says of a part; all as typed, None where nothing was.

    job     job file, from which the part, its head and the way follow; head and way go before what it says
    column  what a file without a heading holds, one of UNITS
    of      how a line of the measuring card begins, the size that was measured
    pins    diameter of the pins over which distances of holes were measured

    Raises Mendable.
    """
    sheet = part_sheet(path, column)
    if job is None:
        if of:
            raise BadDivisions("of", "a line of the measuring card, so name the job too: --job")
        return MeasuredPart(
            Judgement(inspect_sheet(sheet, teeth, module, dp, helix, rim, wanted, pins), None), "Part", None
        )
    if teeth or module or dp or helix:
        raise BadDivisions(
            "teeth, module, dp, helix", "given beside a job, which says them itself; leave them out"
        )
    loaded = load_job(job, with_head=head is None)
    plan = plan_of(loaded, head, way)
    gear = gear_of(loaded.made)
    name = loaded.job.name or loaded.made.name or "Part"
    if of:
        line = size_named(loaded.made.cards, of)
        return MeasuredPart(judged_size(plan, sheet, line, gear), name, plan, line.what)
    found = judged(plan, sheet, gear, rim or "", wanted or "", pins=pins or "")
    return MeasuredPart(found, name, plan)


def plan_of(loaded: LoadedJob, head: str | None = None, way: str | None = None) -> Plan:
    """Return the plan of a job: its head and its way, or those named in their place. Raises Mendable."""
    owned = load_head(head) if head else loaded.head
    if owned is None:
        raise BadDivisions("head", "the job file names none; name it, --head bench-head.toml")
    division = ways_for(loaded.job, owned, loaded.made)
    chosen = chosen_way(division, way or loaded.job.way or None)
    if chosen is None:
        raise BadDivisions("head", f"{owned.name} has no way to divide this part within the job's tolerance")
    return Plan(division.part, chosen)


def check_column(column: str) -> None:
    """Raise BadNumber for a column that is not read."""
    if column not in UNITS:
        raise BadNumber("measured", f"{column!r}; one of {', '.join(UNITS)}")


def part_sheet(path: str, column: str = "pitch_um") -> Sheet:
    """Return the readings of a part from a file, with or without a heading. Raises BadFile, FaultsFound."""
    check_column(column)
    content = typed_bytes(path, "a file of readings", " (CSV)", MOST_BYTES, "a few pages of text")
    name = path.replace("\\", "/").rpartition("/")[2]
    return typed_readings(decoded(content, name), column, name)


def write_report(
    found: MeasuredPart, path: str, date: str | None = None, paper: str = "A4", note: str = ""
) -> None:
    """Write the report of a measured part whole or not at all.

    date  of the measurement, as typed; today where nothing was

    Raises BadFile, BadNumber, MissingExtra.
    """
    if not path.lower().endswith(".pdf"):
        raise BadFile(f"{path}: a report is written as PDF; let the name end with .pdf")
    further = [("Note", note)] if note else []
    content = report_bytes(
        found.judged,
        found.name,
        read_date(date) if date else today(),
        found.plan,
        read_paper(paper),
        found.what,
        further,
    )
    write_whole(path, content)


def read_date(typed: str) -> str:
    """Return a date as 2026-03-14. Raises BadNumber when it is none."""
    try:
        return day.fromisoformat(typed.strip()).isoformat()
    except ValueError:
        raise BadNumber("date", f"{typed.strip()[:40]!r} is no day; write it as 2026-03-14") from None


def measured_part_answer(found: MeasuredPart) -> dict[str, Any]:
    """Return it as a plain object, ready for JSON."""
    answer = judgement_answer(found.judged)
    if found.what:
        answer["of"] = found.what
    if found.plan:
        answer |= {"part": found.name, "head": found.plan.head.name, "way": found.plan.way.key}
    return answer
