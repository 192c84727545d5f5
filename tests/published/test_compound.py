"""Compound indexing: every printed setting is found, as many as are counted, and none where none exists."""

import re
from fractions import Fraction

import pytest

from crankwise.head.head import Head
from crankwise.part.divisions import EqualDivisions
from crankwise.ways.compound import Compound, ways
from tests.gear import worm_head
from tests.published.tables import SETS_OF_PLATES, Row, cases, plates, rows

TABLE = rows("02-compound.csv")
_SETTING = re.compile(r"(\d+)/(\d+) ([+-]) (\d+)/(\d+)")
_COUNTED = re.compile(r"(\d+) exact settings")


def gear_of(row: Row) -> Head:
    return worm_head(row["ratio"], plates(SETS_OF_PLATES[row["plate_set"]]))


def printed(setting: str) -> tuple[tuple[int, int], tuple[int, int]]:
    """Return (circle, holes) of the two moves, as printed; negative: against."""
    match = _SETTING.fullmatch(setting)
    assert match, setting
    a, first, sign, b, second = match.groups()
    return (int(first), int(a)), (int(second), int(f"{sign}{b}"))


def exact_settings(gear: Head, count: int) -> list[Compound]:
    return [way for way in ways(gear, EqualDivisions(count)) if way.exact and way.parts_at_once == 1]


@pytest.mark.parametrize("row", cases(TABLE, "plate_set", "n", "setting"))
def test_the_setting_is_found_and_as_many_as_are_counted(row: Row) -> None:
    found = exact_settings(gear_of(row), int(row["n"]))
    if not row["setting"]:
        assert row["note"] == "no exact setting", row["source"]
        assert found == [], row["source"]
        return
    moves = [set(zip(way.circles, way.holes, strict=True)) for way in found]
    assert set(printed(row["setting"])) in moves, row["source"]
    counted = _COUNTED.fullmatch(row["note"])
    assert counted or row["known_by"] == "memory", row["note"]
    if counted:
        assert len(found) == int(counted[1]), row["source"]


@pytest.mark.parametrize("row", cases([row for row in TABLE if row["setting"]], "plate_set", "n", "setting"))
def test_the_printed_moves_come_to_the_printed_turns(row: Row) -> None:
    (first, a), (second, b) = printed(row["setting"])
    turns = Fraction(a, first) + Fraction(b, second)
    assert turns == Fraction(row["turns"]) == Fraction(row["ratio"]) / int(row["n"]), row["source"]


@pytest.mark.parametrize(
    "row", cases([row for row in TABLE if row["known_by"] == "computed" and row["setting"]], "plate_set", "n")
)
def test_the_setting_with_the_fewest_holes_is_put_first(row: Row) -> None:
    best = exact_settings(gear_of(row), int(row["n"]))[0]
    assert sum(map(abs, best.holes)) == sum(abs(holes) for _, holes in printed(row["setting"])), row["source"]


def test_the_whole_table_is_looked_at() -> None:
    assert len(TABLE) == 328
    assert sum(bool(row["setting"]) for row in TABLE) == 110
