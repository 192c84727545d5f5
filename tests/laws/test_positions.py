"""What holds for every head and every division: how far out, and that errors never add up."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from crankwise.exact.places import nearest_place
from crankwise.head.head import Head
from crankwise.part.divisions import AngleList, Divisions, EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.plan import Plan
from crankwise.plan.schedule import schedule
from crankwise.ways import dial, direct, nearest_hole, plain, ring
from crankwise.ways.way import Setting, Way
from tests.laws.gear import divisions, equal_divisions, full_circles, heads

BASIC = (direct.ways, plain.ways, dial.ways, nearest_hole.ways, ring.ways)


def basic_ways(head: Head, wanted: Divisions) -> list[Way]:
    return [way for ways in BASIC for way in ways(head, wanted)]


def least_reading(way: Way) -> Fraction:
    """The least that can be set by a way, in turns of the spindle, from the head's own description."""
    head, setup = way.head, way.setup
    if way.method in ("plain", "nearest-hole"):
        assert head.ratio is not None
        return 1 / (head.ratio * int(str(setup["circle"])))
    if way.method == "dial":
        assert head.ratio is not None
        assert head.dial is not None
        finest = max(head.dial.read_to.denominator, head.dial.vernier or 1)
        return 1 / (head.ratio * head.dial.marks * finest)
    if "wheel" in setup:
        return Fraction(1, int(str(setup["wheel"])))
    assert head.ring is not None
    parts = 1 if way.method == "direct" else head.ring.read_to.denominator
    return Fraction(1, head.ring.graduations * parts)


def stands(way: Way, setting: Setting) -> Fraction:
    """Where the work stands for a setting from the start, read off the head as an operator would."""
    head = way.head
    if setting.notches is not None:
        return Fraction(setting.notches, int(str(way.setup["wheel"])))
    if setting.turns is None:
        assert setting.reading is not None
        assert head.ring is not None
        grows = head.worm is None or head.dial is None or head.worm.clockwise == head.dial.clockwise
        part = setting.reading / head.ring.full_circle
        return part if grows else -part
    assert head.ratio is not None
    if setting.holes is not None:
        return (setting.turns + Fraction(setting.holes[0], int(str(way.setup["circle"])))) / head.ratio
    assert setting.reading is not None
    assert head.dial is not None
    return (setting.turns + setting.reading / head.dial.marks) / head.ratio


@given(heads(), divisions)
def test_no_position_is_further_out_than_half_the_least_that_can_be_set(
    head: Head, wanted: Divisions
) -> None:
    for way in basic_ways(head, wanted):
        errors = [reached.error for reached in way.reached()]
        assert max(map(abs, errors)) == way.worst_error
        assert way.worst_error <= least_reading(way) / 2
        assert way.exact == (not any(errors))


@given(heads(), divisions)
def test_the_setting_is_where_the_way_says_the_work_is(head: Head, wanted: Divisions) -> None:
    for way in basic_ways(head, wanted):
        for reached in way.reached():
            whole = stands(way, reached.setting) - reached.achieved
            assert whole == 0 or (
                reached.setting.turns is None and whole.denominator == 1
            )  # a ring, or round


@given(heads(), full_circles)
def test_after_all_positions_the_work_is_exactly_where_it_began(head: Head, wanted: EqualDivisions) -> None:
    for way in basic_ways(head, wanted):
        first, closure = next(way.reached()), way.closure()
        assert closure is not None
        assert closure.achieved == first.achieved + 1
        assert closure.error == first.error == 0
        assert closure.position == wanted.count
        if head.ratio and closure.setting.turns is not None:
            assert (stands(way, closure.setting) * head.ratio) == head.ratio


@given(heads(), equal_divisions())
def test_any_run_that_goes_round_meets_its_first_position_again(head: Head, wanted: EqualDivisions) -> None:
    for way in basic_ways(head, wanted):
        first, closure = next(way.reached()), way.closure()
        if wanted.goes_round:
            assert closure is not None
            assert closure.achieved == first.achieved + 1
            assert closure.error == first.error
            assert closure.position == first.position + wanted.count
        else:
            assert closure is None


