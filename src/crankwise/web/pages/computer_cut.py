"""Cut it in the computer first: one part by its seed, a wrong position, and how many parts come out."""

from typing import Any

from crankwise.accuracy.budget import Budget
from crankwise.accuracy.one_part import OnePart
from crankwise.accuracy.simulate import Spread
from crankwise.draw.deviation_spread import deviation_spread
from crankwise.errors import Mendable, MissingExtra
from crankwise.tasks.budget import budget_answer
from crankwise.tasks.computer_cut import (
    WORST,
    ManyParts,
    allowed_by_class,
    cut_answer,
    cut_many,
    cut_one,
    picture_of_cut,
    with_wrong,
)
from crankwise.tasks.workshop import KeptJob
from crankwise.web.answers import Page
from crankwise.web.errors import sentences_of
from crankwise.web.pages.job_accuracy import KEPT, predicted, typed_again
from crankwise.web.visit import Visit
from crankwise.wording.accuracy import both
from crankwise.wording.computer_cut import closed_text, many_lines, one_lines, titles, wrong_lines
from crankwise.wording.job_accuracy import neighbours_text, place_text, whole_text
from crankwise.wording.run import asked_text


def show(visit: Visit) -> Page:
    """Cut by `?seed=1`; `wrong` is a position set one hole, mark or notch too far, `parts` how many are cut."""
    job = visit.workshop.job(visit.id("job_id"))
    found = predicted(job, visit)
    seed = visit.query.get("seed", "").strip() or "1"
    wrong = visit.query.get("wrong", "").strip() or WORST
    shown: dict[str, Any] = {}
    answer: dict[str, Any] = {}
    missing, error = "", None
    many = None
    try:
        part = cut_one(found, seed)
        spoiled = with_wrong(part, found, wrong)
        many = cut_many(found, visit.query.get("parts", "").strip(), seed)
        shown = _shown(found, part, spoiled, many, visit.preferences.inch_first)
        answer = cut_answer(part, many, spoiled)
    except MissingExtra as told:
        missing = str(told)
    except Mendable as told:
        error = told
    values = {
        **_form(job, visit, found),
        **shown,
        "seed": seed,
        "wrong": visit.query.get("wrong", ""),
        "parts": visit.query.get("parts", ""),
        "closed": closed_text(found, visit.preferences.inch_first),
        "missing": missing,
        "sentences": sentences_of(error),
        "cut": bool(shown),
    }
    as_json = budget_answer(found, many.simulated if many else None) | {"job": job.id} | answer
    return Page("computer_cut.html", values, as_json, error=error)


def _form(job: KeptJob, visit: Visit, found: Budget) -> dict[str, Any]:
    return {
        "job": job,
        "asked": asked_text(job.plan),
        "again": typed_again(visit),
        "carried": [(name, visit.query[name]) for name in KEPT if visit.query.get(name, "").strip()],
        "place": place_text(found.plan),
    }


def _shown(
    found: Budget, part: OnePart, spoiled: OnePart, many: ManyParts, inch_first: bool
) -> dict[str, Any]:
    work, bounds = found.plan.part.work, many.simulated.bounds
    return {
        "one": picture_of_cut(part, found, titles(part, found, inch_first)),
        "one_lines": one_lines(part, inch_first),
        "has_band": allowed_by_class(found) is not None,
        "spoiled": picture_of_cut(spoiled, found, titles(spoiled, found, inch_first)),
        "spoiled_lines": wrong_lines(spoiled, found, allowed_by_class(found), inch_first),
        "spreads": [
            (neighbours_text(work), _picture(many.single, bounds.single, neighbours_text(work), inch_first)),
            (whole_text(work), _picture(many.cumulative, bounds.cumulative, whole_text(work), inch_first)),
        ],
        "many_lines": many_lines(many.simulated, found, inch_first),
        "next_seed": part.seed + 1,
    }


def _picture(spread: Spread, bound: float, what: str, inch_first: bool) -> str:
    most = spread.low + spread.step * len(spread.counts)
    texts = (
        both(spread.low, inch_first),
        f"19 in 20: {both(bound, inch_first)}",
        both(most, inch_first),
    )
    label = f"{what} of many parts, from {texts[0]} to {texts[2]}; 19 in 20 keep {both(bound, inch_first)}"
    return deviation_spread(spread.low, spread.step, spread.counts, bound, texts, label)
