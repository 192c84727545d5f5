"""The run sheet as a file: PDF for the clipboard, CSV for a spreadsheet, one HTML page by itself."""

import re

from crankwise.tasks.job_plan import job_made
from crankwise.tasks.sheet import Form, read_paper, sheet_bytes
from crankwise.web.answers import Download
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
    """Hand out the sheet as PDF; `?paper=letter` for the other size."""
    return _file(visit, "pdf")


def html(visit: Visit) -> Download:
    """Hand out the sheet as one page that needs nothing else."""
    return _file(visit, "html")


def _file(visit: Visit, form: Form) -> Download:
    job = visit.workshop.job(visit.id("job_id"))
    paper = read_paper(visit.query.get("paper", "A4"))
    plain = re.sub(r"[^a-z0-9]+", "-", job.name.lower()).strip("-")
    link = ""
    if visit.phone_site:
        link = (
            f"{visit.phone_site}/runs/{job.run_ids[-1]}"
            if job.run_ids
            else f"{visit.phone_site}/jobs/{job.id}"
        )
    made = job_made(job.asked)
    content = sheet_bytes(job.plan, job.name, form, paper, made.cautions, link, made.setup)
    return Download(content, _TYPES[form], f"{plain or 'run-sheet'}.{form}")
