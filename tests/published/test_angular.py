"""Angular indexing: the angle of a move, and the rules of a whole number of minutes a hole."""

from fractions import Fraction

import pytest

from crankwise.part.divisions import AngleList
from crankwise.ways.search import find_ways
from crankwise.ways.way import Setting
from tests.gear import worm_head
from tests.published.tables import Row, cases, rows

MOVES = rows("04-angular.csv")


@pytest.mark.parametrize("row", cases(MOVES, "ratio", "angle", "circle"))
def test_a_printed_move_is_what_the_list_of_angles_is_set_to(row: Row) -> None:
    angle = Fraction(row["angle_deg"]) / 360
    circle = int(row["circle"] or 20)
    ways = find_ways(
        worm_head(row["ratio"], f"[[plates]]\ncircles = [{circle}]\n"), AngleList((Fraction(0), angle))
    )
    method = "plain" if Fraction(row["error_arcsec"]) == 0 else "nearest-hole"
    (way,) = [way for way in ways if way.method == method]
    first, second = way.reached()
    assert first.setting == Setting(turns=0, holes=(0,)), row["source"]
    assert second.setting == Setting(
        turns=int(row["whole_turns"]), holes=(int(row["holes"] or 0),), circle=second.setting.circle
    ), row["source"]
    assert second.achieved * 360 == Fraction(row["got_deg"]), row["source"]
    # printed to three decimals
    assert abs(second.error * 1_296_000 - Fraction(row["error_arcsec"])) <= Fraction(1, 2000), row["source"]


@pytest.mark.parametrize("row", cases(MOVES, "ratio", "angle", "circle"))
def test_a_printed_move_comes_to_its_angle_by_plain_arithmetic(row: Row) -> None:
    turns = int(row["whole_turns"]) + Fraction(int(row["holes"] or 0), int(row["circle"] or 1))
    assert turns * 360 / Fraction(row["ratio"]) == Fraction(row["got_deg"]), row["source"]


@pytest.mark.parametrize("row", cases([row for row in MOVES if row["note"].endswith(" min")], "circle"))
def test_the_minutes_of_one_hole_are_as_printed(row: Row) -> None:
    minutes = Fraction(row["note"].removesuffix(" min"))
    assert abs(Fraction(row["got_deg"]) * 60 - minutes) <= Fraction(1, 20_000), row["source"]


@pytest.mark.parametrize(("circle", "minutes"), [(54, 10), (27, 20), (18, 30)])
def test_a_hole_of_a_40_to_1_head_moves_whole_minutes(circle: int, minutes: int) -> None:
    # The rule of the handbooks: 540 minutes a turn of the crank, shared among the holes.
    head = worm_head("40", f"[[plates]]\ncircles = [{circle}]\n")
    every_hole = AngleList(tuple(Fraction(hole * minutes, 21_600) for hole in range(circle * 2)))
    (way,) = [way for way in find_ways(head, every_hole) if way.method == "plain"]
    assert [reached.setting.holes for reached in way.reached()] == [
        (hole % circle,) for hole in range(circle * 2)
    ]
    assert way.exact
