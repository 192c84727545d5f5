"""Read the leadscrew and the dial of a mill's slide, as typed; and the slide as a thing owned."""

from dataclasses import replace
from fractions import Fraction

from crankwise.errors import BadDivisions, BadNumber, FaultsFound
from crankwise.exact.length import read_length
from crankwise.exact.number import as_text, read_number
from crankwise.head.dial import Dial
from crankwise.head.head import Head
from crankwise.head.slide import Slide
from crankwise.plan.leadscrew import Leadscrew
from crankwise.tasks.divide import whole_number


def asked_leadscrew(lead: str, marks: str, read_to: str) -> Leadscrew | None:
    """Return the leadscrew that was typed, or None where none was. Raises Mendable.

    lead     travel for one turn, a length
    marks    lines of its dial, all round
    read_to  the smallest part of a mark that is read; empty for a whole one
    """
    if not lead.strip():
        if marks or read_to:
            given = "marks" if marks else "read-to"
            raise BadNumber(given, "given without a leadscrew; say its lead too, as --leadscrew 5mm")
        return None
    if not marks.strip():
        raise BadNumber("marks", "not told; say how many lines the leadscrew's dial has, as --marks 100")
    finest = read_number(read_to, "read-to") if read_to else Fraction(1)
    try:
        return Leadscrew(read_length(lead, "leadscrew"), Dial(whole_number(marks, "marks"), finest, 0))
    except FaultsFound as error:
        raise FaultsFound(
            [
                fault if fault.place != "read_to" else fault.__class__("read-to", fault.message)
                for fault in error.faults
            ]
        ) from None


def slide_of(screw: Leadscrew) -> Head:
    """Return the slide of this screw as a job names it. Raises FaultsFound for a lead beyond belief."""
    name = f"Slide, {as_text(screw.lead_mm)} mm to a turn, {screw.dial.marks} marks"
    numbered = 10 if screw.dial.marks >= 10 else 0
    return Head(name, dial=replace(screw.dial, numbered_every=numbered), slide=Slide(screw.lead_mm))


def screw_of(head: Head) -> Leadscrew:
    """Return the screw of a slide that is owned. Raises BadDivisions for a head that turns the work."""
    if head.slide is None or head.dial is None:
        raise BadDivisions(
            "head",
            f"{head.name} turns the work, and this is cut along a slide; its file has a [slide] with a lead",
        )
    return Leadscrew(head.slide.lead_mm, head.dial)
