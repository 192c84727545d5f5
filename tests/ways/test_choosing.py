from fractions import Fraction
from itertools import product

from crankwise.files.head_toml import read_head
from crankwise.part.divisions import EqualDivisions
from crankwise.ways.choosing import (
    MISTAKE_AT_A_COUNT,
    MISTAKE_AT_A_LOOK_UP,
    on_the_front,
    spread_of_choice,
    work,
)
from crankwise.ways.search import find_ways
from crankwise.ways.way import Way

HEAD = read_head(
    """
    name = "Bench head with plates"
    [worm]
    wheel_teeth = 40
    [dial]
    marks = 100
    read_to = "1/2"
    [ring]
    graduations = 360
    [[plates]]
    circles = [15, 16, 17, 18, 19, 20]
    [[notched_wheels]]
    notches = 60
    [change_gears]
    teeth = [24, 28, 32, 40, 48, 56]
    """
)


def ways(count: int) -> list[Way]:
    return find_ways(HEAD, EqualDivisions(count))


def by_method(count: int, method: str) -> Way:
    return next(way for way in ways(count) if way.method == method)


def test_a_constant_move_is_safer_than_one_that_is_looked_up() -> None:
    plain, dial = work(by_method(17, "plain")), work(by_method(17, "dial"))

    assert (plain.look_ups, dial.look_ups) == (0, 17)
    assert plain.mistakes < dial.mistakes


def test_mistakes_are_odds_times_how_many() -> None:
    dial = work(by_method(127, "dial"))

    assert dial.mistakes == 127 * MISTAKE_AT_A_LOOK_UP + 254 * MISTAKE_AT_A_COUNT


def test_turns_of_the_crank_are_the_ratio_once_round_and_none_on_a_notched_wheel() -> None:
    assert work(by_method(17, "plain")).crank_turns == 40
    assert work(by_method(12, "direct")).crank_turns == 0


def test_gears_and_idlers_are_counted() -> None:
    differential = by_method(59, "differential")
    gears = [*differential.setup["drivers"], *differential.setup["driven"]]  # type: ignore[misc]

    assert work(differential).gears == len(gears) + differential.setup["idlers"]  # type: ignore[operator]


def test_the_front_is_just_the_ways_that_no_other_beats() -> None:
    for count in (7, 12, 17, 51, 59, 127):
        found = ways(count)
        figures = [
            (way.worst_error, Fraction(cost.to_set_up), cost.crank_turns, cost.mistakes)
            for way in found
            for cost in [work(way)]
        ]
        beaten = set()
        for (one, mine), (other, theirs) in product(enumerate(figures), repeat=2):
            if one != other and mine != theirs and all(t <= m for m, t in zip(mine, theirs, strict=True)):
                beaten.add(one)

        assert on_the_front(found, [work(way) for way in found]) == tuple(
            index not in beaten for index in range(len(found))
        ), count


def test_the_way_put_first_is_on_the_front() -> None:
    for count in range(2, 130):
        found = ways(count)
        assert on_the_front(found, [work(way) for way in found])[0], count


def test_the_spread_of_the_choice_has_one_of_each_cost_and_nothing_beaten() -> None:
    found = ways(127)
    costs = [work(way) for way in found]
    spread = spread_of_choice(found, costs)

    unbeaten = [
        way for way, is_unbeaten in zip(found, on_the_front(found, costs), strict=True) if is_unbeaten
    ]
    tuples = [
        (way.worst_error, work(way).to_set_up, work(way).crank_turns, work(way).mistakes) for way in spread
    ]
    assert spread[0] is found[0]
    assert set(spread) <= set(unbeaten)
    assert len(set(tuples)) == len(tuples)
    assert set(tuples) == {
        (way.worst_error, work(way).to_set_up, work(way).crank_turns, work(way).mistakes) for way in unbeaten
    }
