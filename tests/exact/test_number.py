"""Numbers as typed, read without loss and written as the shortest text that loses nothing."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.errors import BadNumber
from crankwise.exact.number import PI, as_text, read_number


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("12", Fraction(12)),
        (" 12.5 ", Fraction(25, 2)),
        (".5", Fraction(1, 2)),
        ("5.", Fraction(5)),
        ("45/2", Fraction(45, 2)),
        ("0.1", Fraction(1, 10)),
        ("2 1/2", Fraction(5, 2)),
        ("-2 1/2", Fraction(-5, 2)),
        ("−0.25", Fraction(-1, 4)),  # the typographer's minus
        ("+3", Fraction(3)),
        ("1.5 / 0.5", Fraction(3)),
        ("0", Fraction(0)),
    ],
)
def test_a_number_is_read_exactly(typed: str, value: Fraction) -> None:
    assert read_number(typed) == value


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("", "ratio: nothing given; write it as 12, 12.5 or 45/2"),
        ("forty", "ratio: 'forty' is not a number; write it as 12, 12.5 or 45/2"),
        ("1e3", "ratio: '1e3' is not a number"),
        ("nan", "ratio: 'nan' is not a number"),
        ("1_000", "ratio: '1_000' is not a number"),
        ("2 3", "ratio: '2 3' is not a number"),
        ("1/2/3", "ratio: '1/2/3' is not a number"),
        ("--3", "ratio: '--3' is not a number"),
        ("40:1", "ratio: '40:1' is not a number"),
        ("12,5", "ratio: '12,5' is not a number; write it as 12, 12.5 or 45/2 with a point, not a comma"),
        ("3/0", "ratio: '3/0' divides by zero"),
        ("3/0.00", "ratio: '3/0.00' divides by zero"),
        ("1" * 61, "ratio: 61 characters; a ratio has 60 at most"),
    ],
)
def test_what_is_no_number_is_told_in_one_sentence(typed: str, sentence: str) -> None:
    with pytest.raises(BadNumber) as found:
        read_number(typed, "ratio")
    assert str(found.value).startswith(sentence)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (Fraction(0), "0"),
        (Fraction(-3), "-3"),
        (Fraction(1, 3), "1/3"),
        (Fraction(-1, 3), "-1/3"),
        (Fraction(113, 2), "56.5"),
        (Fraction(-1, 8), "-0.125"),
        (Fraction(1, 10**12), "0.000000000001"),
        (Fraction(1, 10**13), "1/10000000000000"),
        (Fraction(360, 127), "360/127"),
        (Fraction(1, 4096), "0.000244140625"),
        (Fraction(1, 8192), "1/8192"),
        (Fraction(1000, 1), "1000"),
    ],
)
def test_the_text_is_the_shortest_that_loses_nothing(value: Fraction, text: str) -> None:
    assert as_text(value) == text
    assert Fraction(text) == value


@given(st.fractions())
def test_writing_and_reading_a_number_gives_the_same(value: Fraction) -> None:
    text = as_text(value)
    assert Fraction(text) == value
    if len(text) <= 60:
        assert read_number(text) == value


def test_pi_is_the_number_that_a_convergent_brackets() -> None:
    # Machin's formula with plain fractions, independent of the digits written in the package.
    def inverse_tangent_of_one_over(n: int) -> Fraction:
        return sum((Fraction((-1) ** k, (2 * k + 1) * n ** (2 * k + 1)) for k in range(40)), Fraction(0))

    machin = 16 * inverse_tangent_of_one_over(5) - 4 * inverse_tangent_of_one_over(239)
    assert abs(PI - machin) < Fraction(1, 10**50)
