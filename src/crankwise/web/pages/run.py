"""The run: one position at a time, one tap a position."""

from dataclasses import replace
from fractions import Fraction

from crankwise.errors import Mendable, UnknownThing
from crankwise.exact.number import read_number
from crankwise.run.evidence import RING
from crankwise.run.guide import direction_test
from crankwise.run.journal import Entry
from crankwise.tasks.asked_passes import asked_passes
from crankwise.tasks.job_plan import job_made
from crankwise.tasks.runs_of_a_part import next_run, together
from crankwise.tasks.workshop import KeptRun
from crankwise.web.answers import Answer, GoTo, Page
from crankwise.web.asked_sheet import read_passes
from crankwise.web.objects import run_object
from crankwise.web.pages import job, run_json
from crankwise.web.run_after import after_values
from crankwise.web.run_panel import panel_values
from crankwise.web.typed_tap import typed_also, typed_tap
from crankwise.web.visit import Visit
from crankwise.wording.cautions import plan_cautions


def begin(visit: Visit) -> Answer:
    """Make a new run of a job, over the passes that were chosen, and go to it."""
    job_id = visit.id("job_id")
    asked = read_passes(visit.form)
    try:
        passes = asked_passes(visit.workshop.job(job_id).plan, asked)
        kept = visit.workshop.begin_run(job_id, passes)
    except Mendable as error:
        if visit.wants_json or not visit.form:
            raise
        return job.show(visit, asked, error)
    return GoTo(f"/runs/{kept.id}", run_object(kept))


def begin_again(visit: Visit) -> GoTo:
    """Make a new run of the same plan and passes; the old one stays as it is."""
    kept = visit.workshop.begin_again(visit.id("run_id"))
    return GoTo(f"/runs/{kept.id}", run_object(kept))


def begin_next(visit: Visit) -> GoTo:
    """Go on to the next run of the same part, as the next circle of a hole plate, over the passes of this one.

    One that was begun already is gone on with, so that a second tap makes no second run.
    """
    kept = visit.workshop.run(visit.id("run_id"))
    then = next_run(together(visit.workshop, visit.workshop.job(kept.job_id)), kept.job_id)
    if then is None:
        raise UnknownThing(f"run {kept.id}: its part has no further run to be made; all of them are done")
    passes = tuple({row.pass_number: row.work for row in kept.rows}.values())
    following = then.open_run or visit.workshop.begin_run(then.job.id, passes)
    return GoTo(f"/runs/{following.id}", run_object(following))


def show(visit: Visit) -> Page:
    """Show where the run stands; before the start `?ring=` says what a ring that cannot be set shows at zero."""
    kept = visit.workshop.run(visit.id("run_id"))
    typed = visit.query.get("ring", "").strip()
    ring_zero = None
    if typed and not kept.state.began:
        ring_zero = kept.watch.evidence().reading(RING, read_number(typed, RING)).value
    return _page(visit, kept, ring_zero=ring_zero)


def tap(visit: Visit) -> Answer:
    """Keep one tap, or several that came as JSON, and show where the run then stands.

    An answer to the direction test that goes against the head's description is asked once more
    before it is kept: it holds for the whole run.
    """
    run_id = visit.id("run_id")
    if visit.sent_json is not None:
        return run_json.take_in(visit)
    entry = typed_tap(visit)
    if entry.kind == "began" and "sure" not in visit.form:
        kept = visit.workshop.run(run_id)
        expected = direction_test(kept.plan.head).expected
        if (
            not kept.state.began
            and None not in (expected, entry.numbers_grow)
            and expected != entry.numbers_grow
        ):
            return _page(visit, kept, doubted=entry.numbers_grow, ring_zero=_ring_zero(kept, entry))
    also = typed_also(visit, entry)
    kept, counted = visit.workshop.tap(run_id, entry)
    if also is not None and (counted or _is_where_it_leads(kept, entry)):
        kept, _ = visit.workshop.tap(run_id, also)
    if visit.is_fragment or visit.wants_json:
        page = _page(visit, kept, moved_on=not counted and not _is_where_it_leads(kept, entry))
        return replace(page, as_json={**run_object(kept), "counted": counted})
    here = "/journal" if visit.typed("then") == "journal" else ""
    return GoTo(f"/runs/{run_id}{here}", run_object(kept))


def _ring_zero(kept: KeptRun, entry: Entry) -> Fraction | None:
    ring = kept.plan.head.ring
    if entry.angle is None or ring is None:
        return None
    return (entry.angle if kept.plan.head.ring_grows else -entry.angle) * ring.full_circle


def _is_where_it_leads(kept: KeptRun, entry: Entry) -> bool:
    """Whether the run stands where this tap would have brought it: then a repeat needs no remark."""
    state = kept.state
    match entry.kind:
        case "done" | "skipped":
            return bool(state.trail) and state.trail[-1].row == entry.row
        case "back":
            return state.at_row == entry.row
        case "paused" | "resumed":
            return state.paused is (entry.kind == "paused")
        case "undone":
            return all(fact.entry.tap != entry.of for fact in state.facts)
        case "began":
            return state.began
        case _:
            return any(fact.entry.tap == entry.tap for fact in state.facts)


def _page(
    visit: Visit,
    kept: KeptRun,
    doubted: bool | None = None,
    moved_on: bool = False,
    ring_zero: Fraction | None = None,
) -> Page:
    mark = "" if doubted is not None else f'"{kept.id}-{kept.state.entries}-{visit.preferences.written()}"'
    values = {"mark": mark, **panel_values(kept, doubted, moved_on, ring_zero)}
    if not kept.state.began:
        made = job_made(visit.workshop.job(kept.job_id).asked)
        values |= {
            "cautions": plan_cautions(kept.plan, made.cautions),
            "setup": [text for _, text in made.setup],
        }
    elif values["finished"]:
        made_of = visit.workshop.job(kept.job_id)
        runs = together(visit.workshop, made_of, visit.preferences.inch_first)
        values |= {"together": runs, "following": next_run(runs, kept.job_id)}
        values |= after_values(visit.workshop, kept, made_of)
    return Page("run.html", values, run_object(kept), "run_panel.html", mark=mark)
