"""What a budget makes of a measured head: its waves as they were measured, or what a correction leaves of them."""

from dataclasses import replace
from fractions import Fraction
from math import cos, pi, sin, sqrt

import numpy as np
import pytest

from crankwise.accuracy.bounds import bounds
from crankwise.accuracy.budget import budget
from crankwise.accuracy.calibrated import lower_root
from crankwise.accuracy.cause_kinds import size_of
from crankwise.accuracy.pitch_law import Doubt
from crankwise.accuracy.simulate import simulate
from crankwise.accuracy.sources import SizedCause, causes, pitch_law
from crankwise.head.known_errors import KnownErrors
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.corrected import corrected_ways, uncorrected
from crankwise.plan.plan import Plan
from tests.accuracy.plans import plan_on
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
worm_twice_arcsec = 0
lock_arcsec = 0
dial_off_centre_mm = 0
[[calibrations]]
date = "2026-03-14"
freedom = 60
residual_arcsec = 2
harmonics = [
  { of = "wheel", order = 1, cosine_arcsec = -32, sine_arcsec = 79.8 },
  { of = "wheel", order = 2, cosine_arcsec = 3, sine_arcsec = 4 },
  { of = "worm", order = 1, cosine_arcsec = 22.6, sine_arcsec = 21.2 },
]
covariance = [
  [9], [4, 16], [-2, 1, 9], [0, 3, 1, 9], [1, 0, 2, 0, 4], [0, 1, 0, -1, 1, 4],
]
"""
COVARIANCE = np.array(
    [
        [9, 4, -2, 0, 1, 0],
        [4, 16, 1, 3, 0, 1],
        [-2, 1, 9, 1, 2, 0],
        [0, 3, 1, 9, 0, -1],
        [1, 0, 2, 0, 4, 1],
        [0, 1, 0, -1, 1, 4],
    ],
    dtype=float,
)
T_OF_60 = 2.000
"""Student's t for 60 degrees of freedom, 5 % on both sides together: any table of it, from memory."""
PART = Part(EqualDivisions(127), Fraction(127), "space")
ARCSEC_UM = 127_000 / 2 / 206_264.806


def plans(toml: str = FINE_HEAD) -> tuple[Plan, Plan]:
    way = corrected_ways(head(toml), PART.divisions)[0]
    return Plan(PART, uncorrected(way)), Plan(PART, way)


def by_name(plan: Plan) -> dict[str, SizedCause]:
    return {one.kind.name: one for one in causes(plan)}


def measured(plan: Plan) -> KnownErrors:
    assert plan.head.known_errors is not None
    return plan.head.known_errors


def waves_at(plan: Plan) -> list[list[float]]:
    """The six waves at every position, straight from where spindle and crank stand."""
    rows = []
    for reached in plan.way.reached():
        spindle = float(reached.achieved)
        angles = (spindle, 2 * spindle, float(reached.achieved * 72 % 1))
        rows.append([turning(2 * pi * angle) for angle in angles for turning in (cos, sin)])
    return rows


def test_corrected_settings_take_the_measured_waves_out_and_leave_what_is_not_known_of_them() -> None:
    plain, corrected = map(by_name, plans())
    assert set(plain) - set(corrected) == {"worm", "wheel", "further-waves"}
    assert set(corrected) - set(plain) == {"calibration"}
    for name in set(plain) & set(corrected):
        assert corrected[name] == plain[name]


def test_what_is_left_in_doubt_is_the_whole_covariance_seen_from_the_first_position() -> None:
    _, plan = plans()
    rows = np.array(waves_at(plan))
    slope = rows - rows[0]
    worst = sqrt(np.einsum("ij,jk,ik->i", slope, COVARIANCE, slope).max())
    told = by_name(plan)["calibration"]
    assert float(told.size.high) == pytest.approx(T_OF_60 * worst, rel=1e-3)
    assert told.known_from == "head file"


def test_waves_that_are_not_made_good_count_as_large_as_they_were_measured() -> None:
    plain, _ = map(by_name, plans())
    assert [float(plain[name].size.low) for name in ("wheel", "worm")] == [86, 31]
    assert float(plain["further-waves"].size.high) == pytest.approx(5)
    bare = FINE_HEAD.replace("worm_arcsec = 31\n", "").replace("wheel_arcsec = 86\n", "")
    found, _ = map(by_name, plans(bare))
    assert float(found["wheel"].size.low) == pytest.approx((32**2 + 79.8**2) ** 0.5, abs=1e-3)
    assert float(found["worm"].size.low) == pytest.approx((22.6**2 + 21.2**2) ** 0.5, abs=1e-3)
    assert (found["wheel"].known_from, found["wheel"].told_by) == ("head file", "calibration of 2026-03-14")
    assert plain["wheel"].told_by == ""
    told = FINE_HEAD.replace(
        "wheel_arcsec = 86\n", 'wheel_arcsec = 86\nfrom = { wheel_arcsec = "three rings" }\n'
    )
    assert by_name(plans(told)[0])["wheel"].told_by == "three rings"


def test_the_teeth_of_the_wheel_are_no_further_out_than_the_readings_scatter() -> None:
    plain, _ = map(by_name, plans())
    assert plain["wheel-teeth"].size == size_of("0", "3.92")
    told = FINE_HEAD.replace("worm_twice_arcsec = 0", "worm_twice_arcsec = 0\nwheel_tooth_arcsec = 7")
    assert float(by_name(plans(told)[0])["wheel-teeth"].size.high) == 7


