"""Which causes a plan meets, how large they are, and the curve that each makes of the part."""

from dataclasses import replace
from fractions import Fraction
from math import pi

import pytest

from crankwise.accuracy.bounds import bounds
from crankwise.accuracy.cause_kinds import KINDS, size_of
from crankwise.accuracy.pitch_law import Doubt, PitchLaw, Pull, Range, Scatter, Wave
from crankwise.accuracy.sources import (
    SizedCause,
    causes,
    off_centre_radians,
    one_place,
    pitch_law,
)
from crankwise.files.head_toml import read_head
from crankwise.head.error_sizes import MOST
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.plan import Plan
from crankwise.ways.search import find_ways
from tests.accuracy.plans import KNOWN, bench_plan, plan_on
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, ROUND_TABLE

ARCSEC = pi / 648_000


def names(plan: Plan, both_sides: bool = False) -> set[str]:
    return {cause.kind.name for cause in causes(plan, both_sides=both_sides)}


def law_with(plan: Plan, name: str, size: str, rim_mm: float = 100.0) -> PitchLaw:
    """Return the law of one cause alone."""
    return pitch_law(plan, [SizedCause(KINDS[name], size_of(size, size), "asked")], rim_mm)


def alone(plan: Plan, name: str, size: str) -> Wave | Pull | Scatter:
    (part,) = law_with(plan, name, size).parts
    assert not isinstance(part, Doubt)
    return part


def test_a_wheel_with_notches_on_the_spindle_knows_no_worm_and_no_reading() -> None:
    plan = plan_on(BULL_WHEEL, EqualDivisions(30), "direct")
    assert names(plan) == {"detent", "lock", "work-off-centre", "tilt", "tool"}


def test_a_dial_is_read_and_a_plate_is_felt() -> None:
    reading = {"reading", "reading-pull", "parallax", "dial-off-centre"}
    assert names(bench_plan(127)) >= reading | {"worm", "worm-twice", "wheel", "wheel-teeth"}
    on_plate = names(plan_on(PLATE_HEAD, EqualDivisions(28), "plain"))
    assert on_plate & (reading | {"index-pin"}) == {"index-pin"}
    by_ring = names(plan_on(BENCH_HEAD, EqualDivisions(100), "ring"))
    assert "ring-off-centre" in by_ring
    assert "worm" not in by_ring


def test_work_that_turns_in_the_cut_is_not_locked() -> None:
    plan = plan_on(PLATE_HEAD, EqualDivisions(30), "plain")
    geared = replace(plan, part=replace(plan.part, is_geared=True))
    assert names(plan) - names(geared) == {"lock"}


def test_backlash_does_nothing_unless_settings_are_come_up_to_from_both_sides() -> None:
    assert "backlash" not in names(bench_plan(127))
    assert "backlash" in names(bench_plan(127), both_sides=True)


def test_a_size_is_as_asked_else_as_the_head_file_says_else_typical() -> None:
    plan = bench_plan(127, KNOWN)
    found = {cause.kind.name: cause for cause in causes(plan, {"worm": size_of("7", "8")})}
    assert (found["worm"].known_from, found["worm"].size) == ("asked", size_of("7", "8"))
    assert (found["wheel"].known_from, found["wheel"].size) == ("head file", size_of("30", "60"))
    assert (found["lock"].known_from, found["lock"].size) == ("typical", size_of("2", "10"))


def test_every_cause_has_a_place_in_the_head_file_and_can_be_bettered() -> None:
    for kind in KINDS.values():
        assert kind.size in MOST
        low, high = map(Fraction, kind.typical)
        assert 0 <= low <= high <= MOST[kind.size]
        assert Fraction(kind.best) < high


def test_off_centre_work_is_its_own_length_at_any_rim() -> None:
    wave = alone(bench_plan(127), "work-off-centre", "0.02")
    assert wave.size == Range(20, 20)
    found = bounds(
        law_with(bench_plan(127), "work-off-centre", "0.02").__class__((0.0,) * 127, (wave,), True)
    )
    assert found.cumulative == pytest.approx(40, rel=0.005)


def test_seconds_of_arc_grow_with_the_rim() -> None:
    plan = bench_plan(127)
    for rim in (50.0, 200.0):
        (part,) = law_with(plan, "wheel", "60", rim).parts
        assert isinstance(part, Wave)
        assert part.size.high == pytest.approx(60 * ARCSEC * rim / 2 * 1000)


def test_a_dial_off_centre_is_divided_by_the_worm_and_a_ring_is_not() -> None:
    # common practice: 0.1 mm at r 30 on a 72:1 head is 9.5 seconds of arc; 0.1 at r 60 on a ring is 5.7 minutes.
    dial = alone(bench_plan(127), "dial-off-centre", "0.1").size.high
    assert dial / 50_000 / ARCSEC == pytest.approx(9.55, abs=0.01)
    ring = plan_on(BENCH_HEAD, EqualDivisions(100), "ring")
    assert alone(ring, "ring-off-centre", "0.1").size.high / 50_000 / ARCSEC / 60 == pytest.approx(
        5.73, abs=0.01
    )


def test_a_tenth_of_a_mark_of_the_bench_head_is_18_seconds_of_arc() -> None:
    size = alone(bench_plan(127), "reading", "0.1").size.high
    assert size / 50_000 / ARCSEC == pytest.approx(18)


