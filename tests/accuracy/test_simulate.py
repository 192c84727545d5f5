"""Closed form, simulation and a plain machine of the oracle: three roads to the same figures."""

import sys
from fractions import Fraction

import numpy as np
import pytest

from crankwise.accuracy.bounds import bounds
from crankwise.accuracy.pitch_law import PitchLaw, Range, Scatter, Wave
from crankwise.accuracy.simulate import batches, simulate
from crankwise.accuracy.sources import causes, pitch_law
from crankwise.errors import BadNumber, MissingExtra
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.plan.plan import Plan
from tests.accuracy.plans import KNOWN, bench_plan, plan_on
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD
from tests.oracle.cut_gears import Machine, errors_of_one_gear, worst_of

PLANS = {
    "127 by the dial": bench_plan(127),
    "127 by the dial, sizes known": bench_plan(127, KNOWN),
    "60 lines by the dial": bench_plan(60, work="line"),
    "12 by the dial": bench_plan(12),
    "40 on the plate": plan_on(PLATE_HEAD, EqualDivisions(40), "plain"),
    "28 on the plate": plan_on(PLATE_HEAD, EqualDivisions(28), "plain"),
    "30 on the bull wheel": plan_on(BULL_WHEEL, EqualDivisions(30), "direct"),
    "100 by the ring": plan_on(BENCH_HEAD, EqualDivisions(100), "ring"),
    "a list of angles": plan_on(
        BENCH_HEAD, AngleList(tuple(Fraction(angle, 360) for angle in range(3, 200, 13))), "dial"
    ),
}


def law_of(plan: Plan) -> PitchLaw:
    return pitch_law(plan, causes(plan), 100.0)


@pytest.mark.parametrize("name", PLANS)
def test_closed_form_and_simulation_agree(name: str) -> None:
    law = law_of(PLANS[name])
    closed, cut = bounds(law), simulate(law, 40_000, seed=3)
    # Two parts in a hundred for the closed form's lattice, and three standard errors of the drawing.
    for ours, theirs, error in (
        (closed.single, cut.bounds.single, cut.error.single),
        (closed.cumulative, cut.bounds.cumulative, cut.error.cumulative),
    ):
        assert abs(ours - theirs) < 0.02 * theirs + 3 * error


@pytest.mark.parametrize("count", [2, 3, 5])
def test_of_few_positions_the_closed_form_is_never_on_the_easy_side(count: int) -> None:
    law = law_of(bench_plan(count))
    closed, cut = bounds(law), simulate(law, 40_000, seed=3)
    assert 0.97 * cut.bounds.single < closed.single < 1.15 * cut.bounds.single
    assert 0.97 * cut.bounds.cumulative < closed.cumulative < 1.1 * cut.bounds.cumulative


def test_where_one_exact_formula_is_known_the_simulation_meets_it_within_its_standard_error() -> None:
    scatter = Scatter(Range(1.959964, 1.959964), (1.0,) * 10)
    cut = simulate(PitchLaw((0.0,) * 10, (scatter,), goes_round=True), 200_000, seed=11)
    assert abs(cut.bounds.cumulative - 4.474) < 3 * cut.error.cumulative + 0.0005