def test_the_variance_of_the_doubts_is_that_of_the_covariance_matrix() -> None:
    _, plan = plans()
    law = pitch_law(plan, [by_name(plan)["calibration"]], 127.0)
    rows = np.array(waves_at(plan)) * ARCSEC_UM * T_OF_60 / 1.959964
    for one, other in ((1, 0), (64, 3), (100, 20)):
        slope = rows[one] - rows[other]
        assert law.variance(one, other) == pytest.approx(slope @ COVARIANCE @ slope, rel=1e-3)


def test_bounds_of_the_doubts_are_met_by_coefficients_drawn_from_the_covariance() -> None:
    _, plan = plans()
    law = replace(pitch_law(plan, [by_name(plan)["calibration"]], 127.0), known=(0.0,) * 127)
    chance = np.random.default_rng(4)
    drawn = chance.multivariate_normal(np.zeros(6), COVARIANCE, 20_000)
    errors = drawn @ np.array(waves_at(plan)).T * ARCSEC_UM * T_OF_60 / 1.959964
    around = np.hstack([errors, errors[:, :1]])
    single = np.quantile(np.abs(np.diff(around, axis=1)).max(axis=1), 0.95)
    cumulative = np.quantile(errors.max(axis=1) - errors.min(axis=1), 0.95)
    closed, cut = bounds(law), simulate(law, 20_000, seed=2).bounds
    assert closed.single == pytest.approx(single, rel=0.04)
    assert closed.cumulative == pytest.approx(cumulative, rel=0.04)
    assert cut.single == pytest.approx(single, rel=0.02)
    assert cut.cumulative == pytest.approx(cumulative, rel=0.02)


@pytest.mark.parametrize("count", [12, 59, 127])
@pytest.mark.parametrize("residual", ["0.2", "2", "20"])
def test_closed_form_and_simulation_agree_on_corrected_heads(count: int, residual: str) -> None:
    divisions = EqualDivisions(count)
    toml = FINE_HEAD.replace("residual_arcsec = 2", f"residual_arcsec = {residual}")
    plan = Plan(Part(divisions, Fraction(100), "space"), corrected_ways(head(toml), divisions)[0])
    law = pitch_law(plan, causes(plan), 100.0)
    closed, cut = bounds(law), simulate(law, 40_000, seed=3)
    for ours, theirs, error in (
        (closed.single, cut.bounds.single, cut.error.single),
        (closed.cumulative, cut.bounds.cumulative, cut.error.cumulative),
    ):
        assert abs(ours - theirs) < 0.025 * theirs + 3 * error


def test_few_readings_leave_the_scatter_itself_in_doubt() -> None:
    many, few = (
        by_name(plans(FINE_HEAD.replace("freedom = 60", f"freedom = {freedom}"))[1])["calibration"].size.high
        for freedom in (60, 3)
    )
    assert float(few / many) == pytest.approx(3.182 / 2.000, rel=1e-3)  # t of 3 and of 60, any table


def test_a_table_counts_with_the_scatter_of_its_readings() -> None:
    table = """
[[calibrations]]
date = "2026-03-14"
freedom = 60
residual_arcsec = 2
table = [[0, 0], [90, 40], [180, 0], [270, -40]]
"""
    toml = FINE_HEAD.partition("[[calibrations]]")[0].replace("wheel_arcsec = 86\n", "") + table
    plain, corrected = plans(toml)
    assert float(by_name(plain)["wheel"].size.high) == pytest.approx(40, rel=0.01)
    left = by_name(corrected)
    assert "wheel" not in left
    assert "worm" in left
    law = pitch_law(corrected, [left["calibration"]], 127.0)
    assert sqrt(law.variance(50, 0)) == pytest.approx(2 * sqrt(2) * ARCSEC_UM * T_OF_60 / 1.96, rel=1e-3)


def test_a_way_that_leaves_the_worm_alone_meets_none_of_its_waves() -> None:
    toml = FINE_HEAD + "[[notched_wheels]]\nnotches = 60\n"
    plan = plan_on(toml, EqualDivisions(30), "direct")
    assert not {"worm", "wheel", "further-waves", "calibration"} & set(by_name(plan))


def test_the_part_comes_out_better() -> None:
    plain, corrected = (budget(plan, 127.0) for plan in plans())
    # The wheel's 86 seconds alone are 53 micrometres of cumulative pitch at a 127 mm rim.
    assert corrected.head.cumulative < 11 < 50 < plain.head.cumulative
    assert corrected.part.cumulative < plain.part.cumulative


def test_what_was_asked_goes_first() -> None:
    _, corrected = plans()
    size = replace(by_name(corrected)["wheel-teeth"].size, low=Fraction(7), high=Fraction(7))
    asked = {one.kind.name: one for one in causes(corrected, {"worm": size})}
    assert asked["worm"].known_from == "asked"


def test_a_direction_without_doubt_has_no_curve_of_its_own() -> None:
    nought, one = Fraction(0), Fraction(1)
    assert lower_root([(nought,), (nought, one)]) == [[0, 0], [0, 1]]
    _, plan = plans(FINE_HEAD.replace("[9], [4, 16]", "[0], [0, 16]").replace("[-2, 1, 9]", "[0, 1, 9]"))
    law = pitch_law(plan, causes(plan), 127.0)
    assert sum(isinstance(part, Doubt) for part in law.parts) == 5
