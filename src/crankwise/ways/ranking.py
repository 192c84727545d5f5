"""Which way is put first, and why.

Those within the asked tolerance come first, the simplest of them first, then by worst error. Those
outside it come after, the nearest to good enough first. Where no tolerance was asked, only exact
ways count as within, so an approximate way is ranked by how far out it is.
"""

from collections.abc import Iterable
from fractions import Fraction

from crankwise.ways.way import Way


def is_within(way: Way, tolerance: Fraction | None) -> bool:
    """Return whether no position is further out than the tolerance, in turns; exact when none is asked."""
    return way.worst_error <= (tolerance or 0)


def ranked(ways: Iterable[Way], tolerance: Fraction | None = None) -> list[Way]:
    """Return the ways, the best first. Ties keep the order in which the ways were found."""

    def rank(way: Way) -> tuple[bool, Fraction | int, Fraction | int]:
        burden = way.burden.total
        if is_within(way, tolerance):
            return False, burden, way.worst_error
        return True, way.worst_error, burden

    return sorted(ways, key=rank)


def reason(best: Way, tolerance: Fraction | None = None) -> str:
    """Return in one sentence why this way is put first."""
    if is_within(best, tolerance):
        good = "exact" if best.exact else "within the tolerance"
        burden = best.burden
        todo = f"{_things(burden.to_set_up)} to set up, {_things(burden.to_count)} to count or look up at each move"
        return f"{good}, and the least to do: {todo}"
    if tolerance is None:
        return "no way is exact; this one has the smallest worst error"
    return "no way is within the tolerance; this one comes nearest"


def _things(count: int) -> str:
    return "nothing" if count == 0 else f"{count} thing{'' if count == 1 else 's'}"
