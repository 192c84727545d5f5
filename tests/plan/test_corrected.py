"""Corrected settings: each is the best there is, seen from a head whose true errors the test knows."""

from fractions import Fraction
from math import cos, pi, sin

import pytest

from crankwise.errors import BadDivisions
from crankwise.exact.angle import ARCSECONDS
from crankwise.head.head import Head
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.corrected import compared, corrected_ways, correction_of, find_corrected, uncorrected
from crankwise.plan.passes import Pass
from crankwise.plan.plan import planned
from crankwise.plan.schedule import schedule
from crankwise.ways.way import Setting
from tests.gear import BENCH_HEAD, PLATE_HEAD, head, worm_head

MEASURED = """
[[calibrations]]
date = "2026-03-14"
freedom = 27
residual_arcsec = 2
harmonics = [
  { of = "wheel", order = 1, cosine_arcsec = 64.7, sine_arcsec = 47 },
  { of = "worm", order = 1, cosine_arcsec = -8.5, sine_arcsec = 18.1 },
]
covariance = [[0.3], [0, 0.3], [0, 0, 0.25], [0, 0, 0, 0.25]]
"""
STEPPER = "[stepper]\nsteps = 2000\n"


def error(turns: Fraction, ratio: int) -> float:
    """The head's error as seen from its zero, in turns; the law written here a second time."""
    s, c = 2 * pi * float(turns % 1), 2 * pi * float(turns * ratio % 1)
    wheel = 64.7 * (cos(s) - 1) + 47 * sin(s)
    return (wheel - 8.5 * (cos(c) - 1) + 18.1 * sin(c)) / ARCSECONDS


def heads() -> list[tuple[Head, int]]:
    return [
        (head(BENCH_HEAD + MEASURED), 72),
        (head(PLATE_HEAD + MEASURED), 40),
        (worm_head("90", STEPPER + MEASURED), 90),
    ]


@pytest.mark.parametrize(("gear", "ratio"), heads(), ids=lambda one: getattr(one, "name", one))
@pytest.mark.parametrize(
    "divisions", [EqualDivisions(127), EqualDivisions(60), AngleList((Fraction(0), Fraction(1, 7)))]
)
def test_no_place_comes_nearer_on_the_true_head(
    gear: Head, ratio: int, divisions: EqualDivisions | AngleList
) -> None:
    for way in corrected_ways(gear, divisions)[:3]:
        all_round = way.scale.all_round
        for reached in way.reached():
            place = correction_of(way).place_of(reached.achieved)
            out = {
                near: abs(float(near / all_round) + error(near / all_round, ratio) - float(reached.target))
                for near in range(place - 4, place + 5)
            }
            # The package keeps errors to a thousandth of a second.
            assert out[place] <= min(out.values()) + 1.1e-3 / ARCSECONDS
            assert float(reached.error) == pytest.approx(
                float(place / all_round) + error(place / all_round, ratio) - float(reached.target),
                abs=6e-4 / ARCSECONDS,
            )


@pytest.mark.parametrize(("gear", "ratio"), heads(), ids=lambda one: getattr(one, "name", one))
def test_the_worst_error_falls_to_half_a_place_as_the_theory_says(gear: Head, ratio: int) -> None:
    way = corrected_ways(gear, EqualDivisions(127))[0]
    rows = compared(way)
    half_a_place = 1 / (2 * way.scale.all_round)
    before, after = max(abs(row.before) for row in rows), max(abs(row.after) for row in rows)
    assert after == way.worst_error
    # Places are spread by the slope of the error: 1 part in 30 here at most.
    assert after <= half_a_place * Fraction(31, 30) + Fraction(1, 1000 * ARCSECONDS)
    swing = max(abs(error(Fraction(k, 5000), ratio)) for k in range(5000))
    assert float(before) == pytest.approx(swing, abs=float(half_a_place) * 1.1)


def test_settings_are_those_of_the_plain_way_where_the_head_has_no_error() -> None:
    perfect = MEASURED.replace("64.7", "0").replace("47", "0").replace("-8.5", "0").replace("18.1", "0")
    way = corrected_ways(head(BENCH_HEAD + perfect), EqualDivisions(127))[0]
    plain = uncorrected(way)
    assert [one.setting for one in way.reached()] == [one.setting for one in plain.reached()]
    assert way.worst_error == plain.worst_error


def test_a_full_circle_closes_and_further_rounds_meet_the_same_places() -> None:
    gear = head(PLATE_HEAD + MEASURED)
    plan = planned(gear, Part(EqualDivisions(59)), corrected_ways(gear, EqualDivisions(59))[0].key)
    assert plan is not None
    rows = schedule(plan, (Pass("rough"), Pass("finish")))
    first, second = rows[:60], rows[60:]
    assert first[-1].reached.achieved == 1
    for row, again in zip(first[:-1], second[:-1], strict=True):
        assert (again.reached.achieved - row.reached.achieved) % 1 == 0
        assert again.reached.setting.holes == row.reached.setting.holes


