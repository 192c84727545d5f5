"""Chords, polygons and bolt circles against a printed table of factors and recomputed ones; every row."""

import re
from fractions import Fraction

import pytest

from crankwise.part.divisions import EqualDivisions
from crankwise.part.flats import Flats, height_of_corners, polygon
from crankwise.part.hole_circle import HoleCircle
from tests.published.tables import Row, cases, rows

TABLE = rows("11-circle-and-polygon.csv")
CHORD = "chord / circle diameter = sin(180/N)"
_BOLT = re.compile(
    r"bolt circle D (?P<circle>\S+) N (?P<count>\d+) first hole at (?P<first>\S+) deg, "
    r"counter-clockwise from \+X: hole (?P<hole>\d+)"
)
BOLTS = [row for row in TABLE if _BOLT.fullmatch(row["quantity"])]
POLYGONS = [row for row in TABLE if row["quantity"] != CHORD and row not in BOLTS]


def half_a_unit(printed: str) -> float:
    """Half a unit of the last printed digit, and a float's own last digit."""
    return float(0.5 * 10.0 ** -len(printed.partition(".")[2]) + 1e-12)


def in_round_of_1(count: int) -> Flats:
    """The polygon cut with sharp corners from a bar of 1 mm."""
    return polygon(count, height_of_corners(count, Fraction(1)), Fraction(1))


def across_flats_of_1(count: int) -> Flats:
    return polygon(count, Fraction(1, 2))


def corners(flats: Flats) -> float:
    assert flats.across_corners_mm is not None
    return flats.across_corners_mm


RATIOS = {
    "polygon: side / circumscribed diameter": lambda n: in_round_of_1(n).width_mm(in_round_of_1(n).flats[0]),
    "polygon: inscribed diameter / circumscribed diameter (even N: flats/corners)": lambda n: (
        2 * float(in_round_of_1(n).flats[0].height_mm)
    ),
    "depth of flat / bar diameter = (1 - cos(180/N))/2": lambda n: float(
        in_round_of_1(n).depth_mm(in_round_of_1(n).flats[0])
    ),
    "corners / flats": lambda n: corners(across_flats_of_1(n)),
    "side / flats": lambda n: across_flats_of_1(n).width_mm(across_flats_of_1(n).flats[0]),
    "flats / corners": lambda n: 1 / corners(across_flats_of_1(n)),
}


def test_every_row_is_checked() -> None:
    chords = [row for row in TABLE if row["quantity"] == CHORD]
    assert (len(TABLE), len(chords), len(POLYGONS), len(BOLTS)) == (180, 98, 62, 20)
    assert {row["quantity"] for row in POLYGONS} == set(RATIOS)


@pytest.mark.parametrize("row", cases([row for row in TABLE if row["quantity"] == CHORD], "n", "known_by"))
def test_a_chord_by_the_diameter(row: Row) -> None:
    chord = HoleCircle(EqualDivisions(int(row["n"])), Fraction(1)).least_chord_mm
    assert chord == pytest.approx(float(row["value"]), abs=half_a_unit(row["value"])), row["source"]


@pytest.mark.parametrize("row", cases(POLYGONS, "quantity", "n"))
def test_a_factor_of_a_polygon(row: Row) -> None:
    ours = RATIOS[row["quantity"]](int(row["n"]))
    assert ours == pytest.approx(float(row["value"]), abs=half_a_unit(row["value"])), row["source"]


@pytest.mark.parametrize("row", cases(BOLTS, "quantity"))
def test_a_hole_of_a_bolt_circle(row: Row) -> None:
    asked = _BOLT.fullmatch(row["quantity"])
    assert asked
    circle = HoleCircle(
        EqualDivisions(int(asked["count"])),
        Fraction(asked["circle"]),
        first_at=Fraction(asked["first"]) / 360,
    )
    x, y = row["value"].split()
    ours = circle.coordinates_mm()[int(asked["hole"]) - 1]
    assert ours[0] == pytest.approx(float(x), abs=half_a_unit(x)), row["source"]
    assert ours[1] == pytest.approx(float(y), abs=half_a_unit(y)), row["source"]
