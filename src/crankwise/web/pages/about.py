"""What this is, what it is not, and the cautions."""

from crankwise import __version__
from crankwise.part.part import WORKS
from crankwise.web.answers import Page
from crankwise.web.visit import Visit
from crankwise.wording.cautions import cautions
from crankwise.wording.run import TRACE_FIRST, WITNESS_MARKS
from crankwise.wording.sheet import WORK_NOUNS


def show(visit: Visit) -> Page:
    """Show the page."""
    del visit
    by_work = {WORK_NOUNS[work][1]: cautions(work) for work in WORKS if work != "position"}
    values = {"version": __version__, "cautions": by_work, "advice": (WITNESS_MARKS, TRACE_FIRST)}
    return Page("about.html", values, {"version": __version__, "cautions": by_work})
