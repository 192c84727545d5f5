"""Figures as wide as stamps are, at the lines they belong to."""

from fractions import Fraction

import pytest

from crankwise.errors import BadDivisions, BadLength
from crankwise.part.numerals import Lettering, Numerals
from crankwise.part.scale_lines import equal_lines

THREE_TWO = Lettering(Fraction("3.2"))


@pytest.mark.parametrize(
    ("text", "least", "most"), [("8", "0.6", "0.7"), ("28", "1.4", "1.5"), ("250", "2.2", "2.4")]
)
def test_figures_are_as_wide_as_usual_stamps(text: str, least: str, most: str) -> None:
    # Common practice: one figure 0.6 to 0.7 of its height, two 1.4 to 1.5, three 2.2 to 2.4.
    assert Fraction(least) <= THREE_TWO.text_width(text) / THREE_TWO.height_mm <= Fraction(most)


def test_measured_widths_go_before_the_usual_ones_and_grow_with_the_height() -> None:
    own = Lettering(Fraction(2), widths_mm={"1": Fraction(1)})
    assert own.text_width("1") == 1
    assert own.of_height(Fraction(4)).text_width("1") == 2


def test_two_figures_stand_half_an_advance_to_either_side() -> None:
    left, right = THREE_TWO.figure_middles("28")
    assert left == -right
    assert right - left == Fraction("0.8") * Fraction("3.2")


def test_numerals_count_from_what_is_asked_by_what_a_count_is_worth() -> None:
    numerals = Numerals(Fraction(5), THREE_TWO, Fraction(1), Fraction(1, 100))
    assert [text for text in numerals.on(equal_lines(20)) if text] == ["1", "1.05", "1.1", "1.15"]


def test_texts_are_given_to_the_counts_in_order_also_when_the_work_turns_the_other_way() -> None:
    numerals = Numerals(Fraction(1), THREE_TWO, texts=("N", "E", "S", "W"))
    assert numerals.on(equal_lines(4)) == ("N", "E", "S", "W")
    assert numerals.on(equal_lines(4).the_other_way()) == ("N", "W", "S", "E")


def test_too_few_texts_are_refused() -> None:
    with pytest.raises(BadDivisions, match="2 texts for 4 numbered lines"):
        Numerals(Fraction(1), THREE_TWO, texts=("N", "E")).on(equal_lines(4))


def test_a_figure_without_height_is_refused() -> None:
    with pytest.raises(BadLength, match="height: 0 mm; a numeral is above 0 high"):
        Lettering(Fraction(0))


def test_a_line_of_your_own_has_the_text_that_was_given_it_and_the_others_have_none() -> None:
    own = Numerals(Fraction(1), THREE_TWO, own=((Fraction(3), "ebb"), (Fraction(0), "flood")))
    assert own.on(equal_lines(6)) == ("flood", "", "", "ebb", "", "")


@pytest.mark.parametrize(
    ("own", "sentence"),
    [
        (
            ((Fraction(6), "ebb"),),
            "'ebb' is for line 6, and this scale has none; its lines are counted from 0 to 5",
        ),
        (((Fraction(1, 2), "x"),), "line 0.5, and this scale has none"),
        (((Fraction(1), "a"), (Fraction(1), "b")), "line 1 has two texts"),
    ],
)
def test_a_text_for_a_line_that_there_is_not_is_told(
    own: tuple[tuple[Fraction, str], ...], sentence: str
) -> None:
    with pytest.raises(BadDivisions, match=sentence):
        Numerals(Fraction(1), THREE_TWO, own=own).on(equal_lines(6))
