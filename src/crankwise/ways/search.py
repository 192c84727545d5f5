"""Every way a head can divide, found and ranked."""

from fractions import Fraction

from crankwise.head.head import Head
from crankwise.part.divisions import Divisions
from crankwise.ways.ranking import ranked
from crankwise.ways.registry import methods
from crankwise.ways.way import Way


def find_ways(head: Head, divisions: Divisions, tolerance: Fraction | None = None) -> list[Way]:
    """Return every way to reach the divisions on this head, the best first.

    tolerance  how far out a position may be, in turns; None asks for exact ways first

    The list is empty when the head has no scale on which a full circle closes, or when it turns the work
    and the positions lie along a line, or the other way round.
    """
    if head.is_straight != divisions.is_straight:
        return []
    return ranked((way for method in methods(head) for way in method.ways(head, divisions)), tolerance)