@pytest.mark.parametrize("name", ["127 by the dial", "28 on the plate"])
def test_variances_of_the_simulation_are_the_exact_ones(name: str) -> None:
    law = law_of(PLANS[name])
    from crankwise.accuracy.simulate import _Workshop

    errors = _Workshop(law, np.random.Generator(np.random.PCG64(5)), np).errors(60_000)
    for after, before in [*law.neighbours()[:5], (len(law.known) // 2, 0)]:
        difference = errors[:, after] - errors[:, before]
        # A sample's variance has a standard error of about sqrt(2 / n) of itself, less for bounded waves.
        assert difference.var() == pytest.approx(law.variance(after, before), rel=4 * (2 / 60_000) ** 0.5)
        error_of_mean = (law.variance(after, before) / 60_000) ** 0.5
        assert abs(difference.mean() - law.mean(after, before)) < 4 * error_of_mean


BENCH_SIZES = {
    "worm": (10.0, 60.0),
    "worm-twice": (2.0, 15.0),
    "wheel": (20.0, 120.0),
    "wheel-teeth": (10.0, 40.0),
    "lock": (2.0, 10.0),
    "work-off-centre": (0.025, 0.05),
    "tool": (0.002, 0.005),
}
DIAL_SIZES = {
    "dial-off-centre": (0.02, 0.1),
    "reading": (0.05, 0.1),
    "reading-pull": (0.0, 0.05),
    "parallax": (0.0, 0.1),
}


def machine_of(plan: Plan, sizes: dict[str, tuple[float, float]], marks: int) -> Machine:
    ratio = plan.head.ratio
    assert ratio is not None
    crank = [float(reached.achieved * ratio) for reached in plan.way.reached()]
    return Machine(int(ratio), len(crank), 100.0, crank, marks, 30.0, sizes)


@pytest.mark.parametrize(
    ("plan", "sizes", "marks"),
    [
        pytest.param(bench_plan(59), BENCH_SIZES | DIAL_SIZES, 100, id="59 by the dial"),
        pytest.param(
            plan_on(PLATE_HEAD, EqualDivisions(28), "plain"),
            BENCH_SIZES | {"index-pin": (0.01, 0.05)},
            0,
            id="28 on the plate",
        ),
        pytest.param(
            bench_plan(23, KNOWN),
            BENCH_SIZES
            | DIAL_SIZES
            | {"worm": (20.0, 20.0), "wheel": (30.0, 60.0), "work-off-centre": (0.02, 0.02)},
            100,
            id="23 by the dial, sizes known",
        ),
    ],
)
def test_of_2000_heads_cut_from_the_physics_alone_93_to_97_in_100_keep_the_bounds(
    plan: Plan, sizes: dict[str, tuple[float, float]], marks: int
) -> None:
    promised = bounds(law_of(plan))
    chance = np.random.default_rng(20_260)
    machine = machine_of(plan, sizes, marks)
    gears = [worst_of(errors_of_one_gear(machine, chance)) for _ in range(2000)]
    kept_single = sum(single <= promised.single for single, _ in gears) / 2000
    kept_cumulative = sum(cumulative <= promised.cumulative for _, cumulative in gears) / 2000
    assert 0.93 <= kept_single <= 0.97
    assert 0.93 <= kept_cumulative <= 0.97


def test_the_same_seed_cuts_the_same_gears_and_another_seed_others() -> None:
    law = law_of(PLANS["12 by the dial"])
    assert simulate(law, 500, 1) == simulate(law, 500, 1)
    assert simulate(law, 500, 1).bounds != simulate(law, 500, 2).bounds


def test_it_goes_in_batches_of_bounded_size_and_stops_when_nobody_asks_on() -> None:
    law = law_of(PLANS["127 by the dial"])
    cutting = batches(law, 10_000_000, 1)
    sizes = [len(next(cutting).single) for _ in range(3)]
    cutting.close()  # type: ignore[attr-defined]
    assert sizes == [503, 503, 503]
    whole = [len(batch.single) for batch in batches(law, 1200, 1)]
    assert sum(whole) == 1200


def test_a_wave_alone_needs_no_scatter() -> None:
    law = PitchLaw((0.0,) * 36, (Wave(Range(5, 5), tuple(i / 36 for i in range(36))),), goes_round=True)
    assert simulate(law, 2000, 1).bounds.cumulative == pytest.approx(10, rel=0.005)


def test_no_gears_or_a_seed_below_nought_are_refused() -> None:
    law = law_of(PLANS["12 by the dial"])
    with pytest.raises(BadNumber, match=r"simulate: 0 gears; from 1 to 10,000,000"):
        batches(law, 0, 1)
    with pytest.raises(BadNumber, match=r"seed: -1; a seed is 0 or more"):
        batches(law, 1, -1)


def test_without_its_package_it_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "numpy", None)
    with pytest.raises(MissingExtra, match=r"pip install 'crankwise\[accuracy\]'"):
        simulate(law_of(PLANS["12 by the dial"]), 10, 1)
