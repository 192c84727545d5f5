"""Learn from measured parts what their head's errors really are; and take over of it what its owner agrees to."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from hashlib import sha256
from statistics import median
from typing import Any

from crankwise.accuracy.cause_kinds import KINDS
from crankwise.accuracy.inspected_part import Inspection
from crankwise.accuracy.learning import Lesson, learn
from crankwise.accuracy.waves_of_part import MeasuredPart
from crankwise.errors import BadNumber, Mendable, UnknownThing
from crankwise.exact.number import as_text
from crankwise.files.head_toml import write_head
from crankwise.head.error_sizes import ErrorSizes, Size
from crankwise.head.head import Head
from crankwise.plan.plan import Plan
from crankwise.tasks.answers import FORMAT
from crankwise.tasks.job_plan import job_made
from crankwise.tasks.kept_parts import KeptMeasurement, inspected_measurement
from crankwise.tasks.workshop import KeptJob
from crankwise.wording.inspection import cause_text
from crankwise.wording.learning import RULE

LEAST_POSITIONS = 8
"""Fewer leave next to nothing beside the waves of spindle and crank."""

GROSS = 6
"""Standard deviations from where a slip or a bad setting is left out; a chance pitch goes so far once in a lifetime."""
CHANGED = "the parts or the head have changed since this was shown; look again, then agree"


@dataclass(frozen=True, slots=True)
class SeenPart:
    """One measured part of a head, as it is offered to learn from.

    name    it goes by
    date    of its measurement, as 2026-03-14; empty where that is not known
    found   what was measured; None where it cannot be followed any more, and then `why` says so
    rim_mm  diameter at which its errors are told; None where only sizes were measured
    same    which part it is: measurements with the same text are of one part; empty for a part of its own
    """

    name: str
    date: str
    plan: Plan
    found: Inspection | None
    rim_mm: Fraction | None
    why: str = ""
    same: str = ""


@dataclass(frozen=True, slots=True)
class HeadLesson:
    """What parts say of a head.

    used      the measurements that were learnt from; those of one part were averaged, and it counts once
    left_out  the others, each with the reason
    """

    head: Head
    lesson: Lesson
    used: tuple[SeenPart, ...]
    left_out: tuple[tuple[SeenPart, str], ...]

    @property
    def source(self) -> str:
        """Where the sizes are from, as the head file says it."""
        told = f"{self.lesson.parts} measured parts"
        if len(self.used) > self.lesson.parts:
            told += f" ({len(self.used)} measurements)"
        dates = sorted(part.date for part in self.used if part.date)
        if not dates:
            return told
        return f"{told}, {dates[0]}" + (f" to {dates[-1]}" if dates[0] != dates[-1] else "")

    @property
    def mark(self) -> str:
        """A short text that differs as soon as something else would be taken over."""
        told = repr([(one.name, one.takes) for one in self.lesson.learned])
        return sha256(told.encode()).hexdigest()[:16]


def seen_part(job: KeptJob, kept: KeptMeasurement, same: str = "") -> SeenPart:
    """Return a kept measurement as a part to learn from.

    same  which part it is, by `same_part.parts_of`
    """
    try:
        found, rim_mm = inspected_measurement(kept.plan, job_made(job.asked), kept.typed)
    except Mendable as error:
        return SeenPart(job.name, kept.date, kept.plan, None, None, str(error), same)
    return SeenPart(job.name, kept.date, kept.plan, found, rim_mm, same=same)


def lesson_of(head: Head, parts: Sequence[SeenPart]) -> HeadLesson:
    """Return what parts say of a head. Parts that would mislead are left out, with the reason.

    A part that was measured more than once counts once, by the mean of its measurements.
    """
    left_out: list[tuple[SeenPart, str]] = []
    of_one: dict[str, list[SeenPart]] = {}
    for number, part in enumerate(parts):
        others = of_one.get(part.same, []) if part.same else []
        if why := _misleads(head, part) or _said_before(part, of_one) or _unlike(part, others):
            left_out.append((part, why))
        else:
            of_one.setdefault(part.same or f"alone {number}", []).append(part)
    measured = [_mean_of(these) for these in of_one.values()]
    known = head.error_sizes or ErrorSizes(())
    sizes = {kind.name: size for kind in KINDS.values() if (size := known.of(kind.size))}
    used = tuple(part for these in of_one.values() for part in these)
    return HeadLesson(head, learn(measured, sizes), used, tuple(left_out))


def _single(part: SeenPart) -> tuple[float, ...]:
    assert part.found is not None, "others were left out"
    assert part.found.part is not None, "others were left out"
    return part.found.part.single


def _said_before(part: SeenPart, before: Mapping[str, Sequence[SeenPart]]) -> str:
    """Return why it says nothing new; empty where it does."""
    twin = next((one for these in before.values() for one in these if _single(one) == _single(part)), None)
    return "" if twin is None else f"the very readings of {_name(twin)}: one part, counted once"


def _unlike(part: SeenPart, others: Sequence[SeenPart]) -> str:
    """Return why it cannot be averaged with other measurements of its part; empty where it can."""
    if all(one.rim_mm == part.rim_mm and len(_single(one)) == len(_single(part)) for one in others):
        return ""
    return (
        f"the part that is counted by {_name(others[0])} already, measured at another diameter or otherwise"
    )


def _name(part: SeenPart) -> str:
    return ", ".join(filter(None, (part.name, part.date)))


def _mean_of(these: Sequence[SeenPart]) -> MeasuredPart:
    """Return one part by the mean of its measurements, pitch by pitch."""
    first = these[0]
    assert first.found is not None, "others were left out"
    assert first.found.part is not None, "others were left out"
    assert first.rim_mm is not None, "others were left out"
    pitches = zip(*map(_single, these), strict=True)
    part = replace(first.found.part, single=tuple(sum(each) / len(these) for each in pitches))
    return MeasuredPart(first.plan, float(first.rim_mm), part)


def _misleads(head: Head, part: SeenPart) -> str:
    """Return why a part must not be learnt from; empty where it may be."""
    if part.found is None:
        return part.why
    if part.found.part is None or part.rim_mm is None:
        return "a size was measured, and that says nothing of the dividing"
    if part.plan.way.corrects:
        return "made at corrected settings, which took the head's waves out"
    if part.plan.head.worm != head.worm:
        return "made while the head's worm was described otherwise"
    if len(part.found.part.angles) < LEAST_POSITIONS:
        return f"fewer than {LEAST_POSITIONS} positions"
    # A slip that the last pitch takes back is sure, and moves all that came after it: it would pass for scatter.
    usual = GROSS * 1.4826 * median(map(abs, part.found.part.single))
    last = part.found.part.single[-1]
    spoilt = [
        cause
        for cause in part.found.causes
        if cause.name != "off-centre"
        and (
            abs(cause.size) > usual or (cause.name == "slip" and abs(last + cause.size) < abs(cause.size) / 2)
        )
    ]
    return cause_text(spoilt[0]) if spoilt else ""


def with_learned(found: HeadLesson, names: Collection[str], now: Head | None = None) -> Head:
    """Return a new head that knows these of the sizes that its parts show, and where they are from.

    names  of what is taken over: scatter, worm, wheel ...
    now    the head as it is kept; None where it cannot have changed since it was learnt of

    Raises UnknownThing for a name that nothing was learnt of, BadNumber when there is none, or the head was
    changed meanwhile.
    """
    if now is not None and now != found.head:
        raise BadNumber("take", CHANGED)
    offered: dict[str, tuple[tuple[str, Size], ...]] = {
        one.name: one.takes for one in found.lesson.learned if one.takes
    }
    for name in names:
        if name not in offered:
            told = ", ".join(offered) or "nothing"
            raise UnknownThing(f"take: {name!r} is nothing that these parts offer; they offer {told}")
    if not names:
        raise BadNumber("take", "nothing was chosen; say which of the sizes are to be taken over")
    sizes = {size: value for name in names for size, value in offered[name]}
    known = (found.head.error_sizes or ErrorSizes(())).taking(sizes, found.source)
    return replace(found.head, error_sizes=known)


def check_mark(found: HeadLesson, mark: str) -> None:
    """Raise BadNumber when something else would be taken over than was shown."""
    if mark != found.mark:
        raise BadNumber("take", CHANGED)


def lesson_answer(found: HeadLesson, taken: Head | None = None) -> dict[str, Any]:
    """Return it as a plain object, ready for JSON; sizes that are taken over are exact texts.

    taken  the head with what was taken over
    """
    return {
        "format": FORMAT,
        "head_name": found.head.name,
        "parts": found.lesson.parts,
        "measurements": len(found.used),
        "left_out": [{"part": part.name, "date": part.date, "why": why} for part, why in found.left_out],
        "rule": RULE,
        "learned": [
            {
                "name": one.name,
                "unit": one.unit,
                "size": one.size,
                "low": one.low,
                "high": one.high,
                "confidence": 0.95,
                "seen": one.is_seen,
                "thought": list(one.thought),
                "from": one.known_from,
                "takes": [
                    {"size": name, "low": as_text(size.low), "high": as_text(size.high)}
                    for name, size in one.takes
                ],
            }
            for one in found.lesson.learned
        ],
        "unsaid": [{"name": one.name, "parts_needed": one.parts or None} for one in found.lesson.unsaid],
        "mark": found.mark,
        "head": None if taken is None else write_head(taken),
    }
