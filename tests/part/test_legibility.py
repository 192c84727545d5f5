"""What is worth a second look on a scale."""

from dataclasses import replace
from fractions import Fraction

import pytest

from crankwise.part.graduated import Graduated
from crankwise.part.legibility import findings, read_to
from tests.graduated import classes, dial, tide_ring


def codes(work: Graduated) -> set[str]:
    return {found.code for found in findings(work)}


def test_a_usual_dial_has_no_findings() -> None:
    assert codes(dial(125, 50)) == set()


def test_what_is_unusual_is_told_by_its_code() -> None:
    assert codes(tide_ring()) == {"spacing-wide", "many-between-numerals"}
    assert codes(dial(360, 60)) == {"spacing-hard-to-read", "lines-wide"}
    assert codes(dial(120, 60, every=6)) == {"counts-oddly"}
    wide = replace(dial(125, 50).classes.longest, width_mm=Fraction(1, 5))
    mixed = replace(classes({1: "2", 10: "3"}, "0.12"), classes=(classes({1: "2"}, "0.12").classes[0], wide))
    assert codes(replace(dial(125, 50), classes=mixed)) == {"widths-differ"}


def test_lines_between_those_of_the_finest_class_are_told_for_they_have_no_length_of_their_own() -> None:
    work = dial(60, 60)
    assert codes(replace(work, classes=classes({5: "3", 10: "4"}))) >= {"lines-of-no-class"}
    assert "lines-of-no-class" not in codes(replace(work, classes=classes({1: "2", 5: "3"})))


@pytest.mark.parametrize(("spacing", "part"), [(0.7, "1/2"), (1.2, "1/5"), (1.9, "1/10")])
def test_what_the_eye_tells_between_two_lines(spacing: float, part: str) -> None:
    assert read_to(spacing) == Fraction(part)
