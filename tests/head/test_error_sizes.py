"""What is known of a head's errors: told in its file, kept, and refused when it cannot be."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.errors import FaultsFound
from crankwise.files.head_toml import read_head, write_head
from crankwise.head.error_sizes import DIAMETERS, MOST, ErrorSizes, Size
from tests.gear import BENCH_HEAD


@st.composite
def error_sizes(draw: st.DrawFn) -> ErrorSizes:
    sizes = []
    for name, most in MOST.items():
        if draw(st.booleans()):
            ends = st.fractions(Fraction(1, 1000), most, max_denominator=1000)
            low, high = sorted((draw(ends), draw(ends)))
            sizes.append((name, Size(high, high) if name in DIAMETERS else Size(low, high)))
    return ErrorSizes(tuple(sizes))


@given(sizes=error_sizes())
def test_what_is_written_reads_the_same(sizes: ErrorSizes) -> None:
    head = read_head(BENCH_HEAD)
    written = write_head(head.__class__(head.name, head.worm, head.dial, error_sizes=sizes))
    assert read_head(written).error_sizes == sizes


def test_one_number_is_measured_and_two_are_a_range() -> None:
    head = read_head(BENCH_HEAD + '[errors]\nworm_arcsec = 20.5\nwork_off_centre_mm = [0.01, "1/50"]\n')
    assert head.error_sizes is not None
    worm, work = head.error_sizes.of("worm_arcsec"), head.error_sizes.of("work_off_centre_mm")
    assert (worm, work) == (
        Size(Fraction("20.5"), Fraction("20.5")),
        Size(Fraction(1, 100), Fraction(1, 50)),
    )
    assert worm
    assert worm.is_known
    assert head.error_sizes.of("wheel_arcsec") is None


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        ("worm_arcsec = -5", r"errors.worm_arcsec \(line 13\): -5; the size of an error is 0 or more"),
        ("worm_arcsec = [60, 10]", "from 60 to 10; write the smaller one first"),
        ("worm_arcsec = [1, 2, 3]", "3 numbers; this is one number, as 20, or a range of two"),
        ('worm_arcsec = "much"', "this is a number, as 20, or a range of two"),
        ("worm_arcsec = true", "this is a number, as 20, or a range of two"),
        ("worm_arcsec = 99999", "99999; at most 36,000 is believed"),
        ("worm_arcsecs = 5", "this key is not known; did you mean worm_arcsec?"),
        ("dial_diameter_mm = 0", "a diameter is one figure, above 0, in millimetres"),
        ("dial_diameter_mm = [50, 60]", "a diameter is one figure, above 0, in millimetres"),
    ],
)
def test_a_size_that_cannot_be_is_told(line: str, sentence: str) -> None:
    with pytest.raises(FaultsFound, match=sentence):
        read_head(f"{BENCH_HEAD}[errors]\n{line}\n")


def test_other_sizes_are_taken_with_where_they_are_from() -> None:
    before = ErrorSizes(
        (("worm_arcsec", Size(Fraction(10), Fraction(60))), ("lock_arcsec", Size(Fraction(4), Fraction(4)))),
        (("worm_arcsec", "guessed"), ("lock_arcsec", "ten times")),
    )
    found = Size(Fraction(20), Fraction(24))
    after = before.taking({"worm_arcsec": found, "wheel_arcsec": found}, "5 parts")
    assert [name for name, _ in after.sizes] == ["worm_arcsec", "wheel_arcsec", "lock_arcsec"]
    assert after.of("worm_arcsec") == found
    assert dict(after.sources) == {
        "worm_arcsec": "5 parts",
        "wheel_arcsec": "5 parts",
        "lock_arcsec": "ten times",
    }
    assert dict(before.taking({"worm_arcsec": found}, "").sources) == {"lock_arcsec": "ten times"}
    assert before.of("worm_arcsec") == Size(Fraction(10), Fraction(60))


def test_where_a_size_is_from_needs_the_size() -> None:
    with pytest.raises(FaultsFound, match=r"from\.worm_arcsec: this says where a size is from"):
        ErrorSizes((), (("worm_arcsec", "guessed"),))