def test_moves_lead_from_each_setting_to_the_next() -> None:
    gear = head(BENCH_HEAD + MEASURED)
    way = corrected_ways(gear, EqualDivisions(30))[0]
    at, before = Fraction(0), None
    for reached in way.reached():
        move = way.move(before, reached)
        assert move.turns is not None
        assert move.reading is not None
        at += move.turns + move.reading / 100
        assert reached.setting.turns is not None
        assert reached.setting.reading is not None
        assert at == reached.setting.turns + reached.setting.reading / 100
        before = reached


def test_a_kept_plan_finds_its_way_again() -> None:
    gear, part = head(PLATE_HEAD + MEASURED), Part(EqualDivisions(127))
    for way in corrected_ways(gear, part.divisions):
        assert way.key.endswith(":corrected=2026-03-14")
        assert planned(gear, part, way.key) is not None
        assert find_corrected(gear, part.divisions, way.key) == way
    assert planned(head(PLATE_HEAD), part, way.key) is None
    other = head(PLATE_HEAD + MEASURED.replace("03-14", "05-01"))
    assert planned(other, part, way.key) is None


def test_no_corrected_key_is_a_plain_one() -> None:
    gear = head(BENCH_HEAD + MEASURED)
    plain = planned(gear, Part(EqualDivisions(127)))
    assert plain is not None
    assert not plain.way.corrects
    assert ":corrected" not in plain.way.key
    assert corrected_ways(gear, EqualDivisions(127))[0].corrects


def test_parts_that_a_perfect_head_meets_exactly_are_corrected_too() -> None:
    ways = corrected_ways(head(PLATE_HEAD + MEASURED), EqualDivisions(40))
    assert ways[0].method == "two-circle"
    assert all(way.corrects for way in ways)
    assert ways[0].worst_error < 8 * Fraction(1, ARCSECONDS)


def test_the_working_tells_what_the_head_is_out_by() -> None:
    way = corrected_ways(head(BENCH_HEAD + MEASURED), EqualDivisions(127))[0]
    steps = {step.what: step for step in way.working()}
    place = correction_of(way).nearest(Fraction(1, 127))
    told = steps["what the head is out by there, as measured"]
    assert told.value == correction_of(way).head_error(place)
    last = steps["error of position 1"]
    assert last.value == place / way.scale.all_round + told.value - Fraction(1, 127)
    assert "bound for any position: half of the least that can be set" not in steps


def test_what_is_known_carries_its_uncertainty() -> None:
    rows = compared(corrected_ways(head(BENCH_HEAD + MEASURED), EqualDivisions(8))[0])
    assert rows[0].uncertainty == 0  # the start itself: everything is seen from there
    assert rows[4].uncertainty == pytest.approx((4 * 0.3) ** 0.5, abs=0.1)


def test_a_head_that_was_never_measured_cannot_be_corrected() -> None:
    with pytest.raises(BadDivisions, match="the errors of 'Bench head' are not known; measure it"):
        corrected_ways(head(BENCH_HEAD), EqualDivisions(127))


def test_too_many_positions_are_refused() -> None:
    with pytest.raises(BadDivisions, match="30,000 positions; at most 20,000"):
        corrected_ways(head(BENCH_HEAD + MEASURED), EqualDivisions(30_000))


RING = "[ring]\ngraduations = 360\n"
EVERY_METHOD = [
    ("dial", head(BENCH_HEAD + MEASURED), 72),
    ("nearest-hole", worm_head("40", "[[plates]]\ncircles = [27, 33, 37]\n" + RING + MEASURED), 40),
    ("two-circle", worm_head("40", "[[plates]]\ncircles = [27, 33, 37]\n" + RING + MEASURED), 40),
    ("stepper", worm_head("90", STEPPER + RING + MEASURED), 90),
]


def shown(gear: Head, setting: Setting) -> Fraction:
    """Where the scales put the spindle, in turns: what is set, counted out by hand."""
    if setting.steps is not None:
        return Fraction(setting.steps, 2000 * 90)
    assert setting.turns is not None
    assert gear.ratio is not None
    if setting.reading is not None:
        return (setting.turns + setting.reading / 100) / gear.ratio
    return Fraction(setting.turns) / gear.ratio


@pytest.mark.parametrize(("method", "gear", "ratio"), EVERY_METHOD, ids=lambda one: str(one)[:12])
def test_the_ring_will_really_show_what_its_check_says(method: str, gear: Head, ratio: int) -> None:
    way = next(way for way in corrected_ways(gear, EqualDivisions(127)) if way.method == method)
    assert way.key.startswith(method)
    plan = planned(gear, Part(EqualDivisions(127)), way.key)
    assert plan is not None
    holes = way.setup.get("circle"), way.setup.get("circles")
    for row in schedule(plan):
        setting = row.reached.setting
        at = shown(gear, setting)
        if setting.holes:
            circles = holes[1] if isinstance(holes[1], tuple) else (holes[0],)
            pairs = zip(setting.holes, circles, strict=True)
            turns = sum((Fraction(count, int(str(circle))) for count, circle in pairs), Fraction(0))
            at += turns / ratio
        really = float(at) + error(at, ratio)
        assert row.ring_check is not None
        # As the package keeps errors to a thousandth of a second; round the circle, 0 is 360.
        out = (float(row.ring_check) - really * 360 + 180) % 360 - 180
        assert abs(out) < 1e-3 / 3600 * 1.1
        assert abs(really - float(row.reached.target)) <= float(way.worst_error) + 1e-9
