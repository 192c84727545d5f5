"""Verniers read, and those that would not are refused: held against the lines that truly meet."""

from fractions import Fraction

import pytest

from crankwise.errors import BadDivisions
from crankwise.part.vernier_scale import Form, Vernier

DEGREE = Fraction(1, 360)


@pytest.mark.parametrize(
    ("parts", "over"), [(10, 9), (10, 11), (12, 11), (12, 23), (12, 25), (6, 5), (30, 29), (30, 31)]
)
@pytest.mark.parametrize("form", ["direct", "folded", "double"])
def test_where_the_main_scale_is_moved_by_k_least_counts_a_line_that_reads_k_meets_one(
    parts: int, over: int, form: Form
) -> None:
    vernier = Vernier(parts, over, DEGREE, form)
    assert vernier.least_count == DEGREE / parts
    scale = vernier.scale()
    for reading in range(parts):
        # The vernier's zero stands so much past a line of the main scale, whose lines are whole degrees.
        past = reading * vernier.least_count
        meeting = {
            count
            for angle, count in zip(scale.angles(), scale.counts, strict=True)
            if ((angle - vernier.zero + past) / DEGREE).denominator == 1
        }
        if form == "double" and reading:
            # To one side it reads forward, to the other what is missing to the next line.
            assert meeting == {reading, parts - reading}
        else:
            assert meeting <= {reading, parts if reading == 0 else reading}
            assert meeting


def test_a_folded_vernier_is_numbered_from_its_middle_and_on_from_the_other_end() -> None:
    counts = Vernier(12, 11, DEGREE, "folded").scale().counts
    assert [*map(int, counts)] == [6, 7, 8, 9, 10, 11, 0, 1, 2, 3, 4, 5, 6]


def test_a_vernier_on_n_plus_1_is_numbered_against_the_scale() -> None:
    vernier = Vernier(10, 11, DEGREE)
    assert [*map(int, vernier.scale().counts)] == [*range(10, -1, -1)]
    assert vernier.zero == vernier.arc == 11 * DEGREE
    assert not vernier.runs_with


def test_a_spread_vernier_needs_twice_the_arc_and_reads_the_same() -> None:
    plain, spread = Vernier(12, 11, DEGREE), Vernier(12, 23, DEGREE)
    assert plain.least_count == spread.least_count == DEGREE / 12
    assert [plain.arc * 360, spread.arc * 360] == [Fraction(11), Fraction(23)]


@pytest.mark.parametrize(
    ("parts", "over", "form", "message"),
    [
        (12, 24, "direct", r"12 read on 11 \(direct\), on 13 \(against the scale\), or spread on 23 or 25"),
        (12, 10, "direct", "12 parts on 10 of the main scale do not read"),
        (1, 2, "direct", "1 parts; a vernier has 2 to 100"),
        (15, 14, "folded", "15 parts cannot be folded in the middle; take an even number, as 16"),
    ],
)
def test_a_vernier_that_does_not_read_is_refused(parts: int, over: int, form: Form, message: str) -> None:
    with pytest.raises(BadDivisions, match=message):
        Vernier(parts, over, DEGREE, form)


def test_a_vernier_longer_than_the_circle_is_refused() -> None:
    with pytest.raises(BadDivisions, match=r"it covers 380 degrees, a full circle or more"):
        Vernier(20, 19, 20 * DEGREE)
