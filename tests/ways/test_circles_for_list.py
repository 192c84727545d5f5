"""A list of angles on several circles of one plate, against every assignment of circles there is."""

from fractions import Fraction
from itertools import pairwise, product

from hypothesis import given
from hypothesis import strategies as st

from crankwise.head.head import Head
from crankwise.head.plate import Plate
from crankwise.head.worm import Worm
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.ways.circles_for_list import MOST_ANGLES, MOST_CHANGES, CirclesForList, ways
from crankwise.ways.search import find_ways
from tests.gear import PLATE_HEAD, head, worm_head

HEADS = st.builds(
    Head,
    st.just("plates"),
    st.sampled_from([Fraction(40), Fraction(5), Fraction(45, 2)]).map(Worm),
    st.none(),
    st.lists(
        st.lists(st.integers(2, 25), min_size=1, max_size=3, unique=True).map(tuple).map(Plate),
        min_size=1,
        max_size=2,
    ).map(tuple),
)
LISTS = st.lists(
    st.fractions(0, Fraction(99, 100), max_denominator=100), min_size=1, max_size=5, unique=True
).map(lambda angles: AngleList(tuple(sorted(angles))))


def out_by(ratio: Fraction, circle: int, target: Fraction) -> Fraction:
    """How far the nearest hole of a circle is, looked up hole by hole."""
    crank = target * ratio
    return min(abs(crank % 1 - Fraction(hole, circle)) for hole in range(circle + 1)) / ratio


def least_worst_of_each_number_of_changes(gear: Head, asked: AngleList) -> dict[int, Fraction]:
    least: dict[int, Fraction] = {}
    for plate in gear.plates:
        for circles in product(plate.circles, repeat=len(asked)):
            changes = sum(before != after for before, after in pairwise(circles))
            worst = max(
                out_by(gear.ratio or Fraction(1), circle, target)
                for circle, target in zip(circles, asked.angles, strict=True)
            )
            least[changes] = min(worst, least.get(changes, worst))
    return least


@given(gear=HEADS, asked=LISTS)
def test_no_assignment_with_as_few_changes_is_nearer(gear: Head, asked: AngleList) -> None:
    ours = list(ways(gear, asked))
    least = least_worst_of_each_number_of_changes(gear, asked)
    for most_changes in least:
        possible = min(worst for changes, worst in least.items() if changes <= most_changes)
        if possible < least[0]:
            assert min(way.worst_error for way in ours if way.changes <= most_changes) == possible


@given(gear=HEADS, asked=LISTS)
def test_one_change_more_is_offered_only_where_it_is_nearer(gear: Head, asked: AngleList) -> None:
    for plate in gear.plates:
        alone = Head("one plate", gear.worm, plates=(plate,))
        found = sorted(ways(alone, asked), key=lambda way: way.changes)
        assert all(fewer.worst_error > more.worst_error for fewer, more in pairwise(found))
        assert len({way.changes for way in found}) == len(found)
        for way in found:
            assert way.changes >= 1
            assert set(way.circles) <= set(plate.circles)


@given(gear=HEADS, asked=LISTS)
def test_settings_and_moves_come_to_where_they_say(gear: Head, asked: AngleList) -> None:
    ratio = gear.ratio or Fraction(1)
    for way in ways(gear, asked):
        before, stands = None, Fraction(0)
        for row in way.reached():
            setting, move = row.setting, way.move(before, row)
            assert setting.circle is not None
            assert setting.turns is not None
            assert setting.holes is not None
            hole = Fraction(setting.holes[0], setting.circle)
            assert (setting.turns + hole) / ratio == row.achieved
            assert abs(row.error) == out_by(ratio, setting.circle, row.target)
            # After the whole turns the hole is the next of its number, less than a turn ahead.
            assert move.turns is not None
            assert move.holes == setting.holes
            turned = stands + move.turns
            assert turned + (hole - turned) % 1 == row.achieved * ratio
            before, stands = row, row.achieved * ratio
        assert way.worst_error == max(abs(row.error) for row in way.reached())


def best_within(asked: AngleList, arcseconds: int) -> object:
    return find_ways(head(PLATE_HEAD), asked, Fraction(arcseconds, 1_296_000))[0]


def test_the_tolerance_decides_how_often_the_circle_is_changed() -> None:
    asked = AngleList((Fraction(0), Fraction(1, 17), Fraction(2, 17), Fraction(3, 19), Fraction(4, 19)))
    exact = best_within(asked, 0)
    assert isinstance(exact, CirclesForList)
    assert exact.circles == (17, 17, 17, 19, 19)
    assert exact.setup == {"circles": (17, 19), "changes": 1}
    coarse = best_within(asked, 1000)
    assert not isinstance(coarse, CirclesForList)


def test_only_for_lists_and_with_no_circles_of_two_plates() -> None:
    gear = worm_head("40", "[[plates]]\ncircles = [17]\n[[plates]]\ncircles = [19]\n")
    assert list(ways(gear, AngleList((Fraction(0), Fraction(1, 17), Fraction(3, 19))))) == []
    assert list(ways(head(PLATE_HEAD), EqualDivisions(127))) == []


def test_long_lists_and_many_changes_are_bounded() -> None:
    gear = worm_head("40", "[[plates]]\ncircles = [17, 19]\n")
    angles = sorted({Fraction(k, 680) for k in range(1, 60)} | {Fraction(k, 760) for k in range(1, 60)})
    asked = AngleList(tuple(angles))
    assert all(way.changes <= MOST_CHANGES for way in ways(gear, asked))
    long = AngleList(tuple(Fraction(k, 1000) for k in range(MOST_ANGLES + 1)))
    assert list(ways(gear, long)) == []


def test_the_first_angle_is_met_again_on_its_own_circle() -> None:
    gear = worm_head("40", "[[plates]]\ncircles = [17, 19]\n")
    (way,) = ways(gear, AngleList((Fraction(1, 17), Fraction(3, 19))))
    closure = way.closure()
    assert closure is not None
    assert closure.setting.circle == 17
    assert closure.achieved == 1 + Fraction(1, 17)
