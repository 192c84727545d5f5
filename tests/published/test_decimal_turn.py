"""The accurate angular indexing table: a part of a turn by one circle, or by two of one plate face."""

import re
from fractions import Fraction

import pytest

from crankwise.exact.two_circles import splits
from crankwise.head.head import Head
from crankwise.part.divisions import AngleList
from crankwise.ways.search import find_ways
from crankwise.ways.two_circle import ways as two_circle_ways
from tests.gear import worm_head
from tests.published.tables import SETS_OF_PLATES, Row, cases, plates, rows

TABLE = rows("02-decimal-turn.csv")
_PART = re.compile(r"(?:([+-]) )?(\d+)/(\d+)")
RATIO = 40


def gear_of(row: Row) -> Head:
    return worm_head(str(RATIO), plates(SETS_OF_PLATES[row["plate_set"]]))


def printed(setting: str) -> list[tuple[int, int]]:
    """Return (holes, circle) of the one or two moves, as printed; negative: against."""
    return [(int(f"{sign}{holes}"), int(circle)) for sign, holes, circle in _PART.findall(setting)]


def value_of(row: Row) -> Fraction:
    return sum((Fraction(*move) for move in printed(row["setting"])), Fraction(0))


def asked(row: Row) -> AngleList:
    return AngleList((Fraction(0), Fraction(row["part_of_turn"]) / RATIO))


@pytest.mark.parametrize("row", cases(TABLE, "part_of_turn", "plate_set", "setting"))
def test_the_printed_figures_follow_from_the_printed_setting(row: Row) -> None:
    value, residual = value_of(row), value_of(row) - Fraction(row["part_of_turn"])
    assert abs(value - Fraction(row["exact_value"])) <= Fraction(1, 2 * 10**9), row["source"]
    # four figures are printed of the first, three decimals of the second
    assert abs(residual - Fraction(row["residual_turn"])) <= abs(residual) / 2000, row["source"]
    seconds = residual / RATIO * 1_296_000
    assert abs(seconds - Fraction(row["residual_work_arcsec_40"])) <= Fraction(1, 2000), row["source"]


@pytest.mark.parametrize(
    "row", cases([row for row in TABLE if row["kind"] == "single"], "part_of_turn", "plate_set", "setting")
)
def test_one_circle_is_set_to_the_printed_hole(row: Row) -> None:
    ((holes, circle),) = printed(row["setting"])
    (way,) = [way for way in find_ways(gear_of(row), asked(row)) if way.setup == {"circle": circle}]
    _, reached = way.reached()
    assert (reached.setting.turns, reached.setting.holes) == (0, (holes,)), row["source"]
    assert reached.error == (value_of(row) - Fraction(row["part_of_turn"])) / RATIO, row["source"]


@pytest.mark.parametrize(
    "row", cases([row for row in TABLE if row["kind"] == "compound"], "part_of_turn", "plate_set", "setting")
)
def test_two_circles_come_as_near_as_printed_and_the_printed_holes_are_among_ours(row: Row) -> None:
    (a, first), (b, second) = printed(row["setting"])
    gear = gear_of(row)
    assert any({first, second} <= set(plate.circles) for plate in gear.plates) == (row["one_face"] == "yes")
    (way,) = [way for way in two_circle_ways(gear, asked(row)) if set(way.circles) == {first, second}]
    _, reached = way.reached()
    residual = value_of(row) - Fraction(row["part_of_turn"])
    assert reached.error == residual / RATIO, f"a nearer place than the printed one: {row['source']}"
    assert reached.setting.holes is not None
    if way.circles[0] == first:  # else the printed crank moves on the other circle, and counts otherwise
        assert sum(map(abs, reached.setting.holes)) <= abs(a) + abs(b), row["source"]
    place = way.scale.nearest(reached.target)
    ours = {frozenset({(i, way.circles[0]), (j, way.circles[1])}) for i, j in splits(place, *way.circles)}
    assert frozenset(printed(row["setting"])) in ours, row["source"]


def test_the_whole_table_is_looked_at() -> None:
    assert len(TABLE) == 71
    assert {row["kind"] for row in TABLE} == {"single", "compound"}
