"""A new job: a head, a number of parts, what is made there; the rest is folded away."""

from crankwise.errors import BadDivisions, Mendable
from crankwise.part.part import WORKS
from crankwise.tasks.workshop import Asked
from crankwise.web.answers import Answer, GoTo, Page
from crankwise.web.errors import sentences_of
from crankwise.web.job_again import job_before, typed_before
from crankwise.web.objects import job_object
from crankwise.web.part_forms import PART_FORMS
from crankwise.web.visit import Visit
from crankwise.wording.sheet import WORK_NOUNS

_FIELDS = ("count", "angles", "start", "first", "last", "every", "rim", "within", "work")
FOLDED = ("angles", "start", "first", "last", "every", "rim", "within", "name")


def show(visit: Visit) -> Page:
    """Show the form; `?head=` chooses the head, `?from=` fills it in from a job."""
    return _page(visit, typed_before(visit) | dict(visit.query))


def keep(visit: Visit) -> Answer:
    """Keep the job, divided the best way there is."""
    typed = {name: visit.typed(name) for name in (*_FIELDS, "name", "head")}
    try:
        asked = Asked(**{name: typed[name] for name in _FIELDS})
        job = visit.workshop.new_job(head_chosen(typed["head"]), asked, typed["name"])
    except Mendable as error:
        return _page(visit, typed, error)
    return GoTo(f"/jobs/{job.id}", job_object(job))


def head_chosen(typed: str) -> int:
    """Return the number of the head that was chosen. Raises BadDivisions when it is none."""
    if not typed.isascii() or not typed.isdecimal() or len(typed) > 15:
        raise BadDivisions("head", "none chosen; choose the head to divide on")
    return int(typed)


def _page(visit: Visit, typed: dict[str, str], error: Mendable | None = None) -> Page:
    heads = [kept for kept in visit.workshop.heads() if not kept.head.is_straight]
    filled = {name: typed.get(name, "") for name in (*_FIELDS, "name", "head")}
    values = {
        "heads": heads,
        "forms": PART_FORMS.values(),
        "filled": filled,
        "works": {work: WORK_NOUNS[work][1] for work in WORKS},
        "unfolded": any(filled[name] for name in FOLDED),
        "sentences": sentences_of(error),
        "before": job_before(visit),
    }
    return Page("new_job.html", values, {"heads": [kept.head.name for kept in heads]}, error=error)
