"""Plain indexing as the handbooks print it: every entry is among the ways found, every claim holds."""

from fractions import Fraction

import pytest

from crankwise.exact.angle import read_angles
from crankwise.head.head import Head
from crankwise.part.divisions import AngleList, Divisions, EqualDivisions
from crankwise.ways.search import find_ways
from tests.gear import worm_head
from tests.published.tables import SETS_OF_PLATES, Row, cases, plates, rows

ENTRIES = rows("01-simple-published.csv")
CLAIMS = rows("01-coverage-claims.csv")
PRACTICE_SHEET = "Dividing head practice sheet"


def head_of(row: Row) -> Head:
    """The head of an entry: its plate set, the circles it names, or where none is named the one it uses."""
    named = row["plate_set"]
    if named in SETS_OF_PLATES:
        sets = SETS_OF_PLATES[named]
    elif named:
        sets = (tuple(int(circle) for circle in named.removeprefix("circles ").split()),)
    else:
        sets = ((int(row["circle"] or 24),),)
    return worm_head(row["ratio"], plates(sets))


def plain_settings(head: Head, divisions: Divisions) -> set[tuple[int, int, int]]:
    """Circle, whole turns and holes of every plain way that is found among all."""
    found = set()
    for way in find_ways(head, divisions):
        if way.method == "plain":
            assert way.exact
            circle, turns, holes = way.setup["circle"], way.setup["turns"], way.setup["holes"]
            assert isinstance(circle, int)
            assert isinstance(turns, int)
            assert isinstance(holes, int)
            found.add((circle, turns, holes))
    return found


@pytest.mark.parametrize("row", cases(ENTRIES, "ratio", "plate_set", "n", "circle"))
def test_a_printed_entry_is_among_the_ways_found(row: Row) -> None:
    turns, holes = int(row["whole_turns"]), int(row["holes"])
    found = plain_settings(head_of(row), EqualDivisions(int(row["n"])))
    if row["circle"]:
        assert (int(row["circle"]), turns, holes) in found, row["source"]
    else:  # whole turns, on any circle
        assert holes == 0, row["source"]
        assert {setting[1:] for setting in found} == {(turns, 0)}, row["source"]


@pytest.mark.parametrize("row", cases(ENTRIES, "ratio", "plate_set", "n", "circle"))
def test_a_printed_entry_makes_its_number_by_plain_arithmetic(row: Row) -> None:
    move = Fraction(int(row["whole_turns"])) + Fraction(int(row["holes"]), int(row["circle"] or 1))
    assert move * int(row["n"]) == Fraction(row["ratio"]), row["source"]


def test_on_the_practice_sheet_no_other_circle_serves() -> None:
    exercises: dict[tuple[str, str, str], set[int]] = {}
    for row in ENTRIES:
        if row["source"].startswith(PRACTICE_SHEET):
            exercise = (row["ratio"], row["plate_set"], row["n"])
            exercises.setdefault(exercise, set()).add(int(row["circle"]))
    assert len(exercises) == 11
    for (ratio, plate_set, n), circles in exercises.items():
        head = head_of({"ratio": ratio, "plate_set": plate_set, "circle": ""})
        found = plain_settings(head, EqualDivisions(int(n)))
        assert {circle for circle, _, _ in found} == circles, (ratio, plate_set, n, PRACTICE_SHEET)


def claimed(number: int) -> Row:
    return CLAIMS[number]


def divided_plainly(plate_set: str, n: int) -> bool:
    head = worm_head("40", plates(SETS_OF_PLATES[plate_set]))
    return bool(plain_settings(head, EqualDivisions(n)))


def test_the_claims_are_the_four_that_are_checked_here() -> None:
    assert [row["claim"] for row in CLAIMS] == [
        "all N from 2 to 50 are possible by plain indexing",
        "even N from 52 to 100 are possible by plain indexing except 96, which is not",
        "1/4 degree cannot be had by plain indexing (1/36 turn of the crank)",
        "all N from 2 to 60 are possible by plain indexing",
    ]
    assert {row["ratio"] for row in CLAIMS} == {"40"}
    assert [row["plate_set"] for row in CLAIMS] == ["A", "A", "A", "B"]


def test_set_a_divides_all_from_2_to_50() -> None:
    assert [n for n in range(2, 51) if not divided_plainly("A", n)] == [], claimed(0)["source"]


def test_set_a_divides_the_even_numbers_from_52_to_100_but_96() -> None:
    assert [n for n in range(52, 101, 2) if not divided_plainly("A", n)] == [96], claimed(1)["source"]


def test_set_a_cannot_move_a_quarter_of_a_degree() -> None:
    head = worm_head("40", plates(SETS_OF_PLATES["A"]))
    ways = find_ways(head, AngleList(read_angles("0, 1/4")))
    assert ways
    assert [way for way in ways if way.method == "plain"] == [], claimed(2)["source"]


def test_set_b_divides_all_from_2_to_60() -> None:
    assert [n for n in range(2, 61) if not divided_plainly("B", n)] == [], claimed(3)["source"]
