"""What a budget makes of a corrected way: the head's waves shrink to what is not known of them."""

from dataclasses import replace
from fractions import Fraction

import pytest

from crankwise.accuracy.budget import budget
from crankwise.accuracy.sources import SizedCause, causes
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.corrected import corrected_ways, uncorrected
from crankwise.plan.plan import Plan
from tests.gear import head

FINE_HEAD = """
name = "Fine head"
[worm]
wheel_teeth = 72
[dial]
marks = 100
vernier = 10
[errors]
worm_arcsec = 31
wheel_arcsec = 86
wheel_tooth_arcsec = 0
worm_twice_arcsec = 0
lock_arcsec = 0
dial_off_centre_mm = 0
[[calibrations]]
date = "2026-03-14"
freedom = 60
residual_arcsec = 2
harmonics = [
  { of = "wheel", order = 1, cosine_arcsec = -32, sine_arcsec = 79.8 },
  { of = "worm", order = 1, cosine_arcsec = 22.6, sine_arcsec = 21.2 },
]
covariance = [[0.25], [0, 0.25], [0, 0, 0.16], [0, 0, 0, 0.16]]
"""
PART = Part(EqualDivisions(127), Fraction(127), "space")


def plans() -> tuple[Plan, Plan]:
    way = corrected_ways(head(FINE_HEAD), PART.divisions)[0]
    return Plan(PART, uncorrected(way)), Plan(PART, way)


def by_name(plan: Plan) -> dict[str, SizedCause]:
    return {one.kind.name: one for one in causes(plan)}


def test_what_is_made_good_counts_as_far_as_it_is_not_known() -> None:
    plain, corrected = map(by_name, plans())
    assert [float(plain[name].size.low) for name in ("wheel", "worm")] == [86, 31]
    assert float(corrected["wheel"].size.high) == pytest.approx(1.96 * 0.5, abs=1e-3)
    assert float(corrected["worm"].size.high) == pytest.approx(1.96 * 0.4, abs=1e-3)
    for name in set(plain) - {"wheel", "worm"}:
        assert corrected[name] == plain[name]


def test_the_part_comes_out_better() -> None:
    plain, corrected = (budget(plan, 127.0) for plan in plans())
    # The wheel's 86 seconds alone are 53 micrometres of cumulative pitch at a 127 mm rim.
    assert corrected.head.cumulative < 4 < 50 < plain.head.cumulative
    assert corrected.part.cumulative < plain.part.cumulative


def test_what_was_asked_goes_first() -> None:
    _, corrected = plans()
    size = replace(by_name(corrected)["worm"].size, low=Fraction(7), high=Fraction(7))
    asked = {one.kind.name: one for one in causes(corrected, {"worm": size})}
    assert asked["worm"].known_from == "asked"
