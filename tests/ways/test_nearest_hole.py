"""The nearest hole of one circle, counted from the start."""

from fractions import Fraction

from crankwise.exact.angle import read_angles
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.ways.nearest_hole import ways
from crankwise.ways.way import Burden, Setting
from crankwise.wording.ways import setup_text, working_text
from tests.gear import BENCH_HEAD, PLATE_HEAD, head, worm_head

PLATES = head(PLATE_HEAD)


def test_127_on_the_49_circle_as_worked_on_paper() -> None:
    # 40 x 49 = 1960 holes a circle, 15.433 a part: 15, 31, 46 ...
    way = next(way for way in ways(PLATES, EqualDivisions(127)) if way.setup == {"circle": 49})
    assert [row.setting for row in way.reached()][:5] == [
        Setting(turns=0, holes=(0,)),
        Setting(turns=0, holes=(15,)),
        Setting(turns=0, holes=(31,)),
        Setting(turns=0, holes=(46,)),
        Setting(turns=1, holes=(13,)),  # 61.73: hole 62
    ]
    assert way.worst_error == Fraction(63, 127 * 1960)
    assert not way.exact
    assert way.settings_on_lines() == 127
    assert way.burden == Burden(to_set_up=1, to_count=3, looked_up=1)
    assert setup_text(way) == "49 circle"


def test_every_circle_that_does_not_meet_all_is_told_and_no_other() -> None:
    # 24 parts: circles that 3 goes into are plain
    assert [way.setup["circle"] for way in ways(PLATES, EqualDivisions(24))] == [
        16, 17, 19, 20, 23, 29, 31, 37, 41, 43, 47, 49,
    ]  # fmt: skip


def test_a_circle_that_does_not_come_round_is_no_way_round() -> None:
    trial = worm_head("45/2", "[[plates]]\ncircles = [15, 16]\n")  # 337 1/2 and 360 holes
    assert [way.setup["circle"] for way in ways(trial, EqualDivisions(127))] == [16]
    assert [way.setup["circle"] for way in ways(trial, EqualDivisions(127, last=9))] == [15, 16]


def test_one_position_alone_is_looked_up() -> None:
    found = {way.setup["circle"]: way for way in ways(PLATES, EqualDivisions(127, last=0))}
    assert found[15].exact
    assert [row.setting for row in found[15].reached()] == [Setting(turns=0, holes=(0,))]


def test_a_list_is_set_hole_by_hole() -> None:
    (way,) = ways(worm_head("40", "[[plates]]\ncircles = [23]\n"), AngleList(read_angles("0, 24', 1°")))
    assert [row.setting.holes for row in way.reached()] == [(0,), (1,), (3,)]  # 1.02 and 2.56 holes


def test_without_plates_there_is_none() -> None:
    assert list(ways(head(BENCH_HEAD), EqualDivisions(127))) == []


def test_the_working_can_be_followed_on_paper() -> None:
    way = next(way for way in ways(PLATES, EqualDivisions(127)) if way.setup == {"circle": 49})
    assert [working_text(step) for step in way.working()][:4] == [
        "one move, from one position to the next: 40 x 49 / 127 = about 15.4331 holes",
        "position 1, counted from the start: 1/127 x 40 x 49 = about 15.4331 holes",
        "the nearest that can be set: 15 / 1 = 15 holes",
        'error of position 1: (15 - 1960/127) / (40 x 49) = -286.4"',
    ]
