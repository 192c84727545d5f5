"""What its parts say: how large a head's errors really are, by the parts that were made on it and measured."""

from collections.abc import Mapping, Sequence

from crankwise.errors import Mendable
from crankwise.tasks.kept_parts import KeptMeasurement
from crankwise.tasks.learn_head import (
    HeadLesson,
    SeenPart,
    check_mark,
    lesson_answer,
    lesson_of,
    seen_part,
    usual_choice,
    with_learned,
)
from crankwise.tasks.workshop import KeptHead
from crankwise.web.answers import Answer, GoTo, Page
from crankwise.web.objects import head_object
from crankwise.web.visit import Visit
from crankwise.wording.learning import (
    RULE,
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
    kept = visit.workshop.measurements_on(head.id)
    return head, [(one, seen_part(jobs[one.job_id], one)) for one in kept if one.job_id in jobs]


def _chosen(offered: Offered, typed: Mapping[str, str]) -> set[int]:
    """Return the measurements to learn from: as ticked, else as usual."""
    ticked = {one.id for one, _ in offered if typed.get(f"m{one.id}")}
    return ticked or usual_choice(one for one, _ in offered)


def _lesson(head: KeptHead, offered: Offered, chosen: set[int]) -> HeadLesson:
    return lesson_of(head.head, [part for one, part in offered if one.id in chosen])


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
        "parts": [(one, part, one.id in chosen, why.get(id(part), "")) for one, part in offered],
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
        "source": found.source if found.used else "",
        "sentences": str(error).splitlines() if error else [],
    }
    return Page("head_parts.html", values, lesson_answer(found), error=error)
