from fractions import Fraction
from itertools import pairwise

import pytest

from crankwise.accuracy.calibration import calibrate
from crankwise.accuracy.harmonics import Wave
from crankwise.accuracy.measuring_plan import REFERENCES, MeasuringPlan, measuring_plan
from crankwise.errors import BadNumber
from crankwise.head.head import Head
from tests.accuracy.measured_heads import HiddenHead
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, ROUND_TABLE, head, worm_head

WORM_HEADS = {"bench": BENCH_HEAD, "plate": PLATE_HEAD, "table": ROUND_TABLE}
ANY_ANGLE = [name for name, one in REFERENCES.items() if name not in ("polygon", "closure")]


def crank_turns(plan: MeasuringPlan) -> list[Fraction]:
    assert plan.head.ratio is not None
    return [point.place * plan.head.ratio for point in plan.points if not point.back]


@pytest.mark.parametrize("reference", ANY_ANGLE)
@pytest.mark.parametrize("name", WORM_HEADS)
@pytest.mark.parametrize("points", [25, 36, 60])
def test_there_are_eight_points_within_one_crank_turn_at_two_places_and_points_all_round(
    name: str, reference: str, points: int
) -> None:
    plan = measuring_plan(head(WORM_HEADS[name]), points, reference)
    turns = crank_turns(plan)
    assert len(turns) == points
    assert turns == sorted(turns)
    full = [
        whole
        for whole in {int(turn) for turn in turns}
        if sum(whole <= turn < whole + 1 for turn in turns) >= 8
    ]
    assert len(full) >= 2, full
    assert max(full) - min(full) > 10
    gaps = [float(after - before) for before, after in pairwise(turns)]
    assert max(gaps) <= float(plan.head.ratio or 1) / 4
    assert turns[-1] == plan.head.ratio


@pytest.mark.parametrize("reference", ANY_ANGLE)
@pytest.mark.parametrize("name", WORM_HEADS)
def test_what_is_planned_finds_what_is_hidden(name: str, reference: str) -> None:
    gear = head(WORM_HEADS[name])
    assert gear.ratio is not None
    plan = measuring_plan(gear, 36, reference)
    hidden = HiddenHead(gear.ratio)
    found = calibrate(hidden.measured([point.place for point in plan.points], 1.0, 11), gear.ratio)
    told = {one.wave: one.per_second for one in plan.told}
    assert set(told) == {Wave("wheel", 1), Wave("wheel", 2), Wave("worm", 1), Wave("worm", 2)}
    for one in found.found:
        # The scatter is 1 second, known to a fifth or so; the wave is as sure as the plan said.
        assert one.uncertainty / found.residual == pytest.approx(told[one.wave], rel=0.35)


@pytest.mark.parametrize("name", WORM_HEADS)
@pytest.mark.parametrize("points", [24, 36, 48])
def test_closure_tells_wheel_and_worm_too(name: str, points: int) -> None:
    gear = head(WORM_HEADS[name])
    assert gear.ratio is not None
    plan = measuring_plan(gear, points, "closure")
    assert plan.rounds * plan.steps == len(plan.points) <= points
    assert [point.step for point in plan.points] == [*range(1, plan.steps + 1)] * plan.rounds
    starts = [
        [point.place for point in plan.points[one * plan.steps : (one + 1) * plan.steps]]
        for one in range(plan.rounds)
    ]
    found = calibrate(HiddenHead(gear.ratio).stepped(starts, 30.0, 0.0, 1), gear.ratio)
    assert [round(one.amplitude, 6) for one in found.found] == [80, 12, 20, 5]


def test_every_setting_is_a_mark_or_a_hole() -> None:
    dial = measuring_plan(head(BENCH_HEAD), 30, "index")
    for point in dial.points:
        assert point.setting.reading is not None
        assert point.setting.reading.denominator == 1
        assert (point.setting.turns or 0) * 100 + point.setting.reading == point.place * 7200
    plate = measuring_plan(head(PLATE_HEAD), 30, "mirror")
    assert {point.setting.circle for point in plate.points} == {49}
    assert all(
        (point.setting.turns or 0) * 49 + (point.setting.holes or (0,))[0] == point.place * 40 * 49
        for point in plate.points
    )


def test_going_back_meets_the_same_places() -> None:
    plan = measuring_plan(head(BENCH_HEAD), 30, "index", reverse=True)
    there, back = plan.points[:30], plan.points[30:]
    assert [point.place for point in back] == [point.place for point in reversed(there)]
    assert all(point.back for point in back)
    assert not any(point.back for point in there)


def test_a_polygon_that_goes_into_the_ratio_is_told_to_be_blind() -> None:
    plan = measuring_plan(head(BENCH_HEAD), 36, "polygon")
    assert len(plan.points) == 13
    assert {one.wave.of for one in plan.told} == {"wheel"}
    assert plan.cannot_say[0].startswith(
        "nothing of the worm: every setting stops the crank at the same place"
    )


def test_an_index_table_of_whole_degrees_is_used_as_far_as_it_goes() -> None:
    plan = measuring_plan(head(BENCH_HEAD), 36, "index", steps=360)
    assert all((point.place * 360).denominator == 1 for point in plan.points)
    assert Wave("worm", 2) in {one.wave for one in plan.told}


def test_a_wheel_without_a_worm_is_measured_all_round() -> None:
    plan = measuring_plan(head(BULL_WHEEL), 24, "gauges")
    assert len(plan.points) == 24
    assert all(point.setting.notches == point.place * 60 for point in plan.points)
    assert {one.wave.of for one in plan.told} == {"wheel"}


@pytest.mark.parametrize(
    ("gear", "setting"),
    [
        (worm_head("90", "[stepper]\nsteps = 200\n"), "steps"),
        (head('name = "Ring"\n[ring]\ngraduations = 360\n'), "reading"),
    ],
)
def test_other_scales_are_measured_on_their_own_lines(gear: Head, setting: str) -> None:
    plan = measuring_plan(gear, 36, "mirror")
    assert all(getattr(point.setting, setting) is not None for point in plan.points)


@pytest.mark.parametrize(
    ("points", "reference", "steps", "message"),
    [
        (
            10,
            "mirror",
            None,
            "points: 10; 24 at least: 8 within one crank turn at two places, and 8 all round",
        ),
        (20, "index", None, "points: 20; 25 at least with this reference"),
        (5000, "index", None, "points: 5,000; at most 2,000"),
        (36, "index", 2, "steps: 2; a reference knows 3 angles or more"),
        (4, "closure", None, "points: 4; a round of closure has 6 steps or more"),
        (36, "closure", 40, "steps: 40; from 3 to the 36 points"),
    ],
)
def test_what_cannot_be_planned_is_refused(
    points: int, reference: str, steps: int | None, message: str
) -> None:
    with pytest.raises(BadNumber, match=message):
        measuring_plan(head(BENCH_HEAD), points, reference, steps)


def test_closure_goes_one_way_round() -> None:
    with pytest.raises(BadNumber, match="a closure run goes one way round"):
        measuring_plan(head(BENCH_HEAD), 36, "closure", reverse=True)
