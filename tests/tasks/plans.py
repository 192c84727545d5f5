"""Plans of parts to measure, on the bench head."""

from fractions import Fraction

from crankwise.files.head_toml import read_head
from crankwise.part.divisions import Divisions
from crankwise.part.gear import Gear
from crankwise.part.part import Part
from crankwise.plan.plan import Plan, planned
from tests.gear import BENCH_HEAD

GEAR = Gear(50, Fraction(2))


def plan_of(divisions: Divisions, rim_mm: int | None = 100) -> Plan:
    found = planned(read_head(BENCH_HEAD), Part(divisions, Fraction(rim_mm) if rim_mm else None, "space"))
    assert found is not None
    return found
