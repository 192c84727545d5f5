"""Places along a slide by its leadscrew's dial: counted from the start, rounded once."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crankwise.errors import FaultsFound
from crankwise.exact.length import INCH
from crankwise.head.dial import Dial
from crankwise.plan.leadscrew import Leadscrew, slide_setting, slide_settings


def screws() -> st.SearchStrategy[Leadscrew]:
    return st.builds(
        Leadscrew,
        st.fractions(Fraction(1, 2), 10, max_denominator=20),
        st.builds(Dial, st.integers(10, 250), st.integers(1, 10).map(lambda part: Fraction(1, part))),
    )


@given(screws(), st.fractions(-300, 300, max_denominator=997))
def test_the_setting_is_the_nearest_that_can_be_read(screw: Leadscrew, target: Fraction) -> None:
    found = slide_setting(screw, target)
    stands = (found.turns + found.reading / screw.dial.marks) * screw.lead_mm
    assert found.error_mm == stands - target
    finest = screw.lead_mm / screw.dial.places
    assert abs(found.error_mm) <= finest / 2
    assert 0 <= found.reading < screw.dial.marks
    assert (found.reading * screw.dial.places_per_mark).denominator == 1


@given(screws(), st.fractions(Fraction(1, 10), 10, max_denominator=997))
def test_no_error_is_handed_on(screw: Leadscrew, pitch: Fraction) -> None:
    settings = list(slide_settings(screw, [pitch * number for number in range(300)]))
    assert [one.position for one in settings] == list(range(300))
    assert max(abs(one.error_mm) for one in settings) <= screw.lead_mm / screw.dial.places / 2


def test_an_inch_screw_sets_an_inch_exactly() -> None:
    found = slide_setting(Leadscrew(INCH / 10, Dial(100)), INCH * Fraction("1.234"))
    assert [found.turns, found.reading, found.error_mm] == [12, 34, 0]


def test_back_past_the_start_the_turns_go_below_nought() -> None:
    found = slide_setting(Leadscrew(Fraction(5), Dial(100)), Fraction(-1))
    assert [found.turns, found.reading] == [-1, 80]


def test_a_screw_without_lead_is_refused() -> None:
    with pytest.raises(FaultsFound, match="leadscrew: 0 mm; a lead is above 0"):
        Leadscrew(Fraction(0), Dial(100))
