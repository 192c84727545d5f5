"""03-differential.csv: every printed entry is among the ways found, with its train, its sign and its idlers."""

from fractions import Fraction

import pytest

from crankwise.head.train import Train
from crankwise.part.divisions import EqualDivisions
from crankwise.ways.differential import ways
from tests.gear import PLATE_HEAD, head
from tests.published.tables import Row, cases, rows

GEARED_HEAD = head(PLATE_HEAD + "[change_gears]\nteeth = [24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100]\n")
TABLE = rows("03-differential.csv")
PRINTED = [row for row in TABLE if row["circle"]]


def printed_train(row: Row) -> Train:
    """Return the printed train from the spindle on: the second on the stud meets the gear on the spindle."""
    on_spindle, on_worm = int(row["gear_on_spindle"]), int(row["gear_on_worm"])
    if not row["first_on_stud"]:
        return Train((on_spindle,), (on_worm,))
    return Train((on_spindle, int(row["first_on_stud"])), (int(row["second_on_stud"]), on_worm))


def test_every_row_of_the_table_is_looked_at() -> None:
    assert len(TABLE) == 227
    assert [row["n"] for row in TABLE if not row["circle"]] == ["383"]


@pytest.mark.parametrize("row", cases(PRINTED, "n", "circle"))
def test_a_printed_entry_is_among_the_ways_found(row: Row) -> None:
    ratio, count, near = Fraction(row["ratio"]), int(row["n"]), Fraction(row["approx_n"])
    printed = Fraction(row["plate_per_spindle_turn"])
    assert printed == ratio * (near - count) / near, row["source"]
    train = printed_train(row)
    assert train.value == abs(printed), row["source"]

    (way,) = [
        way
        for way in ways(GEARED_HEAD, EqualDivisions(count))
        if (way.circle, way.moved) == (int(row["circle"]), int(row["holes"]))
    ]
    assert way.exact, row["source"]
    assert (way.near_number, way.wanted, way.train.value) == (near, printed, abs(printed)), row["source"]
    assert way.setup["plate"] == ("with" if printed > 0 else "against"), row["source"]
    gears = GEARED_HEAD.change_gears
    assert gears is not None
    assert gears.idlers(train, printed > 0) == int(row["idlers"]), row["source"]
    if train.is_simple == way.train.is_simple:
        assert way.idlers == int(row["idlers"]), row["source"]


def test_383_which_the_table_says_cannot_be_had_cannot() -> None:
    assert [way for way in ways(GEARED_HEAD, EqualDivisions(383)) if way.exact] == []
