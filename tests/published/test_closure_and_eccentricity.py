"""Closure of a round of steps, and eccentricity from dial readings: every row of the table.

The table was constructed with a known truth; no publication is claimed (its source column says so). Closure
answers are exact sums of the printed readings, rounded to a tenth; the eccentricity's come from readings
rounded to a hundredth, to the printed digits.
"""

from collections import defaultdict
from fractions import Fraction

import pytest

from crankwise.accuracy.centring import Indicated, OffCentre, off_centre
from crankwise.accuracy.closure import Closed, close
from tests.published.tables import Row, cases, rows

TABLE = rows("14-closure-and-eccentricity.csv")
READING = "reading arcsec (segment error minus reference error)"
DIAL = "dial reading um"
MADE_WITH = "truth used to make it"


def of(dataset: str, item: str) -> list[Row]:
    return [row for row in TABLE if row["dataset"] == dataset and row["item"] == item]


def half_a_digit(printed: str) -> float:
    return 0.5 * 10.0 ** -len(printed.partition(".")[2])


def agrees(ours: float, row: Row) -> None:
    """Raise where ours is further off than half of the last printed digit, a float's last digits allowed."""
    assert abs(ours - float(row["value"])) <= half_a_digit(row["value"]) * (1 + 1e-9), (ours, row["source"])


def closed(dataset: str) -> Closed:
    return close([Fraction(row["value"]) for row in of(dataset, READING)])


def centred(dataset: str) -> OffCentre:
    readings = [
        Indicated(Fraction(row["index"]) / 360, Fraction(row["value"]) / 1000) for row in of(dataset, DIAL)
    ]
    return off_centre(readings, Fraction(1, 100_000))


def test_every_row_is_of_a_kind_that_is_checked() -> None:
    kinds = defaultdict(set)
    for row in TABLE:
        kinds[row["dataset"].partition("-")[0]].add(row["item"])
    assert kinds["closure"] == {
        READING,
        "answer: segment error arcsec",
        "answer: reference error arcsec = minus the mean reading",
        "answer: cumulative error arcsec at the end of the segment",
        "answer: greatest minus least cumulative error arcsec",
    }
    assert kinds["ecc"] == {
        DIAL,
        "answer: mean um",
        "answer: eccentricity um (half the once-per-turn peak to peak)",
        "answer: direction deg of the largest reading",
        "answer: residual standard deviation um, n - 3 in the divisor",
        MADE_WITH,
    }
    assert set(kinds) == {"closure", "ecc"}


@pytest.mark.parametrize(
    "row",
    cases(
        [row for row in TABLE if row["dataset"].startswith("closure") and row["item"] != READING],
        "dataset",
        "item",
        "index",
    ),
)
def test_a_round_closes_as_the_table_says(row: Row) -> None:
    found, item = closed(row["dataset"]), row["item"]
    if item == "answer: segment error arcsec":
        ours = found.steps[int(row["index"]) - 1].error
    elif item == "answer: cumulative error arcsec at the end of the segment":
        ours = found.steps[int(row["index"]) - 1].cumulative
    elif item == "answer: greatest minus least cumulative error arcsec":
        ours = found.height
    else:
        ours = found.gauge
    agrees(float(ours), row)


@pytest.mark.parametrize(
    "row",
    cases(
        [row for row in TABLE if row["dataset"].startswith("ecc") and row["item"].startswith("answer")],
        "dataset",
        "item",
    ),
)
def test_an_eccentricity_comes_out_as_the_table_says(row: Row) -> None:
    found, item = centred(row["dataset"]), row["item"]
    if item == "answer: mean um":
        ours = found.middle * 1000
    elif item.startswith("answer: eccentricity"):
        ours = found.offset * 1000
    elif item.startswith("answer: direction"):
        ours = found.direction * 360
    else:
        assert found.residual is not None
        ours = found.residual * 1000
    agrees(ours, row)


@pytest.mark.parametrize("row", cases([row for row in TABLE if row["item"] == MADE_WITH], "dataset"))
def test_the_truth_lies_within_what_is_claimed(row: Row) -> None:
    found = centred(row["dataset"])
    _, truth, _, direction, _ = row["value"].split()
    assert abs(found.offset * 1000 - float(truth)) <= found.bound * 1000, row["source"]
    assert found.direction_uncertainty is not None
    off = (found.direction * 360 - float(direction) + 180) % 360 - 180
    assert abs(off) <= 3 * found.direction_uncertainty * 360, row["source"]
