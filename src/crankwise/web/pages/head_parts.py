"""What its parts say: how large a head's errors really are, by the parts that were made on it and measured."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from crankwise.errors import Mendable
from crankwise.tasks.kept_parts import KeptMeasurement
from crankwise.tasks.learn_head import (
    HeadLesson,
    SeenPart,
    check_mark,
    lesson_answer,
    lesson_of,
    seen_part,
    with_learned,
)
from crankwise.tasks.same_part import parts_of, usual_choice
from crankwise.tasks.workshop import KeptHead, KeptJob
from crankwise.web.answers import Answer, GoTo, Page
from crankwise.web.errors import sentences_of
from crankwise.web.objects import head_object
from crankwise.web.visit import Visit
from crankwise.wording.learning import (
    AGAIN,
    NOT_SAID,
    RULE,
    counted_by_text,
    counted_text,
    note_of,
    refusal_text,
    shown_text,
    takes_lines,
    thought_text,
    title_of,
    unsaid_text,
)

Offered = list[tuple[KeptMeasurement, SeenPart]]


def show(visit: Visit) -> Page:
    """Show what the parts say; `?m3=1&m5=1` learns from these measurements only."""
    head, offered = _offered(visit)
    return _page(head, offered, _chosen(offered, visit.query))


def take(visit: Visit) -> Answer:
    """Take over the sizes that were ticked: the head is kept anew, jobs and runs keep the one they have."""
    head, offered = _offered(visit)
    chosen = _chosen(offered, visit.form)
    found = _lesson(head, offered, chosen)
    names = [one.name for one in found.lesson.learned if visit.typed(f"take-{one.name}")]
    try:
        check_mark(found, visit.typed("mark"))
        kept = visit.workshop.change_head(head.id, lambda now: with_learned(found, names, now))
    except Mendable as error:
        return _page(head, offered, chosen, names, error)
    return GoTo(f"/heads/{head.id}", head_object(kept))


def _offered(visit: Visit) -> tuple[KeptHead, Offered]:
    head = visit.workshop.head(visit.id("head_id"))
    jobs = {job.id: job for job in visit.workshop.jobs() if job.head_id == head.id}
    kept = [one for one in visit.workshop.measurements_on(head.id) if one.job_id in jobs]
    parts = parts_of(kept)
    return head, [(one, _seen(jobs[one.job_id], one, parts[one.id])) for one in kept]


def _seen(job: KeptJob, one: KeptMeasurement, same: str) -> SeenPart:
    part = seen_part(job, one, same)
    return part if same or part.found is None else replace(part, found=None, why=NOT_SAID)


def _chosen(offered: Offered, typed: Mapping[str, str]) -> set[int]:
    """Return the measurements to learn from: as ticked, else as usual."""
    ticked = {one.id for one, _ in offered if typed.get(f"m{one.id}")}
    return ticked or usual_choice(one for one, _ in offered)


def _lesson(head: KeptHead, offered: Offered, chosen: set[int]) -> HeadLesson:
    return lesson_of(head.head, [part for one, part in offered if one.id in chosen])


def _not_counted(one: KeptMeasurement, part: SeenPart, offered: Offered, chosen: set[int]) -> str:
    """Return why a measurement that is not chosen need not be; empty where it is, or could well be."""
    if one.id in chosen:
        return ""
    twin = next(
        (kept for kept, its in offered if kept.id in chosen and part.same and its.same == part.same), None
    )
    return counted_by_text(twin.date) if twin else part.why


def _page(
    head: KeptHead,
    offered: Offered,
    chosen: set[int],
    names: Sequence[str] = (),
    error: Mendable | None = None,
) -> Page:
    found = _lesson(head, offered, chosen)
    why = {id(part): reason for part, reason in found.left_out}
    lesson = found.lesson
    values = {
        "kept": head,
        "parts": [
            (one, part, one.id in chosen, why.get(id(part), "") or _not_counted(one, part, offered, chosen))
            for one, part in offered
        ],
        "refusal": "" if lesson.is_enough else refusal_text(lesson, len(found.left_out)),
        "learned": [
            {
                "name": one.name,
                "title": title_of(one.name),
                "thought": thought_text(one),
                "shown": shown_text(one),
                "takes": takes_lines(one),
                "note": note_of(one),
                "ticked": one.name in names,
            }
            for one in lesson.learned
        ],
        "unsaid": [unsaid_text(one) for one in lesson.unsaid],
        "chosen": sorted(chosen),
        "mark": found.mark,
        "rule": RULE,
        "again": AGAIN,
        "counted": counted_text(lesson.parts, len(found.used)),
        "source": found.source if found.used else "",
        "sentences": sentences_of(error),
    }
    return Page("head_parts.html", values, lesson_answer(found), error=error)
