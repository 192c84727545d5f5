"""What measured parts say of their head, on heads whose errors are hidden in the computer."""

from collections import Counter
from dataclasses import replace
from fractions import Fraction
from math import pi
from random import Random

import numpy as np
import pytest

from crankwise.accuracy.inspection import Inspected
from crankwise.accuracy.learning import LEAST_PARTS, Learned, Lesson, learn
from crankwise.accuracy.waves_of_part import MeasuredPart, part_waves
from crankwise.head.error_sizes import Size
from tests.accuracy.made_parts import Hidden, made_part, made_parts, plan_of
from tests.gear import PLATE_HEAD

PLANS = [
    plan_of(count, rim) for count, rim in ((60, 100), (97, 120), (59, 80), (127, 160), (50, 100), (103, 140))
]
TRUE = Hidden(wheel=40, worm=25, off_centre=0.005, scatter=12)


def of(lesson: Lesson, name: str) -> Learned:
    (found,) = (one for one in lesson.learned if one.name == name)
    return found


def test_waves_and_rest_are_those_of_another_least_squares() -> None:
    plan = plan_of(97)
    part = made_part(TRUE, plan, Random(3))
    found = part_waves(part, {})
    turns = np.array([float(one.achieved) for one in plan.way.reached()])
    known = np.array([float(one.achieved - one.target) for one in plan.way.reached()]) * pi * 100_000
    columns = [np.ones(97)]
    for cycles in (turns, turns * 72, turns * 144):
        columns += [np.cos(2 * pi * cycles), np.sin(2 * pi * cycles)]
    matrix = np.column_stack(columns)
    readings = np.array(part.part.cumulative) - known
    values, squares, *_ = np.linalg.lstsq(matrix, readings, rcond=None)
    assert found.squares == pytest.approx(float(squares[0]))
    assert found.freedom == 90
    for name, place in (("spindle", 1), ("crank", 3), ("crank-twice", 5)):
        wave = found.waves[name]
        assert (wave.cosine, wave.sine) == pytest.approx(tuple(values[place : place + 2]), abs=1e-6)
        inverse = np.linalg.inv(matrix.T @ matrix)
        unsure = float(squares[0]) / 90 * (inverse[place, place] + inverse[place + 1, place + 1]) / 2
        assert wave.variance == pytest.approx(unsure)
    assert found.per_arcsec == pytest.approx(0.2424068, abs=1e-6)


def test_a_circle_that_the_positions_cannot_tell_is_left_out() -> None:
    """At 36 parts of a 72:1 head the crank always stops at the same place."""
    found = part_waves(made_part(TRUE, plan_of(36), Random(1)), {})
    assert set(found.waves) == {"spindle"}
    lesson = learn(made_parts(TRUE, [plan_of(36)] * 5, 1), {})
    assert {one.name for one in lesson.unsaid} == {"worm", "worm-twice"}


def test_what_is_hidden_is_found_within_its_bounds_19_times_in_20() -> None:
    truth = {"scatter": 12 * 1.96, "worm": 25.0, "worm-twice": 0.0, "wheel": 40.0, "work-off-centre": 0.005}
    held: Counter[str] = Counter()
    told: Counter[str] = Counter()
    for seed in range(60):
        for one in learn(made_parts(TRUE, PLANS, seed), {}).learned:
            told[one.name] += one.is_seen
            held[one.name] += one.low <= truth[one.name] <= one.high
    assert set(held) == set(truth)
    # 57 of 60 are expected; 52 or fewer come once in a hundred times.
    assert min(held.values()) >= 52, held
    assert told["wheel"] == told["worm"] == told["scatter"] == 60
    assert told["worm-twice"] <= 8


def test_the_mounting_is_told_from_the_wheel() -> None:
    loose = learn(made_parts(Hidden(off_centre=0.03, scatter=5), PLANS, 4), {})
    wheel, work = of(loose, "wheel"), of(loose, "work-off-centre")
    assert (wheel.is_seen, work.is_seen) == (False, True)
    assert work.low <= 0.03 <= work.high
    assert (work.unit, wheel.unit) == ("mm", "arcsec")
    ((name, size),) = work.takes
    assert name == "work_off_centre_mm"
    assert size.low == 0
    # A size anywhere up to this has the same mean square.
    assert float(size.high) ** 2 / 3 == pytest.approx(work.size**2, rel=0.01)


def test_the_scatter_is_shared_as_it_was_thought() -> None:
    sizes = {"lock": Size(Fraction(8), Fraction(8)), "worm": Size(Fraction(30), Fraction(30))}
    lesson = learn(made_parts(Hidden(scatter=3), PLANS, 2), sizes)
    scatter = of(lesson, "scatter")
    assert scatter.known_from == "head file"
    share = scatter.size / scatter.thought[0]
    taken = dict(scatter.takes)
    assert float(taken["lock_arcsec"].high) == pytest.approx(8 * share, rel=0.01)
    assert float(taken["wheel_tooth_arcsec"].low) == pytest.approx(10 * share, rel=0.01)
    worm = of(lesson, "worm")
    assert (worm.thought, worm.known_from, worm.is_seen) == ((30.0, 30.0), "head file", False)
    assert dict(worm.takes)["worm_arcsec"].high < 3


def test_taken_over_it_predicts_the_scatter_that_was_found() -> None:
    parts = made_parts(Hidden(scatter=4), PLANS, 5)
    first = of(learn(parts, {}), "scatter")
    names = {"reading_marks": "reading", "reading_pull_marks": "reading-pull", "parallax_mm": "parallax"}
    names |= {"wheel_tooth_arcsec": "wheel-teeth", "lock_arcsec": "lock", "tool_mm": "tool"}
    again = of(learn(parts, {names[name]: size for name, size in first.takes}), "scatter")
    assert again.thought[0] == pytest.approx(first.size, rel=0.01)


@pytest.mark.parametrize("count", [0, 1, 2])
def test_few_parts_say_nothing(count: int) -> None:
    lesson = learn(made_parts(TRUE, PLANS[:count], 1), {})
    assert (lesson.is_enough, lesson.learned, lesson.parts) == (False, (), count)


def test_the_mounting_takes_more_parts_than_the_rest() -> None:
    three = learn(made_parts(Hidden(off_centre=0.03, scatter=5), PLANS[:3], 4), {})
    assert len(PLANS[:3]) == LEAST_PARTS
    assert [(one.name, one.parts) for one in three.unsaid] == [("work-off-centre", 4)]
    seen = learn(made_parts(replace(TRUE, off_centre=0.0), PLANS[:4], 4), {})
    assert [(one.name, one.parts) for one in seen.unsaid] == [("work-off-centre", 5)]


def test_a_plate_head_knows_no_reading() -> None:
    plans = [plan_of(count, 100, PLATE_HEAD, None) for count in (51, 57, 69)]
    taken = dict(of(learn(made_parts(TRUE, plans, 1), {}), "scatter").takes)
    assert "pin_mm" in taken
    assert "reading_marks" not in taken


def test_part_of_a_circle_is_learnt_from_too() -> None:
    plan = plan_of(97)
    whole = made_part(TRUE, plan, Random(3))
    open_ended = MeasuredPart(plan, 100.0, Inspected(whole.part.single[:-1], False))
    assert part_waves(open_ended, {}).squares == pytest.approx(part_waves(whole, {}).squares)