@given(heads(), divisions)
def test_the_moves_add_up_to_the_settings(head: Head, wanted: Divisions) -> None:
    for way in basic_ways(head, wanted):
        plan = Plan(Part(wanted), way)
        turned = Fraction(0)
        for row in schedule(plan):
            move = row.move
            if move.turns is None and move.reading is not None:
                assert head.ring is not None
                turned += move.reading / head.ring.full_circle
            else:
                turned += stands(way, move)
            assert turned == row.reached.achieved
            assert move.turns is None or move.turns >= 0


@given(heads(), divisions)
def test_the_crank_passes_its_zero_when_the_reading_is_below_the_one_before(
    head: Head, wanted: Divisions
) -> None:
    for way in basic_ways(head, wanted):
        before = None
        for row in schedule(Plan(Part(wanted), way)):
            now = row.reached.setting
            if before is None or now.turns is None:
                assert not row.passes_zero
            else:
                assert row.passes_zero == ((now.reading, now.holes) < (before.reading, before.holes))
            before = now


@given(heads(), full_circles, st.integers(2, 5))
def test_errors_never_add_up_however_often_the_work_goes_round(
    head: Head, wanted: EqualDivisions, rounds: int
) -> None:
    for way in basic_ways(head, wanted):
        for reached in way.reached():
            again = way.again(reached, rounds)
            assert again is not None
            assert again.achieved == reached.achieved + rounds
            assert again.error == reached.error


@given(heads(), divisions)
def test_one_position_more_or_less_changes_no_other(head: Head, wanted: Divisions) -> None:
    """Positions count from the start: a setting does not depend on the ones before it."""
    for way in basic_ways(head, wanted):
        for reached in way.reached():
            assert way.reach(reached.position, reached.target) == reached


@given(st.fractions(-3, 3, max_denominator=300), st.fractions(Fraction(1, 5), 3000, max_denominator=12))
def test_a_run_the_other_way_meets_the_same_marks(target: Fraction, places: Fraction) -> None:
    assert nearest_place(-target, places) == -nearest_place(target, places)


@given(st.integers(1, 300), st.integers(1, 2000))
def test_round_the_other_way_to_the_same_position_is_the_same_mark(count: int, half: int) -> None:
    """On an even number of places; on an odd number a half between two has no mark of its own."""
    for places in (2 * half, 2 * half - 1):
        for number in range(count):
            exactly = Fraction(number * places, count)
            if places % 2 and exactly.denominator == 2:
                continue  # neither mark is nearer, and their sum is odd: one must be chosen
            onward = nearest_place(Fraction(number, count), Fraction(places))
            back = nearest_place(Fraction(number, count) - 1, Fraction(places))
            assert onward == back + places


@given(heads(), st.integers(2, 120), st.data())
def test_every_so_many_meets_the_same_marks_as_all(head: Head, count: int, data: st.DataObject) -> None:
    every = data.draw(st.sampled_from([step for step in range(1, count + 1) if count % step == 0]))
    some = {
        (way.method, str(way.setup.get("circle", way.setup))): way
        for way in basic_ways(head, EqualDivisions(count, every=every))
    }
    for way in basic_ways(head, EqualDivisions(count)):
        fewer = some.get((way.method, str(way.setup.get("circle", way.setup))))
        if fewer is not None and way.method == fewer.method:
            by_number = {reached.position: reached for reached in way.reached()}
            for reached in fewer.reached():
                assert reached == by_number[reached.position]


def _set_on(way: Way) -> tuple[str, ...]:
    """The method, and what it is set on: a ring of 24 graduations is no wheel of 24 notches."""
    on = (f"{what} {way.setup[what]}" for what in ("circle", "wheel", "ring") if what in way.setup)
    return (way.method, *on)


@given(heads(), st.integers(1, 60), st.fractions(0, Fraction(99, 100), max_denominator=360))
def test_a_list_of_equal_angles_is_set_as_equal_parts_are(head: Head, count: int, start: Fraction) -> None:
    equal = EqualDivisions(count, start)
    listed = AngleList(tuple(target for _, target in equal.targets()))
    by_list = {_set_on(way): way for way in basic_ways(head, listed)}
    for way in basic_ways(head, equal):
        same = by_list.get(_set_on(way))
        assert same is not None
        assert list(same.reached()) == list(way.reached())
