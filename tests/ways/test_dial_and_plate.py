"""The dial with a plate: exact settings alone, holes from the start and marks on from them."""

from fractions import Fraction
from math import floor, lcm

from hypothesis import given
from hypothesis import strategies as st

from crankwise.head.dial import Dial
from crankwise.head.head import Head
from crankwise.head.plate import Plate
from crankwise.head.worm import Worm
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.ways.dial_and_plate import split, ways
from tests.gear import worm_head

HEADS = st.builds(
    Head,
    st.just("table"),
    st.sampled_from([30, 40, 60, 72, 90]).map(Fraction).map(Worm),
    st.builds(Dial, st.integers(2, 40), st.sampled_from([Fraction(1), Fraction(1, 2)]), st.just(0)),
    st.lists(st.integers(2, 24), min_size=1, max_size=2, unique=True).map(lambda c: (Plate(tuple(c)),)),
)


@given(place=st.integers(0, 5000), circle=st.integers(2, 40), marks=st.integers(2, 60))
def test_no_hole_has_fewer_marks_on_from_it(place: int, circle: int, marks: int) -> None:
    target = Fraction(place, lcm(circle, marks))
    hole, on = split(place, circle, marks)
    assert Fraction(hole, circle) + Fraction(on, marks) == target
    fewest = next(
        mark for mark in range(marks) if (circle * (target - Fraction(mark, marks))).denominator == 1
    )
    assert on == fewest


@given(gear=HEADS, count=st.integers(2, 400))
def test_it_is_offered_just_where_both_together_are_exact_and_neither_is(gear: Head, count: int) -> None:
    assert gear.dial is not None
    part = (gear.ratio or 1) / Fraction(count)
    reading = gear.dial.marks * gear.dial.places_per_mark
    expected = [
        circle
        for circle in gear.circles
        if any(
            (circle * (part - Fraction(mark, gear.dial.marks))).denominator == 1
            for mark in range(gear.dial.marks)
        )
        and (part * circle).denominator != 1
        and (part * reading).denominator != 1
    ]
    assert [way.circle for way in ways(gear, EqualDivisions(count))] == expected


@given(gear=HEADS, count=st.integers(2, 200))
def test_every_position_is_exact_and_the_moves_find_the_hole(gear: Head, count: int) -> None:
    assert gear.dial is not None
    ratio = gear.ratio or Fraction(1)
    for way in ways(gear, EqualDivisions(count)):
        before, stands = None, Fraction(0)
        for row in way.reached():
            setting, move = row.setting, way.move(before, row)
            assert setting.turns is not None
            assert setting.holes is not None
            assert setting.reading is not None
            hole = setting.turns + Fraction(setting.holes[0], way.circle)
            assert row.error == 0
            assert (hole + setting.reading / gear.dial.marks) / ratio == Fraction(row.position, count)
            assert setting.reading.denominator == 1
            assert 0 <= setting.reading < gear.dial.marks
            assert move.turns == floor(hole - stands)
            assert (move.holes, move.reading) == (setting.holes, setting.reading)
            before, stands = row, row.achieved * ratio


def test_57_by_the_19_circle_and_300_marks() -> None:
    gear = worm_head("40", "[dial]\nmarks = 300\n[[plates]]\ncircles = [15, 19]\n")
    (way,) = ways(gear, EqualDivisions(57))
    assert way.setup == {"circle": 19, "dial": 300}
    rows = list(way.reached())
    assert [(row.setting.turns, row.setting.holes, str(row.setting.reading)) for row in rows[:4]] == [
        (0, (0,), "0"),
        (0, (7,), "100"),
        (0, (14,), "200"),
        (2, (2,), "0"),
    ]


def test_a_list_may_be_met_by_both_together() -> None:
    gear = worm_head("40", "[dial]\nmarks = 300\n[[plates]]\ncircles = [15, 19]\n")
    asked = AngleList((Fraction(0), Fraction(1, 57), Fraction(1, 19), Fraction(1, 12)))
    (way,) = ways(gear, asked)
    assert way.exact


def test_a_dial_that_cannot_be_set_to_zero_is_of_no_use_for_it() -> None:
    gear = worm_head("40", "[dial]\nmarks = 300\nsettable = false\n[[plates]]\ncircles = [19]\n")
    assert list(ways(gear, EqualDivisions(57))) == []
