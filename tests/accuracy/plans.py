"""Plans on the shed's gear for the tests of this room."""

from fractions import Fraction

from crankwise.files.head_toml import read_head
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.part.part import Part, Work
from crankwise.plan.plan import Plan
from crankwise.ways.search import find_ways
from tests.gear import BENCH_HEAD

KNOWN = """
[errors]
worm_arcsec = 20
wheel_arcsec = [30, 60]
work_off_centre_mm = 0.02
"""


def plan_on(
    toml: str, divisions: EqualDivisions | AngleList, method: str, work: Work = "space", rim: str = "100"
) -> Plan:
    """Return the plan that divides so by the best way of this method."""
    way = next(way for way in find_ways(read_head(toml), divisions) if way.method == method)
    return Plan(Part(divisions, Fraction(rim), work), way)


def bench_plan(teeth: int, more: str = "", work: Work = "space") -> Plan:
    """Return the plan to cut so many teeth by the bench head's dial."""
    return plan_on(BENCH_HEAD + more, EqualDivisions(teeth), "dial", work)
