"""The run sheet of a job or a run as a file: PDF for clipboard or wall, tables, one HTML page by itself."""

from crankwise.tasks.job_plan import job_made
from crankwise.tasks.sheet import Form, Wall, read_paper, sheet_bytes
from crankwise.web.answers import Download, file_name
from crankwise.web.asked_sheet import asked_sheet
from crankwise.web.visit import Visit

_TYPES: dict[Form, str] = {
    "csv": "text/csv; charset=utf-8",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
    "pdf": "application/pdf",
    "html": "text/html; charset=utf-8",
}


def csv(visit: Visit) -> Download:
    """Hand out the sheet as CSV."""
    return _file(visit, "csv")


def xlsx(visit: Visit) -> Download:
    """Hand out the sheet as a workbook."""
    return _file(visit, "xlsx")


def pdf(visit: Visit) -> Download:
    """Hand out the sheet as PDF; `?paper=letter` for the other size.

    `?wall=1` for the form for the wall, to be read from two metres; `?wall=near` from one.
    """
    return _file(visit, "pdf")


def html(visit: Visit) -> Download:
    """Hand out the sheet as one page that needs nothing else."""
    return _file(visit, "html")


def _file(visit: Visit, form: Form) -> Download:
    sheet = asked_sheet(visit)
    paper = read_paper(visit.query.get("paper", "A4"))
    asked = visit.query.get("wall", "")
    wall: Wall | None = ("near" if asked == "near" else "far") if asked else None
    made = job_made(sheet.job.asked)
    name = sheet.job.name
    content = sheet_bytes(
        sheet.plan, name, form, paper, made.cautions, sheet.link, made.setup, sheet.passes, wall
    )
    plain = file_name(name, "run-sheet")
    return Download(content, _TYPES[form], f"{plain}{'-wall' if wall else ''}.{form}")
