"""The search against trying every train, and against a solver; its order, its limits, its end."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ortools.sat.python import cp_model

from crankwise.errors import BadNumber, FaultsFound
from crankwise.head.train import Train
from crankwise.head.train_search import Products, exact_trains, nearest_trains, products_counted
from tests.oracle.trains import clears_shafts, every_train, value

GEARS = (24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100)

ratios = st.fractions(min_value=Fraction(1, 20), max_value=20, max_denominator=500)


@st.composite
def some_gears(draw: st.DrawFn, most: int) -> tuple[int, ...]:
    """A few gears, sizes often twice, from few sizes so that many trains are equally near."""
    sizes = draw(
        st.sampled_from([st.integers(6, 12), st.integers(12, 130), st.sampled_from([20, 40, 60, 80])])
    )
    return tuple(draw(st.lists(sizes, min_size=2, max_size=most)))


def as_sets(train: Train) -> tuple[tuple[int, ...], tuple[int, ...]]:
    return tuple(sorted(train.drivers)), tuple(sorted(train.driven))


@settings(max_examples=400, deadline=None)
@given(some_gears(7), ratios, st.sampled_from([(2,), (4,), (2, 4)]), st.integers(1, 12))
def test_no_train_is_missed_and_none_is_told_too_late(
    gears: tuple[int, ...], target: Fraction, sizes: tuple[int, ...], most: int
) -> None:
    trains = [train for size in sizes if size <= len(gears) for train in every_train(gears, size)]
    trains.sort(
        key=lambda train: (
            abs(value(train) - target),
            len(train[0]),
            sum(train[0]) + sum(train[1]),
            *train,
        )
    )
    found = nearest_trains(target, gears, sizes, most)
    assert [as_sets(train) for train in found] == trains[:most]


@settings(max_examples=60, deadline=None)
@given(some_gears(7), ratios)
def test_six_gears_equal_trying_every_train(gears: tuple[int, ...], target: Fraction) -> None:
    misses = [abs(value(train) - target) for train in every_train(gears, 6)] if len(gears) >= 6 else []
    found = nearest_trains(target, gears, (6,))
    assert [abs(train.value - target) for train in found] == sorted(misses)[:1]


@settings(max_examples=200, deadline=None)
@given(some_gears(7), ratios, st.integers(2, 60))
def test_only_what_can_be_mounted_is_told(gears: tuple[int, ...], target: Fraction, clearance: int) -> None:
    def mounted(train: Train) -> Train | None:
        return train if clears_shafts((train.drivers, train.driven), clearance) else None

    able = (
        [train for train in every_train(gears, 4) if clears_shafts(train, clearance)]
        if len(gears) >= 4
        else []
    )
    found = nearest_trains(target, gears, (4,), 1, mounted)
    assert [abs(train.value - target) for train in found] == sorted(
        abs(value(train) - target) for train in able
    )[:1]


@settings(max_examples=200, deadline=None)
@given(some_gears(7), st.data())
def test_every_exact_train_is_found(gears: tuple[int, ...], data: st.DataObject) -> None:
    trains = every_train(gears, 4) if len(gears) >= 4 else every_train(gears, 2)
    target = value(data.draw(st.sampled_from(sorted(trains))))
    size = len(next(iter(trains))[0])
    found = exact_trains(target, Products(gears, size))
    assert {(one.drivers, one.driven) for one in found} == {one for one in trains if value(one) == target}


def nearer_train_by_solver(gears: tuple[int, ...], target: Fraction, than: Fraction) -> bool:
    """Return whether a general-purpose solver finds a train of 4 gears nearer to the target than so much."""
    model = cp_model.CpModel()
    places = [model.new_int_var(0, len(gears) - 1, "") for _ in range(4)]
    model.add_all_different(places)
    teeth = [model.new_int_var(min(gears), max(gears), "") for _ in range(4)]
    for place, tooth in zip(places, teeth, strict=True):
        model.add_element(place, list(gears), tooth)
    above, below = (model.new_int_var(1, max(gears) ** 2, "") for _ in range(2))
    model.add_multiplication_equality(above, teeth[:2])
    model.add_multiplication_equality(below, teeth[2:])
    miss = above * target.denominator - below * target.numerator
    limit = than * target.denominator
    model.add(miss * limit.denominator < limit.numerator * below)
    model.add(-miss * limit.denominator < limit.numerator * below)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    status = solver.solve(model)
    assert status in (cp_model.OPTIMAL, cp_model.FEASIBLE, cp_model.INFEASIBLE)
    return status != cp_model.INFEASIBLE


@pytest.mark.parametrize(
    "target", [Fraction(40, 127), Fraction(59, 57), Fraction(17, 19), Fraction(355, 113)]
)
def test_a_solver_finds_nothing_nearer_and_the_train_itself(target: Fraction) -> None:
    (best,) = nearest_trains(target, GEARS, (4,))
    miss = abs(best.value - target)
    assert miss > 0
    assert not nearer_train_by_solver(GEARS, target, miss)
    assert nearer_train_by_solver(GEARS, target, miss * 2)


def test_equally_near_trains_are_told_with_the_fewest_gears_then_the_least_teeth_first() -> None:
    found = nearest_trains(Fraction(1, 2), (24, 56, 28, 48, 30, 30), (2, 4), 4)
    assert [as_sets(train) for train in found] == [
        ((24,), (48,)),
        ((28,), (56,)),
        ((24, 30), (30, 48)),
        ((28, 30), (30, 56)),
    ]


def test_a_gear_is_used_only_as_often_as_it_is_owned() -> None:
    assert nearest_trains(Fraction(1), (24, 30, 40), (2,))[0].value != 1
    assert nearest_trains(Fraction(1), (24, 30, 24), (2,))[0] == Train((24,), (24,))


def test_six_gears_from_forty_are_searched_in_a_moment_and_watched() -> None:
    told = []
    gears = tuple(range(20, 60))
    (best,) = nearest_trains(Fraction(355, 113), gears, (6,), watch=lambda done, of: told.append((done, of)))
    assert best.value != Fraction(355, 113)
    assert told[0] == (0, 9880)
    assert told[-1] == (9880, 9880)
    assert told == sorted(told)


def test_a_watch_that_raises_ends_the_search() -> None:
    class Enough(Exception):
        pass

    def watch(done: int, of: int) -> None:
        if done > of // 2:
            raise Enough

    with pytest.raises(Enough):
        nearest_trains(Fraction(355, 113), range(20, 60), (6,), watch=watch)


def test_a_set_too_small_for_the_size_gives_no_train() -> None:
    assert nearest_trains(Fraction(2), (24, 48), (4,)) == []


@pytest.mark.parametrize("target", [Fraction(0), Fraction(-7, 3)])
def test_a_ratio_is_above_0(target: Fraction) -> None:
    with pytest.raises(BadNumber, match="the ratio of a train is above 0"):
        nearest_trains(target, GEARS)


@pytest.mark.parametrize(
    ("gears", "says"),
    [
        ((), "gears: no gears; a train needs two or more"),
        ((24,), "gears: one gear; a train needs two or more"),
        ((24, 0, -5), "gear 2 of the list: 0; a change gear has 6 or more\ngear 3 of the list: -5;"),
        (tuple(range(20, 1100)), "gears: 1,080 of them; at most 1,000"),
    ],
)
def test_gears_that_make_no_train_are_refused(gears: tuple[int, ...], says: str) -> None:
    with pytest.raises(FaultsFound, match=says):
        nearest_trains(Fraction(2), gears)


def test_a_search_too_large_to_hold_is_refused_before_it_begins() -> None:
    assert products_counted(range(200), 6) == 1_313_400
    with pytest.raises(
        FaultsFound, match=r"gears: 300 of them make 4,455,100 sets of 3; .* 1,500,000 sets at most"
    ):
        products_counted(range(300), 6)
