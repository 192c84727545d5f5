"""What is worth a second look on a scale."""

from dataclasses import replace
from fractions import Fraction
from math import pi

import pytest

from crankwise.part.graduated import Graduated
from crankwise.part.legibility import findings, read_to
from crankwise.part.scale_lines import Scale, equal_lines
from tests.graduated import classes, dial, tide_ring


def codes(work: Graduated) -> set[str]:
    return {found.code for found in findings(work)}


def test_a_usual_dial_has_no_findings() -> None:
    assert codes(dial(100, 50)) == set()


@pytest.mark.parametrize("scale", [equal_lines(125), equal_lines(125).the_other_way()])
def test_a_numeral_much_nearer_to_the_next_than_the_others_stand_is_told(scale: Scale) -> None:
    # 125 lines with a numeral every 10: from 120 to 0 are 5 lines, half of what is usual.
    (found,) = findings(dial(125, 50, scale=scale))
    assert found.code == "numerals-near"
    # On paper: 5 lines of pi x 50 / 125, less half of "120" (1.95 heights) and of "0" (0.65), less two burrs.
    apart = 5 * pi * 50 / 125 - 2.4 * (1.95 + 0.65) / 2 - 2 * 0.15
    assert found.value == pytest.approx(apart / 2.4, abs=0.01)
    assert codes(dial(125, 120, height="3")) & {"numerals-near"} == set()


def test_what_is_unusual_is_told_by_its_code() -> None:
    assert codes(tide_ring()) == {"spacing-wide", "many-between-numerals"}
    assert codes(dial(360, 60)) == {"spacing-hard-to-read", "lines-wide"}
    assert codes(dial(120, 60, every=6)) == {"counts-oddly"}
    wide = replace(dial(100, 50).classes.longest, width_mm=Fraction(1, 5))
    mixed = replace(classes({1: "2", 10: "3"}, "0.12"), classes=(classes({1: "2"}, "0.12").classes[0], wide))
    assert codes(replace(dial(100, 50), classes=mixed)) == {"widths-differ"}


def test_lines_between_those_of_the_finest_class_are_told_for_they_have_no_length_of_their_own() -> None:
    work = dial(60, 60)
    assert codes(replace(work, classes=classes({5: "3", 10: "4"}))) >= {"lines-of-no-class"}
    assert "lines-of-no-class" not in codes(replace(work, classes=classes({1: "2", 5: "3"})))


@pytest.mark.parametrize(("spacing", "part"), [(0.7, "1/2"), (1.2, "1/5"), (1.9, "1/10")])
def test_what_the_eye_tells_between_two_lines(spacing: float, part: str) -> None:
    assert read_to(spacing) == Fraction(part)
