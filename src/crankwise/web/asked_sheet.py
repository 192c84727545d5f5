"""Which run sheet a visitor asks for: of a job, with passes from the address, or of a run, with its own."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from urllib.parse import urlencode

from crankwise.plan.passes import Passes
from crankwise.plan.plan import Plan
from crankwise.tasks.asked_passes import AskedPasses, asked_passes
from crankwise.tasks.workshop import KeptJob
from crankwise.web.visit import Visit

PASS_FIELDS = ("cuts", "rough_depth", "finish_depth", "order", "circuits", "lengths")
"""The fields of the form that asks for passes, beside its tick for a trace."""


@dataclass(frozen=True, slots=True)
class AskedSheet:
    """One sheet.

    job      the job that it is of
    plan     its plan; of a run the one that it was begun with
    passes   once or more over the positions
    asked    what was typed for the passes; None for the sheet of a run
    address  of the sheet's page
    link     where a phone finds the run or the job; empty where that is not known
    """

    job: KeptJob
    plan: Plan
    passes: Passes
    asked: AskedPasses | None
    address: str
    link: str

    def query(self, **more: object) -> str:
        """Return what follows the address of the page or of a file of this sheet: ?trace=1&page=2."""
        typed = {name: value for name, value in asdict(self.asked).items() if value} if self.asked else {}
        if "trace" in typed:
            typed["trace"] = "1"
        told = urlencode(typed | more)
        return f"?{told}" if told else ""


def read_passes(given: Mapping[str, str]) -> AskedPasses:
    """Return what was typed in the fields that ask for passes."""
    fields = {name: given.get(name, "").strip() for name in PASS_FIELDS}
    return AskedPasses(bool(given.get("trace", "").strip()), **fields)


def asked_sheet(visit: Visit) -> AskedSheet:
    """Return the sheet that a visit asks for. Raises Mendable when its passes cannot be read, or not be made."""
    if "run_id" in visit.ids:
        run = visit.workshop.run(visit.id("run_id"))
        job = visit.workshop.job(run.job_id)
        passes = tuple({row.pass_number: row.work for row in run.rows}.values())
        address = f"/runs/{run.id}"
        link = f"{visit.phone_site}{address}" if visit.phone_site else ""
        return AskedSheet(job, run.plan, passes, None, f"{address}/sheet", link)
    sheet = replace(in_one_pass(visit), asked=read_passes(visit.query))
    assert sheet.asked is not None
    return replace(sheet, passes=asked_passes(sheet.plan, sheet.asked))


def in_one_pass(visit: Visit) -> AskedSheet:
    """Return the sheet of a job in one pass, whatever else is asked."""
    job = visit.workshop.job(visit.id("job_id"))
    leads_to = f"/runs/{job.run_ids[-1]}" if job.run_ids else f"/jobs/{job.id}"
    link = f"{visit.phone_site}{leads_to}" if visit.phone_site else ""
    asked = AskedPasses()
    return AskedSheet(job, job.plan, asked_passes(job.plan, asked), asked, f"/jobs/{job.id}/sheet", link)
