"""A notched wheel with the worm: the sum of the two, few settings of the worm."""

from fractions import Fraction
from itertools import pairwise
from math import gcd

from hypothesis import assume, given
from hypothesis import strategies as st

from crankwise.head.dial import Dial
from crankwise.head.head import Head
from crankwise.head.notched_wheel import NotchedWheel
from crankwise.head.plate import Plate
from crankwise.head.worm import Worm
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.ways.way import Setting
from crankwise.ways.wheel_and_worm import WheelAndWorm, ways
from tests.gear import worm_head

HEADS = st.builds(
    Head,
    st.just("lathe"),
    st.integers(1, 120).map(Fraction).map(Worm),
    st.builds(Dial, st.integers(20, 200), st.sampled_from([Fraction(1), Fraction(1, 2)]), st.just(0)),
    st.lists(st.integers(2, 60), min_size=1, max_size=2, unique=True).map(lambda c: (Plate(tuple(c)),)),
    st.none(),
    st.integers(2, 120).map(lambda notches: (NotchedWheel(notches, "worm"),)),
)


@st.composite
def divisions(draw: st.DrawFn) -> EqualDivisions | AngleList:
    if draw(st.booleans()):
        count = draw(st.integers(1, 240))
        last = draw(st.none() | st.integers(0, count - 1))
        return EqualDivisions(count, draw(st.fractions(0, Fraction(1, 2), max_denominator=40)), 0, last)
    firsts = draw(st.lists(st.fractions(0, Fraction(1, 20), max_denominator=99), min_size=1, max_size=3))
    angles = {first + Fraction(part, 12) for first in firsts for part in range(draw(st.integers(2, 10)))}
    return AngleList(tuple(sorted(angles)))


def spindle(way: WheelAndWorm, setting: Setting) -> Fraction:
    """Where notches, turns and holes or marks put the spindle, worked out afresh."""
    assert setting.notches is not None
    assert setting.turns is not None
    crank = Fraction(setting.turns)
    if setting.holes:
        assert way.worm.circle is not None
        crank += Fraction(setting.holes[0], way.worm.circle)
    else:
        assert setting.reading is not None
        assert way.head.dial is not None
        crank += setting.reading / way.head.dial.marks
    return Fraction(setting.notches, way.notches) + crank / (way.head.ratio or 1)


@given(gear=HEADS, asked=divisions())
def test_every_setting_puts_the_work_where_it_says_and_as_near_as_the_worm_can(
    gear: Head, asked: EqualDivisions | AngleList
) -> None:
    targets = dict(asked.targets())
    for way in ways(gear, asked):
        rows = list(way.reached())
        assert sorted(row.position for row in rows) == sorted(targets)
        bound = 1 / (2 * way.worm.scale.all_round)
        for row in rows:
            assert (row.target - targets[row.position]).denominator == 1
            assert (spindle(way, row.setting) - row.achieved).denominator == 1
            assert abs(row.error) <= bound
            assert way.reach(row.position, targets[row.position]) == row
        assert max(abs(row.error) for row in rows) == way.worst_error
        assert all(before.target < after.target for before, after in pairwise(rows))


@given(gear=HEADS, count=st.integers(2, 240))
def test_the_worm_is_set_so_few_times_and_only_onwards(gear: Head, count: int) -> None:
    wheel = gear.notched_wheels[0].notches
    found = list(ways(gear, EqualDivisions(count)))
    assume(found)
    for way in found:
        stands = [(row.setting.turns, row.setting.holes, row.setting.reading) for row in way.reached()]
        changes = sum(before != after for before, after in pairwise(stands))
        assert changes <= count // gcd(count, wheel) - 1
        assert way.setup["worm_settings"] == count // gcd(count, wheel)
        parts = [
            spindle(way, row.setting) - Fraction(row.setting.notches or 0, wheel) for row in way.reached()
        ]
        assert parts == sorted(parts)


@given(gear=HEADS, count=st.integers(2, 240))
def test_the_moves_lead_from_setting_to_setting_and_back_to_the_first(gear: Head, count: int) -> None:
    for way in ways(gear, EqualDivisions(count)):
        closure = way.closure()
        assert closure is not None
        rows = [*way.reached(), closure]
        assert closure.setting == rows[0].setting
        assert closure.achieved - rows[0].achieved == int(closure.target)
        for before, after in pairwise(rows):
            moved = spindle(way, way.move(before, after))
            assert (moved - (after.achieved - before.achieved)).denominator == 1


def test_96_on_a_60_notch_wheel_takes_8_settings_of_the_worm() -> None:
    gear = worm_head(
        "60", '[[plates]]\ncircles = [16]\n[[notched_wheels]]\nnotches = 60\ndetent_on = "worm"\n'
    )
    (way,) = ways(gear, EqualDivisions(96))
    assert way.exact
    assert way.setup == {"wheel": 60, "circle": 16, "worm_settings": 8}
    rows = list(way.reached())
    assert [row.position for row in rows[:3]] == [0, 8, 16]
    assert [(row.position, row.setting.notches, row.setting.holes) for row in rows[12:14]] == [
        (5, 3, (2,)),
        (13, 8, (2,)),
    ]


def test_none_where_the_detent_stands_on_the_bed_or_the_wheel_is_no_help() -> None:
    on_bed = worm_head("60", "[dial]\nmarks = 100\n[[notched_wheels]]\nnotches = 60\n")
    on_worm = worm_head("60", '[dial]\nmarks = 100\n[[notched_wheels]]\nnotches = 60\ndetent_on = "worm"\n')
    assert list(ways(on_bed, EqualDivisions(96))) == []
    assert list(ways(on_worm, EqualDivisions(127))) == []
    assert list(ways(on_worm, EqualDivisions(30))) == []
    assert len(list(ways(on_worm, EqualDivisions(96)))) == 1
