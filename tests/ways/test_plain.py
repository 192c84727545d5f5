"""Plain indexing: the same turns and holes at every move."""

from fractions import Fraction

import pytest

from crankwise.exact.angle import read_angle, read_angles
from crankwise.part.divisions import AngleList, Divisions, EqualDivisions
from crankwise.ways.plain import ways
from crankwise.ways.way import Burden, Setting
from crankwise.wording.ways import setup_text, working_text
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, head, worm_head

PLATES = head(PLATE_HEAD)


def set_ups(divisions: Divisions) -> list[dict[str, object]]:
    return [dict(way.setup) for way in ways(PLATES, divisions)]


def test_every_circle_that_serves_is_found() -> None:
    # 40/24 = 1 2/3 turns: circles that 3 goes into
    assert set_ups(EqualDivisions(24)) == [
        {"circle": 15, "turns": 1, "holes": 10},
        {"circle": 18, "turns": 1, "holes": 12},
        {"circle": 21, "turns": 1, "holes": 14},
        {"circle": 27, "turns": 1, "holes": 18},
        {"circle": 33, "turns": 1, "holes": 22},
        {"circle": 39, "turns": 1, "holes": 26},
    ]


def test_a_number_that_no_circle_meets_has_none() -> None:
    assert set_ups(EqualDivisions(127)) == []
    assert set_ups(EqualDivisions(57)) == []  # the trap of the chart: 22 holes on a 33 circle make 60


def test_every_position_falls_in_a_hole() -> None:
    way = next(way for way in ways(PLATES, EqualDivisions(65)) if way.setup["circle"] == 39)
    assert way.setup == {"circle": 39, "turns": 0, "holes": 24}
    third = list(way.reached())[3]
    assert third.setting == Setting(turns=1, holes=(33,))  # 72 holes on a 39 circle
    assert third.error == 0
    assert third.on_line
    assert way.settings_on_lines() == 65


def test_whole_turns_are_one_way_on_any_circle() -> None:
    (way,) = ways(PLATES, EqualDivisions(8))
    assert (way.setup["turns"], way.setup["holes"]) == (5, 0)
    assert setup_text(way) == "any circle, 5 whole turns each move"
    assert way.burden == Burden(to_set_up=0, to_count=1)


def test_whole_turns_from_a_start_between_holes_need_their_circle() -> None:
    # 2 degrees are 2/9 of a turn: the first position stands in hole 4 of the 18 circle.
    found = {way.setup["circle"]: way for way in ways(PLATES, EqualDivisions(8, start=read_angle("2°")))}
    assert sorted(map(str, found)) == ["18", "27"]
    way = found[18]
    assert next(way.reached()).setting == Setting(turns=0, holes=(4,))
    assert setup_text(way) == "18 circle, 5 turns each move, the first in hole 4"
    assert way.burden == Burden(to_set_up=1, to_count=1)


def test_every_second_part_takes_both_moves_at_once() -> None:
    found = {way.setup["circle"]: way.setup for way in ways(PLATES, EqualDivisions(24, every=2))}
    assert found[15] == {"circle": 15, "turns": 3, "holes": 5}


def test_one_position_alone_of_parts_that_do_not_come_out_has_no_move() -> None:
    assert set_ups(EqualDivisions(127, last=0)) == []


def test_a_circle_that_is_not_met_again_is_no_way_round() -> None:
    # 22 1/2 turns a circle: on 15 holes the crank would end half-way between two.
    trial = worm_head("45/2", "[[plates]]\ncircles = [15, 16]\n")
    assert [way.setup["circle"] for way in ways(trial, EqualDivisions(1))] == [16]


def test_a_list_of_angles_takes_the_circles_on_which_all_fall() -> None:
    angles = AngleList(read_angles("0, 10, 30°30'"))
    found = list(ways(PLATES, angles))
    assert [way.setup for way in found] == [{"circle": 18}]  # 9° a turn: half a degree is a hole of 18
    assert [reached.setting for reached in found[0].reached()] == [
        Setting(turns=0, holes=(0,)),
        Setting(turns=1, holes=(2,)),
        Setting(turns=3, holes=(7,)),
    ]


@pytest.mark.parametrize("toml", [BENCH_HEAD, BULL_WHEEL])
def test_a_head_without_plates_has_none(toml: str) -> None:
    assert list(ways(head(toml), EqualDivisions(24))) == []


def test_the_working_is_the_trades_own() -> None:
    way = next(way for way in ways(PLATES, EqualDivisions(24)) if way.setup["circle"] == 39)
    assert [working_text(step) for step in way.working()] == [
        "turns of the crank for one move: 40 x 1 / 24 = about 1.6667 turns",
        "its part of a turn, on the 39 circle: 2/3 x 39 = 26 holes",
        "check: all moves of a full circle: (1 + 26/39) x 24 / 1 = 40 turns",
    ]
    assert (1 + Fraction(26, 39)) * 24 == 40


def test_the_working_of_a_list_shows_the_last_angle() -> None:
    (way,) = ways(PLATES, AngleList(read_angles("0, 10, 30°30'")))
    assert [working_text(step) for step in way.working()] == [
        "every angle falls in a hole of the 18 circle; the last: 61/720 x 40 x 18 = 61 holes",
    ]
