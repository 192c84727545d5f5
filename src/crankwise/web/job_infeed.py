"""A gear's page: what is read on it, and how much deeper that asks to go."""

from typing import Any

from crankwise.errors import Mendable
from crankwise.tasks.gear import Infeed
from crankwise.tasks.infeed import READINGS, infeeds, takes_readings
from crankwise.tasks.job_plan import job_of
from crankwise.tasks.workshop import KeptJob
from crankwise.web.errors import sentences_of
from crankwise.web.visit import Visit
from crankwise.wording.gear import infeed_text

FIELDS = (
    ("read_span", "A span reads", ("44.70mm", "1.760in")),
    ("read_pins", "Over the pins it reads", ("130.20mm", "5.126in")),
    ("read_chord", "The tooth calliper reads", ("1.60mm", "0.063in")),
)


def infeed_values(
    visit: Visit, job: KeptJob
) -> tuple[dict[str, Any], list[dict[str, Any]] | None, Mendable | None]:
    """Return what the page shows of readings, the same for a program, and what was wrong with one.

    Of a part on which none of these is read the page shows nothing, and a program gets None.
    """
    part = job_of(job.asked).part
    if not takes_readings(part):
        return {"reading_fields": ()}, None, None
    filled = {what: visit.query.get(what, "") for what in READINGS}
    wrong: Mendable | None = None
    found: tuple[Infeed, ...] = ()
    try:
        found = infeeds(part, filled) if any(filled.values()) else ()
    except Mendable as told:
        wrong = told
    inch_first = visit.preferences.inch_first
    values = {
        "reading_fields": [(name, label, filled[name], place[inch_first]) for name, label, place in FIELDS],
        "reading_sentences": sentences_of(wrong),
        "infeeds": [
            infeed_text(one.told, one.read_mm, one.meant_mm, one.deeper_mm, inch_first) for one in found
        ],
    }
    told_to_a_program = [
        {
            "what": one.what,
            "read_mm": float(one.read_mm),
            "meant_mm": one.meant_mm,
            "deeper_mm": one.deeper_mm,
            "pin_mm": None if one.pin_mm is None else float(one.pin_mm),
        }
        for one in found
    ]
    return values, told_to_a_program, wrong
