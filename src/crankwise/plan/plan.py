"""A plan: the part, and the way chosen to divide it. Frozen, so that nothing moves under a run."""

from dataclasses import dataclass
from fractions import Fraction

from crankwise.head.head import Head
from crankwise.part.part import Part
from crankwise.ways.search import find_ways
from crankwise.ways.way import Reached, Way


@dataclass(frozen=True, slots=True)
class Plan:
    """What is made, and how it is divided."""

    part: Part
    way: Way

    @property
    def head(self) -> Head:
        """The head that the way divides on."""
        return self.way.head


def planned(
    head: Head, part: Part, way_key: str | None = None, tolerance: Fraction | None = None
) -> Plan | None:
    """Return the plan that uses the way with this key, or the best way when no key is given.

    tolerance  in turns, for the choice of the best; None when none was asked
    Returns None when the head has no such way.
    """
    if way_key and ":corrected=" in way_key:
        from crankwise.plan.corrected import find_corrected

        corrected = find_corrected(head, part.divisions, way_key)
        return Plan(part, corrected) if corrected else None
    for way in find_ways(head, part.divisions, tolerance):
        if way_key in (None, way.key):
            return Plan(part, way)
    return None


def ring_check(plan: Plan, reached: Reached) -> Fraction | None:
    """Return what the ring shows where the setting really puts the work, in the units of its numerals."""
    ring = plan.head.ring
    if ring is None:
        return None
    return ring.reading(reached.achieved if plan.head.ring_grows else -reached.achieved)
