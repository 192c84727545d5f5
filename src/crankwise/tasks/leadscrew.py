"""Read the leadscrew and the dial of a mill's slide, as typed."""

from fractions import Fraction

from crankwise.errors import BadNumber, FaultsFound
from crankwise.exact.length import read_length
from crankwise.exact.number import read_number
from crankwise.head.dial import Dial
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
            raise BadNumber(f"{given}: given without a leadscrew; say its lead too, as --leadscrew 5mm")
        return None
    if not marks.strip():
        raise BadNumber("marks: not told; say how many lines the leadscrew's dial has, as --marks 100")
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
