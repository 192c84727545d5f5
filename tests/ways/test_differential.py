"""Differential indexing against trying every near number with every train, and its own words and numbers."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from crankwise.head.head import Head
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.ways.chart import chart
from crankwise.ways.differential import Differential, columns, refusals, ways
from crankwise.ways.gearing import dropped
from crankwise.ways.search import find_ways
from tests.gear import PLATE_HEAD, head, worm_head
from tests.oracle.trains import every_differential

GEARS = "[change_gears]\nteeth = [24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100]\n"
GEARED_HEAD = PLATE_HEAD + GEARS


def differential(toml: str, count: int) -> list[Differential]:
    return list(ways(head(toml), EqualDivisions(count)))


@st.composite
def geared_heads(draw: st.DrawFn) -> Head:
    """Heads with few circles and few gears, so that exact trains are found for some numbers and not for others."""
    ratio = draw(st.sampled_from(["40", "5", "60", "72", "45/2", "90"]))
    circles = draw(st.lists(st.integers(2, 49), min_size=1, max_size=3, unique=True))
    gears = draw(st.lists(st.sampled_from([20, 24, 28, 32, 40, 44, 48, 56, 64, 100]), min_size=2, max_size=5))
    clearance = draw(st.integers(2, 40))
    return worm_head(
        ratio,
        f"[[plates]]\ncircles = {circles}\n[change_gears]\nteeth = {gears}\nshaft_clearance = {clearance}\n",
    )


@settings(max_examples=300, deadline=None)
@given(geared_heads(), st.integers(2, 140))
def test_every_exact_setting_is_found_and_no_train_comes_nearer(geared: Head, count: int) -> None:
    gears, ratio = geared.change_gears, geared.ratio
    assert gears is not None
    assert ratio is not None
    assume(all(ratio * circle % count for circle in geared.circles))
    tried = list(every_differential(ratio, geared.circles, gears.teeth, count, gears.shaft_clearance))
    exact = {(circle, moved) for circle, moved, error in tried if not error}
    found = list(ways(geared, EqualDivisions(count)))
    if exact:
        assert {(way.circle, way.moved) for way in found} == exact
        assert all(way.exact for way in found)
    else:
        half_a_part = Fraction(1, 2 * count)
        errors = [abs(error) for _, _, error in tried if abs(error) <= half_a_part]
        assert [way.worst_error for way in found[:1]] == ([min(errors)] if errors else [])


@settings(max_examples=200, deadline=None)
@given(geared_heads(), st.integers(2, 140))
def test_each_move_is_what_crank_and_plate_make_together(geared: Head, count: int) -> None:
    for way in ways(geared, EqualDivisions(count)):
        assert way.near_number * way.moved == way.ratio * way.circle
        assert way.wanted == way.ratio * (way.near_number - count) / way.near_number
        assert way.ratio * way.advance == Fraction(way.moved, way.circle) + way.given * way.advance
        last = list(way.reached())[-1]
        assert abs(last.error) == way.worst_error
        assert way.closure().error == way.residue == way.drift * count


@settings(max_examples=100, deadline=None)
@given(geared_heads(), st.integers(2, 60))
def test_the_chart_says_what_the_search_says(geared: Head, count: int) -> None:
    found = list(ways(geared, EqualDivisions(count)))
    judged = [(column.judge(count), column) for column in columns(geared)]
    told = [(one, column.way(count)) for one, column in judged if one is not None]
    assert [way.key for _, way in told] == [way.key for way in found[: 1 if found and found[0].exact else 3]]
    for one, way in told:
        assert (one.burden, Fraction(one.top, one.bottom)) == (way.burden.total, way.worst_error)


def test_127_as_the_handbooks_have_it() -> None:
    setups = [way.setup for way in differential(GEARED_HEAD, 127)]
    assert {
        "near_number": 120,
        "circle": 39,
        "turns": 0,
        "holes": 13,
        "ratio": "-7/3",
        "drivers": (56,),
        "driven": (24,),
        "idlers": 2,
        "plate": "against",
    } in setups


def test_every_number_up_to_382_is_reached_exactly_plain_or_by_differential_and_383_is_not() -> None:
    geared = head(GEARED_HEAD)

    def is_reached(count: int) -> bool:
        by_one_circle = refusals(geared, EqualDivisions(count)) == (
            "one circle divides exactly without gears",
        )
        return by_one_circle or any(way.exact for way in ways(geared, EqualDivisions(count)))

    assert [count for count in range(1, 384) if not is_reached(count)] == [383]


def test_the_chart_has_an_exact_way_up_to_382() -> None:
    without = [row.divisions for row in chart(head(GEARED_HEAD), 2, 383) if row.best_exact is None]
    assert without == [383]


def test_where_no_train_is_exact_the_three_nearest_are_told_with_their_errors() -> None:
    found = differential(GEARED_HEAD, 383)
    assert len(found) == 3
    assert len({way.near_number for way in found}) == 3
    errors = [way.worst_error for way in found]
    assert errors == sorted(errors)
    reached = list(found[0].reached())
    steps = {after.error - before.error for before, after in pairwise(reached)}
    assert steps == {found[0].drift}


def test_a_train_that_ends_nearer_to_another_position_is_not_offered() -> None:
    few = worm_head("40", "[[plates]]\ncircles = [17, 16]\n[change_gears]\nteeth = [20, 30, 24, 100]\n")
    assert list(ways(few, EqualDivisions(9973))) == []
    assert all(way.worst_error <= Fraction(1, 254) for way in ways(few, EqualDivisions(127)))


def test_the_least_to_mount_is_put_first() -> None:
    found = differential(GEARED_HEAD, 139)
    mounted = [len(way.train.gears) + way.idlers for way in found]
    assert mounted == sorted(mounted)


def test_a_head_file_may_say_how_many_idlers_turn_the_plate_with_the_crank() -> None:
    usual = differential(GEARED_HEAD, 127)
    other = differential(GEARED_HEAD + "idlers_with = [2, 1]\nidlers_against = [1, 0]\n", 127)

    def idlers(found: list[Differential]) -> set[tuple[int, str, int]]:
        return {(len(way.train.gears), str(way.setup["plate"]), way.idlers) for way in found}

    assert idlers(usual) <= {(2, "with", 1), (2, "against", 2), (4, "with", 0), (4, "against", 1)}
    assert idlers(other) <= {(2, "with", 2), (2, "against", 1), (4, "with", 1), (4, "against", 0)}


def test_a_gear_that_is_owned_once_is_used_once() -> None:
    one_24 = "[change_gears]\nteeth = [24, 86]\n"
    assert not any(way.exact for way in differential(PLATE_HEAD + one_24, 117))
    assert any(way.exact for way in differential(PLATE_HEAD + "[change_gears]\nteeth = [24, 24]\n", 117))


REFUSED = [
    (PLATE_HEAD, 127, "no two change gears"),
    (PLATE_HEAD + "[change_gears]\nteeth = [24]\n", 127, "no two change gears"),
    (
        GEARED_HEAD + 'cannot_drive_plate = "the spindle is tilted"\n',
        127,
        "cannot turn the plate: the spindle is tilted",
    ),
    (GEARED_HEAD, 60, "one circle divides exactly without gears"),
    ('name = "x"\n[worm]\nratio = 40\n[dial]\nmarks = 100\n' + GEARS, 127, "no hole plate"),
]


@pytest.mark.parametrize(("toml", "count", "why"), REFUSED)
def test_it_is_not_offered_where_it_cannot_be_used_and_says_why(toml: str, count: int, why: str) -> None:
    (reason,) = refusals(head(toml), EqualDivisions(count))
    assert why in reason
    assert differential(toml, count) == []
    assert [column.judge(count) for column in columns(head(toml)) if column.judge(count)] == []


def test_a_list_and_a_helix_refuse_it_too() -> None:
    geared = head(GEARED_HEAD)
    a_list = AngleList((Fraction(0), Fraction(1, 7)))
    assert any("equal parts of the whole circle" in reason for reason in refusals(geared, a_list))
    assert any("lead" in reason for reason in refusals(geared, EqualDivisions(127), train_cuts_lead=True))
    assert list(ways(geared, a_list)) == []


def test_a_train_that_cannot_be_mounted_is_dropped_with_the_reason() -> None:
    tight = head(
        PLATE_HEAD
        + "[change_gears]\nteeth = [24, 28, 40, 100]\nshaft_clearance = 90\nmodule = 1.5\ngreatest_centres_mm = 60\n"
    )
    count = next(count for count in range(51, 400) if any(dropped(tight, count)))
    one = next(iter(dropped(tight, count)))
    assert one.reasons
    assert all(
        (way.near_number, way.circle) != (one.near_number, one.circle)
        for way in ways(tight, EqualDivisions(count))
    )


def test_the_working_comes_out_and_can_be_checked_on_paper() -> None:
    steps = differential(GEARED_HEAD, 127)[0].working()
    assert steps[0].what == "the near number"
    assert steps[-1].value == 40
    approximate = differential(GEARED_HEAD, 383)[0]
    assert approximate.working()[-1].value == approximate.residue != 0


def test_its_way_is_found_again_by_its_key() -> None:
    geared, divisions = head(GEARED_HEAD), EqualDivisions(127)
    keys = [way.key for way in find_ways(geared, divisions)]
    assert len(keys) == len(set(keys))
    assert sum(key.startswith("differential:") for key in keys) == len(differential(GEARED_HEAD, 127))
