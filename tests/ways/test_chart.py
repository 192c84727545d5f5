"""The chart gives number by number what the division gives, only sooner."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crankwise.errors import BadDivisions
from crankwise.head.dial import Dial
from crankwise.head.head import Head
from crankwise.head.notched_wheel import NotchedWheel
from crankwise.head.plate import Plate
from crankwise.head.ring import Ring
from crankwise.head.stepper import Stepper
from crankwise.head.worm import Worm
from crankwise.part.divisions import EqualDivisions
from crankwise.ways.chart import chart
from crankwise.ways.search import find_ways

RATIOS = st.fractions(Fraction(1, 3), 400, max_denominator=7)
WORM_HEADS = st.builds(
    Head,
    st.just("any"),
    RATIOS.map(Worm),
    st.none()
    | st.builds(Dial, st.integers(2, 400), st.integers(1, 10).map(lambda n: Fraction(1, n)), st.just(0)),
    st.lists(st.lists(st.integers(2, 120), min_size=1, unique=True).map(tuple).map(Plate), max_size=3).map(
        tuple
    ),
    st.builds(Ring, st.integers(2, 720), st.integers(1, 4).map(lambda n: Fraction(1, n))),
    st.lists(st.builds(NotchedWheel, st.integers(2, 200), st.sampled_from(["bed", "worm"])), max_size=2).map(
        tuple
    ),
    st.none(),
    st.none() | st.builds(Stepper, st.integers(2, 5000), st.sampled_from(["crank", "spindle"])),
)
VERNIER_WHEELS = st.builds(
    lambda first, second: Head(
        "wheels", notched_wheels=(NotchedWheel(first), NotchedWheel(second, detent_on="wheel"))
    ),
    st.integers(2, 120),
    st.integers(2, 120),
)
SIMPLE_HEADS = st.builds(
    Head,
    st.just("few devices, so that each is put first now and then"),
    st.sampled_from([40, 60, 72, 90]).map(Fraction).map(Worm),
    st.builds(Dial, st.sampled_from([60, 100, 300]), st.just(Fraction(1)), st.just(0)),
    st.lists(st.sampled_from([15, 16, 19, 23]), max_size=2, unique=True).map(
        lambda circles: (Plate(tuple(circles)),) if circles else ()
    ),
    st.none(),
    st.just(()) | st.just((NotchedWheel(60, "worm"),)),
)
TOLERANCES = st.none() | st.fractions(0, Fraction(1, 500), max_denominator=10**7)


@settings(max_examples=250)
@given(
    head=WORM_HEADS | VERNIER_WHEELS | SIMPLE_HEADS,
    first=st.integers(1, 300) | st.integers(1, 5000),
    tolerance=TOLERANCES,
)
def test_a_row_is_what_the_division_says(head: Head, first: int, tolerance: Fraction | None) -> None:
    for row in chart(head, first, first + 3, tolerance):
        ways = find_ways(head, EqualDivisions(row.divisions), tolerance)
        assert row.best == (ways[0] if ways else None)
        assert row.best_exact == next((way for way in ways if way.exact), None)


def test_a_head_that_cannot_divide_so_has_an_empty_row() -> None:
    wheel = Head("wheel", notched_wheels=(NotchedWheel(60),))
    rows = {row.divisions: row for row in chart(wheel, 6, 7)}
    assert rows[6].best is not None
    assert (rows[7].best, rows[7].best_exact) == (None, None)


@pytest.mark.parametrize(
    ("first", "last", "sentence"),
    [
        (0, 9, "from: 0; a circle is divided into 1 part or more"),
        (9, 8, "to: 8; the chart runs from 9 upwards"),
        (2, 10_001 + 1, "to: 10,002; from 2 that is 10,001 rows, and a chart has 10,000 at most"),
        (999_999, 1_000_001, "to: 1,000,001; at most 1,000,000, which is finer than any head can be read"),
    ],
)
def test_numbers_out_of_range_are_told_at_once(first: int, last: int, sentence: str) -> None:
    wheel = Head("wheel", notched_wheels=(NotchedWheel(60),))
    with pytest.raises(BadDivisions, match=f"^{sentence}$"):
        chart(wheel, first, last)
