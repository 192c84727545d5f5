"""A suggested length is always on the side that works, in both units."""

import re
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from crankwise.part.suggestion import at_least, at_most, typed_mm


def both(told: str) -> tuple[Fraction, Fraction]:
    found = re.fullmatch(r"([\d.]+) mm \(([\d.]+) in\)", told)
    assert found, told
    return Fraction(found[1]), Fraction(found[2]) * Fraction(127, 5)


@given(st.fractions(Fraction(1, 100), 2000))
def test_a_suggestion_never_asks_for_what_is_refused(length: Fraction) -> None:
    millimetres, inches = both(at_most(length))
    assert 0 <= length - millimetres < Fraction(1, 1000)
    assert 0 <= length - inches < Fraction(254, 100_000)
    near = Fraction(1, 10**8)  # a float's last digits are passed over, so that 25.4 stays an inch
    millimetres, inches = both(at_least(length))
    assert -near < millimetres - length < Fraction(1, 1000)
    assert -near < inches - length < Fraction(254, 100_000)


def test_a_length_is_repeated_as_it_was_asked() -> None:
    assert [typed_mm(length) for length in (Fraction(3), 2.5, Fraction(1, 3))] == [
        "3 mm",
        "2.5 mm",
        "0.3333 mm",
    ]
