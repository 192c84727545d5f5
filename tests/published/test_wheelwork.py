"""Wheels of an ancient geared mechanism and of clock practice, planned on three different heads."""

from fractions import Fraction

import pytest

from crankwise.head.head import Head
from crankwise.part.divisions import EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.plan import Plan, planned
from crankwise.plan.schedule import schedule
from crankwise.ways.search import find_ways
from crankwise.ways.way import Setting
from tests.gear import BENCH_HEAD, PLATE_HEAD, ROUND_TABLE, head
from tests.published.tables import Row, cases, rows

TABLE = rows("12-wheelwork.csv")
TRAINS = "ancient Greek mechanism: trains"
WHEELS = [row for row in TABLE if row["set_name"] != TRAINS]
HEADS = {"bench head": BENCH_HEAD, "plate head": PLATE_HEAD, "round table": ROUND_TABLE}
# What the oracle knows of each head: crank turns a circle, and the settings in one turn of the crank.
DIALS = {"bench head": (72, 100, 2), "round table": (90, 240, 1)}
CIRCLES = (15, 16, 17, 18, 19, 20, 21, 23, 27, 29, 31, 33, 37, 39, 41, 43, 47, 49)
SECONDS = 1_296_000


def test_every_row_is_a_wheel_or_a_train() -> None:
    assert len(WHEELS) + sum(row["set_name"] == TRAINS for row in TABLE) == len(TABLE)
    assert sum(row["set_name"] == TRAINS for row in TABLE) == 5  # see SOURCES.md: no division is made there
    assert {int(row["teeth"]) for row in WHEELS} >= {53, 127, 223}


def plan_by(gear: Head, teeth: int, key: str) -> Plan:
    plan = planned(gear, Part(EqualDivisions(teeth)), key)
    assert plan is not None, key
    return plan


def least_out(target: Fraction, places: int) -> Fraction:
    """The least distance of any of `places` places round the circle, tried one by one near the target."""
    around = int(target * places)
    return min(abs(Fraction(place, places) - target) for place in range(around - 2, around + 4))


@pytest.mark.parametrize("name", DIALS)
@pytest.mark.parametrize("row", cases(WHEELS, "wheel", "teeth"))
def test_a_wheel_is_planned_by_the_dial(name: str, row: Row) -> None:
    ratio, marks, parts = DIALS[name]
    teeth = int(row["teeth"])
    table = schedule(plan_by(head(HEADS[name]), teeth, "dial"))
    assert [line.reached.position for line in table] == list(range(teeth + 1))
    for number, line in enumerate(table):
        setting = line.reached.setting
        assert setting.turns is not None
        assert setting.reading is not None
        assert (setting.reading * parts).denominator == 1  # it can be set
        assert 0 <= setting.reading < marks
        stands = (setting.turns + setting.reading / marks) / ratio
        error = stands - Fraction(number, teeth)
        assert line.reached.error == error, row["source"]
        assert abs(error) == least_out(Fraction(number, teeth), ratio * marks * parts), row["source"]
        assert line.ring_check == stands * 360 % 360
    assert table[-1].closing
    assert table[-1].reached.setting == Setting(turns=ratio, reading=Fraction(0)), row["source"]


@pytest.mark.parametrize("row", cases(WHEELS, "wheel", "teeth"))
def test_a_wheel_is_planned_by_the_plates(row: Row) -> None:
    teeth, gear = int(row["teeth"]), head(PLATE_HEAD)
    found = {}
    for way in find_ways(gear, EqualDivisions(teeth)):
        if way.method in ("plain", "nearest-hole"):
            found[way.setup["circle"]] = way.worst_error
            for reached in way.reached():
                setting, circle = reached.setting, way.setup["circle"]
                assert isinstance(circle, int)
                assert setting.turns is not None
                assert setting.holes is not None
                stands = (setting.turns + Fraction(setting.holes[0], circle)) / 40
                assert reached.error == stands - Fraction(reached.position, teeth), row["source"]
    worst = {
        circle: max(least_out(Fraction(number, teeth), 40 * circle) for number in range(teeth))
        for circle in CIRCLES
    }
    # Whole turns are one way on any circle, so only the first of them is told.
    if 40 % teeth == 0:
        assert found == {15: 0}
    else:
        assert found == worst, row["source"]


@pytest.mark.parametrize("name", HEADS)
@pytest.mark.parametrize("row", cases(WHEELS, "wheel", "teeth"))
def test_the_best_way_is_not_beaten_by_a_plain_search(name: str, row: Row) -> None:
    teeth = int(row["teeth"])
    if name == "plate head":
        scales = [40 * circle for circle in CIRCLES]
    else:
        ratio, marks, parts = DIALS[name]
        rings = {"bench head": 720, "round table": 360}
        scales = [ratio * marks * parts, rings[name]]
    least = min(
        max(least_out(Fraction(number, teeth), places) for number in range(teeth)) for places in scales
    )
    best = find_ways(head(HEADS[name]), EqualDivisions(teeth))[0]
    assert best.worst_error <= least, row["source"]
