"""The answer to a division as tables of text."""

from fractions import Fraction

import pytest

from crankwise.exact.angle import read_angles
from crankwise.part.divisions import AngleList, EqualDivisions
from crankwise.part.part import Part
from crankwise.plan.plan import Plan, planned
from crankwise.ways.search import find_ways
from crankwise.wording.division import position_table, refusal_text, way_table
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, head, worm_head

BENCH = head(BENCH_HEAD)
SECOND = Fraction(1, 1_296_000)


def plan_of(toml: str, part: Part, key: str | None = None) -> Plan:
    plan = planned(head(toml), part, key)
    assert plan is not None
    return plan


def test_the_positions_of_127_on_the_dial() -> None:
    headings, table = position_table(plan_of(BENCH_HEAD, Part(EqualDivisions(127)), "dial"))
    assert headings == ["position", "turns", "reading", "ring", "target", "error"]
    assert table[0] == ["0", "0", "0", "0.00°", "0°0'0.0\"", '0"']
    assert table[1] == ["1", "0", "56.5", "2.83°", "2°50'4.7\"", '-34.7"']
    assert table[-1] == ["127 = 0", "72", "0", "0.00°", "360°0'0.0\"", '0"']
    assert len(table) == 128


def test_a_closing_row_names_the_position_that_is_met_again() -> None:
    _, table = position_table(plan_of(BENCH_HEAD, Part(EqualDivisions(12, first=2, every=4)), "dial"))
    assert [row[0] for row in table] == ["2", "6", "10", "14 = 2"]


def test_holes_and_notches_have_their_own_columns() -> None:
    headings, table = position_table(
        plan_of(PLATE_HEAD, Part(EqualDivisions(24)), "plain:circle=39:turns=1:holes=26")
    )
    assert headings == ["position", "turns", "holes", "target", "error"]
    assert table[2][:3] == ["2", "3", "13"]
    headings, table = position_table(plan_of(BULL_WHEEL, Part(EqualDivisions(12))))
    assert headings == ["position", "notches", "target", "error"]
    assert table[2] == ["2", "10", "60°0'0.0\"", '0"']


def test_a_ring_check_never_shows_the_full_circle() -> None:
    fine = worm_head("90", '[dial]\nmarks = 400\nread_to = "1/10"\n[ring]\ngraduations = 360\n')
    # one reading is 0.001 degrees; the last position stands at 359.999
    plan = planned(fine, Part(AngleList(read_angles("0, 359.999"))), "dial")
    assert plan is not None
    _, table = position_table(plan)
    assert table[1][:4] == ["1", "89", "399.9", "0.00°"]


def side_by_side(toml: str, part: Part, tolerance: Fraction | None = None) -> list[dict[str, str]]:
    headings, table = way_table(find_ways(head(toml), part.divisions, tolerance), part, tolerance)
    return [dict(zip(headings, row, strict=True)) for row in table]


def test_the_ways_side_by_side() -> None:
    first, *_ = side_by_side(BENCH_HEAD, Part(EqualDivisions(127), rim_mm=Fraction(200)))
    assert first["way"] == "Dial, nearest reading"
    assert first["worst error"] == '±44.6"'
    assert first["at the rim"] == "21.6 µm (8.5 tenths of a thou)"
    assert first["on a line"] == "63 of 127"
    assert "within" not in first


def test_a_tolerance_adds_its_column() -> None:
    ways = side_by_side(BENCH_HEAD, Part(EqualDivisions(127)), 60 * SECOND)
    assert [row["within"] for row in ways] == ["yes", "no"]
    assert "at the rim" not in ways[0]


def test_an_exact_way_says_so() -> None:
    (way,) = side_by_side(BULL_WHEEL, Part(EqualDivisions(12)))
    assert (way["way"], way["set-up"]) == ("Direct indexing", "60-notch wheel, 5 notches each move")
    assert (way["worst error"], way["on a line"]) == ("exact", "12 of 12")


def test_a_refusal_tells_the_nearest_way() -> None:
    part = Part(EqualDivisions(127), rim_mm=Fraction(200))
    tolerance = 5 * SECOND
    assert refusal_text(BENCH, find_ways(BENCH, part.divisions, tolerance), part, tolerance) == (
        'no way within 5.0"; the nearest is dial, nearest reading (from the list, each reading counted from '
        'the start), ±44.6", 21.6 µm (8.5 tenths of a thou) at the rim'
    )


def test_a_head_on_which_nothing_comes_round_says_why() -> None:
    odd = head('name = "Odd"\n[worm]\nratio = "40/3"\n[dial]\nmarks = 100\n')
    assert refusal_text(odd, [], Part(EqualDivisions(7)), None) == (
        "no way: on no scale of this head does a full circle come out in whole places"
    )


@pytest.mark.parametrize(
    ("wheels", "divisions", "why"),
    [
        (
            [60],
            EqualDivisions(7),
            "7 parts are no whole number of notches on the wheel of 60 notches; the nearest that are: 6 and 10",
        ),
        (
            [60],
            EqualDivisions(127),
            "127 parts are no whole number of notches on the wheel of 60 notches; the nearest that are: 60",
        ),
        (
            [60, 24],
            EqualDivisions(7),
            "7 parts are no whole number of notches on the wheels of 24 and 60 notches; the nearest that are: 6 and 8",
        ),
        (
            [60],
            AngleList((Fraction(0), Fraction(1, 7))),
            "not every position falls on a notch of the wheel of 60 notches",
        ),
        (
            [60],
            EqualDivisions(12, start=Fraction(1, 100)),
            "not every position falls on a notch of the wheel of 60 notches",
        ),
    ],
)
def test_a_wheel_that_does_not_cut_a_number_says_which_it_cuts(
    wheels: list[int], divisions: EqualDivisions | AngleList, why: str
) -> None:
    gear = head('name = "Bull wheel"\n' + "".join(f"[[notched_wheels]]\nnotches = {n}\n" for n in wheels))
    assert find_ways(gear, divisions) == []
    assert refusal_text(gear, [], Part(divisions), None) == f"no way: {why}"
