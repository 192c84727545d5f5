"""The ring on the spindle."""

from fractions import Fraction

import pytest

from crankwise.errors import FaultsFound
from crankwise.head.ring import Ring


@pytest.mark.parametrize(
    ("ring", "turns", "reading"),
    [
        (Ring(360), "1/127", Fraction(360, 127)),
        (Ring(360), "5/4", Fraction(90)),
        (Ring(360), "-1/4", Fraction(270)),
        (Ring(360), "1", Fraction(0)),
        (Ring(400, full_circle=400), "1/4", Fraction(100)),
        (Ring(24, full_circle=24), "1/2", Fraction(12)),
    ],
)
def test_the_ring_shows_where_it_stands_in_its_own_numerals(
    ring: Ring, turns: str, reading: Fraction
) -> None:
    assert ring.reading(Fraction(turns)) == reading


def test_the_places_of_a_ring_are_what_is_read_of_its_graduations() -> None:
    assert Ring(360, Fraction(1, 4)).places == 1440


@pytest.mark.parametrize(
    ("ring", "fault"),
    [
        ({"graduations": 1}, "graduations: 1 graduation; a ring has 2 or more"),
        (
            {"graduations": 360, "read_to": Fraction(3, 4)},
            "read_to: 0.75; what can be read is 1, 1/2, 1/5, 1/10 ... of a graduation",
        ),
        (
            {"graduations": 360, "full_circle": 0},
            "full_circle: 0; the numerals of a full circle come to 1 or more",
        ),
    ],
)
def test_a_ring_that_cannot_be_is_told(ring: dict[str, object], fault: str) -> None:
    with pytest.raises(FaultsFound) as found:
        Ring(**ring)  # type: ignore[arg-type]
    assert str(found.value) == fault
