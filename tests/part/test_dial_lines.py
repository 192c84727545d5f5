"""Dials of screws, rings of hours, thread dials: how many lines, and what to do where they do not come out."""

from fractions import Fraction

import pytest

from crankwise.errors import BadDivisions
from crankwise.exact.length import INCH
from crankwise.part.dial_lines import INCHES, MINUTES, MM, ThreadDial, dial_scale
from crankwise.part.divisions import AngleList, EqualDivisions


def test_the_dial_for_a_lead_of_1_5_mm_has_150_lines() -> None:
    assert dial_scale(Fraction(3, 2), Fraction(1, 100), MM).divisions == EqualDivisions(150)


def test_the_dial_for_a_tenth_of_an_inch_has_100_lines() -> None:
    assert dial_scale(INCH / 10, INCH / 1000, INCHES).divisions == EqualDivisions(100)


def test_the_ring_of_12_hours_25_minutes_has_149_lines_of_5_minutes() -> None:
    assert dial_scale(Fraction(745), Fraction(5), MINUTES).divisions == EqualDivisions(149)


def test_a_line_that_does_not_come_out_is_refused_with_lines_that_do() -> None:
    with pytest.raises(
        BadDivisions,
        match=r"0\.04 mm does not go whole into a turn worth 1\.5 mm: 37\.5 lines; a line worth 0\.02 mm \(75 lines\), "
        r"0\.025 mm \(60 lines\), 0\.05 mm \(30 lines\) does, or let the last space be short",
    ):
        dial_scale(Fraction(3, 2), Fraction(1, 25), MM)


def test_14_threads_to_the_inch_have_no_decimal_line_at_all() -> None:
    with pytest.raises(
        BadDivisions, match=r"500/7 lines; no line worth 1, 2, 2\.5 or 5 of any decimal does, so let"
    ):
        dial_scale(INCH / 14, INCH / 1000, INCHES)


def test_the_last_space_may_be_short() -> None:
    scale = dial_scale(Fraction(3, 2), INCH / 1000, INCHES, short_last=True)
    assert isinstance(scale.divisions, AngleList)
    assert len(scale.counts) == 60
    *_, last = scale.gaps()
    assert last == 1 - 59 * INCH / 1000 / Fraction(3, 2)
    assert scale.note.startswith("the last space is only 7/127 of a space")
    assert scale.comes_round


@pytest.mark.parametrize(
    ("thread", "places"), [("4", "16"), ("8", "16"), ("6", "8"), ("11", "4"), ("9", "4"), ("11.5", "2")]
)
def test_a_thread_dial_of_16_on_4_threads_to_the_inch(thread: str, places: str) -> None:
    # The dial turns once in 4 in. Whole and half inches, quarters: as every lathe's thread dial has it.
    assert ThreadDial(16, INCH / 4).closings(INCH / Fraction(thread)) == Fraction(places)


def test_a_metric_thread_never_comes_round_soon_on_an_inch_screw() -> None:
    # The smallest travel that is whole leads of both is 127 mm, 20 turns of the screw.
    assert ThreadDial(16, INCH / 4).closings(Fraction(1)) == Fraction(16, 20)
    with pytest.raises(
        BadDivisions, match="16 teeth shows none of these threads; a multiple of 20 teeth does"
    ):
        ThreadDial(16, INCH / 4).scale((Fraction(1),))


def test_a_thread_dials_lines_are_the_fewest_that_serve_all_threads() -> None:
    assert ThreadDial(16, INCH / 4).scale((INCH / 6, INCH / 11)).divisions == EqualDivisions(8)
