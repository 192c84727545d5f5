"""The published tables, read as printed."""

import csv
from collections.abc import Sequence
from pathlib import Path

import pytest

HERE = Path(__file__).parent
SETS_OF_PLATES = {
    "A": ((15, 16, 17, 18, 19, 20), (21, 23, 27, 29, 31, 33), (37, 39, 41, 43, 47, 49)),
    "B": ((24, 25, 28, 30, 34, 37, 38, 39, 41, 42, 43), (46, 47, 49, 51, 53, 54, 57, 58, 59, 62, 66)),
}

Row = dict[str, str]


def rows(name: str) -> list[Row]:
    """Return every row of a table; each has a source."""
    with (HERE / name).open(encoding="utf-8", newline="") as file:
        found = list(csv.DictReader(file))
    assert found, name
    assert all(row["source"] for row in found), name
    return found


def cases(table: Sequence[Row], *columns: str) -> list[object]:
    """Return a table's rows as a test's cases, each named by its place and some of its columns."""
    return [
        pytest.param(row, id="-".join([f"row {number}", *(row[column] for column in columns)]))
        for number, row in enumerate(table, 2)
    ]


def plates(circles_of_each: Sequence[Sequence[int]]) -> str:
    """Return these plates as a head file has them."""
    return "".join(f"[[plates]]\ncircles = {list(circles)}\n" for circles in circles_of_each)