def test_a_reading_on_a_mark_is_surer_than_one_half_way_and_is_not_drawn() -> None:
    plan = bench_plan(127)
    reading = alone(plan, "reading", "0.1")
    assert isinstance(reading, Scatter)
    for reached, weight in zip(plan.way.reached(), reading.weight, strict=True):
        assert weight == pytest.approx(1 / 3 if reached.on_line else 1)
    # Halves are drawn neither way; quarters are drawn to the nearer mark.
    assert law_with(plan, "reading-pull", "0.05").parts == ()
    fine = plan_on(BENCH_HEAD.replace('"1/2"', '"1/5"', 1), EqualDivisions(127), "dial")
    pull = alone(fine, "reading-pull", "0.05")
    assert isinstance(pull, Pull)
    for reached, drawn in zip(fine.way.reached(), pull.curve, strict=True):
        assert reached.setting.reading is not None
        part = reached.setting.reading % 1
        # Just past a mark it is read as less than it is, so the dial is set too far on.
        assert (drawn > 0, drawn < 0) == (0 < part < Fraction(1, 2), part > Fraction(1, 2))


def test_whole_turns_at_each_move_keep_the_worm_and_the_pin_out_of_it() -> None:
    plan = plan_on(PLATE_HEAD, EqualDivisions(40), "plain")
    assert law_with(plan, "index-pin", "0.05").parts == ()
    worm = bounds(law_with(plan, "worm", "60"))
    assert worm.cumulative == pytest.approx(0, abs=1e-9)
    assert bounds(law_with(plan, "wheel", "60")).cumulative > 10


def test_half_turns_show_the_worm_at_full_height_from_tooth_to_tooth() -> None:
    plan = plan_on(PLATE_HEAD, EqualDivisions(80), "plain")
    found = bounds(law_with(plan, "worm", "60"))
    assert found.single == pytest.approx(2 * 60 * ARCSEC * 50_000, rel=0.01)
    assert found.single == found.cumulative


def test_the_rounding_is_the_ways_own_to_the_last_digit() -> None:
    plan = bench_plan(127)
    law = pitch_law(plan, (), 127.0)
    errors = [float(reached.error * 360 * 3600) for reached in plan.way.reached()]
    assert [known / (63_500 * ARCSEC) for known in law.known] == pytest.approx(errors, rel=1e-12)


def test_tilt_goes_with_its_square() -> None:
    plan = bench_plan(127)
    one, ten = (alone(plan, "tilt", size).size.high for size in ("0.1", "1"))
    assert ten == pytest.approx(100 * one)
    assert one / 50_000 == pytest.approx((0.1 / 100) ** 2 / 4)


def test_a_vernier_is_read_to_half_of_its_division() -> None:
    plan = plan_on(
        ROUND_TABLE.replace("marks = 240\n", "marks = 240\nvernier = 6\n"), EqualDivisions(127), "dial"
    )
    found = {cause.kind.name: cause for cause in causes(plan)}
    assert found["reading"].size == size_of("1/24", "1/12")
    assert found["reading-pull"].size == size_of("0", "0")


def test_a_scriber_wanders_more_than_a_cutter() -> None:
    sizes = [
        next(cause.size for cause in causes(bench_plan(60, work=work)) if cause.kind.name == "tool")
        for work in ("space", "line")
    ]
    assert sizes[0].high < sizes[1].low


def test_off_centre_radians_of_nothing_is_nothing() -> None:
    assert off_centre_radians(0.0, 30.0) == 0


def test_positions_come_in_their_order_however_the_way_visits_them() -> None:
    law = pitch_law(bench_plan(20), (), 100.0)
    again = replace(law, parts=())
    assert len(again.known) == 20


EVERYTHING = f"""{PLATE_HEAD}
[dial]
marks = 100
[[notched_wheels]]
notches = 24
[change_gears]
teeth = [24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100]
[stepper]
steps = 3200
"""
ALL_KINDS = (
    BENCH_HEAD,
    PLATE_HEAD,
    BULL_WHEEL,
    f"{BULL_WHEEL}[[notched_wheels]]\nnotches = 48\ndetent_on = 'wheel'\n",
    EVERYTHING,
    "name = 'Driven'\n[stepper]\nsteps = 192000\nper_turn_of = 'spindle'\n",
    f"{BENCH_HEAD}[[notched_wheels]]\nnotches = 60\ndetent_on = 'worm'\n",
)


@pytest.mark.parametrize("count", [12, 59, 63])
def test_every_way_there_is_has_a_law_and_a_place_that_can_be_missed(count: int) -> None:
    methods = set()
    for toml in ALL_KINDS:
        for way in find_ways(read_head(toml), EqualDivisions(count)):
            plan = Plan(Part(EqualDivisions(count), Fraction(100), "space"), way)
            law = pitch_law(plan, causes(plan), 100.0)
            assert len(law.known) == count
            assert max(map(abs, law.known)) == pytest.approx(
                float(way.worst_error) * pi * 100_000, rel=1e-9, abs=1e-9
            ), way.key
            assert 0 < one_place(plan, 100.0) <= pi * 100_000
            methods.add(way.method)
    assert len(methods) >= 4, methods


def test_the_worm_behind_a_notched_wheel_turns_only_as_far_as_the_crank_is_set() -> None:
    head = f"{BENCH_HEAD}[[notched_wheels]]\nnotches = 60\ndetent_on = 'worm'\n"
    plan = plan_on(head, EqualDivisions(60 * 3), "wheel-and-worm")
    wave = alone(plan, "worm", "60")
    assert isinstance(wave, Wave)
    # Three settings of the worm and the wheel's notches between: no more than three places of the worm.
    assert len(set(wave.cycles)) <= 3
