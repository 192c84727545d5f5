"""Check a head file: what was understood, and what is worth a second look."""

from dataclasses import dataclass
from typing import Any

from crankwise.exact.number import as_text
from crankwise.head.findings import Finding, findings
from crankwise.head.head import Head
from crankwise.head.slide import Slide
from crankwise.tasks.answers import FORMAT
from crankwise.tasks.heads import load_head
from crankwise.wording.head import described


@dataclass(frozen=True, slots=True)
class HeadChecked:
    """A head that was read without a fault."""

    head: Head
    findings: tuple[Finding, ...]


def check_head(path: str) -> HeadChecked:
    """Return the head of a file with what is worth a second look.

    Raises BadFile when it cannot be opened, FaultsFound with all that is wrong in it.
    """
    head = load_head(path)
    return HeadChecked(head, findings(head))


def head_answer(checked: HeadChecked) -> dict[str, Any]:
    """Return the head as understood, as a plain object ready for JSON."""
    head = checked.head
    return {
        "format": FORMAT,
        "name": head.name,
        "ratio": as_text(head.ratio) if head.ratio and not head.slide else None,
        **(_of_slide(head.slide) if head.slide else {}),
        "dial_places": head.dial.places if head.dial else None,
        "ring_places": head.ring.places if head.ring else None,
        "circles": list(head.circles),
        "notched_wheels": sorted({wheel.notches for wheel in head.notched_wheels}),
        "understood": list(described(head)),
        "findings": [
            {"code": found.code, "place": found.place, "message": found.message} for found in checked.findings
        ],
    }


def _of_slide(slide: Slide) -> dict[str, Any]:
    travel = slide.travel_mm
    return {"lead_mm": as_text(slide.lead_mm), "travel_mm": None if travel is None else as_text(travel)}
