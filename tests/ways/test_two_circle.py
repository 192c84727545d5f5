"""Two circles as one fine scale: nothing nearer at any position, and nothing that adds up."""

from fractions import Fraction
from math import lcm

from hypothesis import given, settings
from hypothesis import strategies as st

from crankwise.head.head import Head
from crankwise.head.plate import Plate
from crankwise.head.worm import Worm
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.ways.two_circle import TwoCircle, ways
from tests.gear import PLATE_HEAD, head, worm_head
from tests.oracle.two_circles import nearest_place

HEADS = st.builds(
    Head,
    st.just("any"),
    st.integers(1, 120).map(Fraction).map(Worm),
    st.none(),
    st.lists(
        st.lists(st.integers(2, 18), min_size=2, max_size=3, unique=True).map(tuple).map(Plate),
        min_size=1,
        max_size=2,
    ).map(tuple),
)
LISTS = (
    st.lists(st.fractions(0, 1, max_denominator=400), min_size=1, max_size=6, unique=True)
    .map(lambda angles: [angle for angle in sorted(angles) if angle < 1] or [Fraction(0)])
    .map(tuple)
    .map(AngleList)
)


@st.composite
def arcs(draw: st.DrawFn) -> EqualDivisions:
    count = draw(st.integers(2, 60))
    first = draw(st.integers(0, count - 1))
    last = draw(st.integers(first, count - 1))
    start = draw(st.fractions(0, Fraction(59, 60), max_denominator=60))
    return EqualDivisions(count, start, first, last, draw(st.integers(1, count)))


DIVISIONS = st.integers(1, 60).map(EqualDivisions) | arcs() | LISTS


def spindle(way: TwoCircle, setting_turns: int | None, holes: tuple[int, ...] | None) -> Fraction:
    """Where turns and two counts really put the spindle, worked out afresh."""
    assert setting_turns is not None
    assert holes is not None
    crank = setting_turns + Fraction(holes[0], way.circles[0]) + Fraction(holes[1], way.circles[1])
    return crank / (way.head.ratio or 1)


@settings(max_examples=150)
@given(gear=HEADS, divisions=DIVISIONS)
def test_no_pair_of_holes_is_nearer_at_any_position(
    gear: Head, divisions: EqualDivisions | AngleList
) -> None:
    for way in ways(gear, divisions):
        ratio = gear.ratio or Fraction(1)
        for reached in way.reached():
            assert spindle(way, reached.setting.turns, reached.setting.holes) == reached.achieved
            assert abs(reached.error) == nearest_place(reached.target * ratio, *way.circles) / ratio


@given(gear=HEADS, divisions=DIVISIONS)
def test_errors_stay_under_half_a_place_and_the_circle_closes(
    gear: Head, divisions: EqualDivisions | AngleList
) -> None:
    for way in ways(gear, divisions):
        bound = 1 / (2 * lcm(*way.circles) * (gear.ratio or Fraction(1)))
        assert way.worst_error <= bound
        assert max(abs(reached.error) for reached in way.reached()) == way.worst_error
        closure = way.closure()
        if divisions.closing_target is None:
            assert closure is None
        else:
            assert closure is not None
            _, first = next(divisions.targets())
            assert closure.achieved == next(way.reached()).achieved + 1
            assert closure.target == first + 1


@given(gear=HEADS, divisions=DIVISIONS)
def test_the_moves_lead_from_setting_to_setting(gear: Head, divisions: EqualDivisions | AngleList) -> None:
    for way in ways(gear, divisions):
        before, stands = None, Fraction(0)
        for reached in way.reached():
            move = way.move(before, reached)
            stands += spindle(way, move.turns, move.holes)
            assert stands == reached.achieved
            before = reached


def test_a_plain_plate_head_reaches_any_prime_within_seconds() -> None:
    gear = head(PLATE_HEAD)
    for prime in (127, 131, 137, 149, 151, 251, 257, 509, 997):
        finest = min(ways(gear, EqualDivisions(prime)), key=lambda way: way.worst_error)
        assert finest.worst_error * 1_296_000 < 7.1
        assert not finest.exact


def test_the_set_up_and_the_counts_have_the_promised_shape() -> None:
    gear = worm_head("40", "[[plates]]\ncircles = [47, 49]\n")
    (way,) = ways(gear, EqualDivisions(127))
    assert way.setup == {"circles": (47, 49)}
    reached = way.reach(1, Fraction(1, 127))
    assert reached.setting.holes is not None
    assert len(reached.setting.holes) == 2


def test_none_is_offered_where_one_circle_does_it_or_a_pair_is_no_finer() -> None:
    assert list(ways(worm_head("40", "[[plates]]\ncircles = [15, 17]\n"), EqualDivisions(60))) == []
    assert list(ways(worm_head("40", "[[plates]]\ncircles = [15, 30]\n"), EqualDivisions(127))) == []


def test_a_pair_that_does_not_close_is_offered_for_an_arc_alone() -> None:
    gear = worm_head("100/7", "[[plates]]\ncircles = [15, 16]\n")
    assert list(ways(gear, EqualDivisions(31))) == []
    assert len(list(ways(gear, EqualDivisions(31, last=20)))) == 1
