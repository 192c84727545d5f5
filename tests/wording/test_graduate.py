"""Graduated work in words: every finding, fix and collision has its sentence, in both units."""

from fractions import Fraction
from typing import get_args

import pytest

from crankwise.part.collisions import collisions
from crankwise.part.legibility import ScaleFinding
from crankwise.part.numeral_fixes import Fix, FixKind
from crankwise.part.scale_direction import ScaleDirection
from crankwise.wording.graduate import (
    collision_text,
    direction_lines,
    finding_text,
    fix_text,
    largest_text,
    threads_table,
    trouble_text,
)
from tests.graduated import tide_ring

CODES = (
    "lines-of-no-class",
    "spacing-hard-to-read",
    "spacing-wide",
    "lines-wide",
    "widths-differ",
    "many-lengths",
    "many-between-numerals",
    "numerals-near",
    "counts-oddly",
)


@pytest.mark.parametrize("code", CODES)
def test_every_finding_has_a_sentence_of_its_own(code: str) -> None:
    others = {finding_text(ScaleFinding(other, 0.5)) for other in CODES if other != code}
    assert finding_text(ScaleFinding(code, 0.5)) not in others


@pytest.mark.parametrize("kind", get_args(FixKind))
def test_every_fix_tells_its_value(kind: FixKind) -> None:
    assert fix_text(Fix(kind, Fraction("2.4"))).count("2.4") == 1


def test_a_largest_length_is_cut_and_not_rounded_so_that_it_still_does() -> None:
    # 2.4 mm are 0.09448... in; 0.0945 in would be 2.4003 mm, which touches.
    assert "2.4 mm (0.0944 in)" in fix_text(Fix("smaller-numerals", Fraction("2.4")))
    assert (
        largest_text(Fraction("2.4"), None)
        == "numerals up to 2.4 mm (0.0944 in) fit, no usual stamp is so small"
    )


def test_a_collision_names_both_and_the_length_in_both_units() -> None:
    ring = tide_ring("3.2")
    first = next(collisions(ring))
    assert (
        collision_text(first, ring.lines())
        == "numeral 0 at line 0 overlaps the long line 0 by 0.50 mm (0.020 in)"
    )


def test_what_is_only_near_says_how_much_is_needed() -> None:
    ring = tide_ring("2.5")
    said = collision_text(next(collisions(ring)), ring.lines())
    assert said == (
        "numeral 0 at line 0 stands 0.20 mm (0.008 in) from the long line 0, 0.30 mm (0.012 in) are needed"
    )


def test_a_scale_that_faces_away_is_said_to_be_mirrored() -> None:
    said = " ".join(direction_lines(ScaleDirection(side="rear"), False, False))
    assert "from the handle its numbers run anticlockwise, mirrored" in said
    assert "Looking straight at the face that is engraved, the numbers run clockwise" in said


def test_a_thread_that_does_not_come_round_in_a_turn_says_so() -> None:
    _, rows = threads_table([(Fraction(1), Fraction(4, 5), 8), (Fraction(2), Fraction(8), 8)])
    assert rows[0][2] == "none: the places come round every 5 turns, keep the half nuts closed"
    assert rows[1][2] == "any line"


def test_lines_of_no_class_are_told_with_what_to_add() -> None:
    assert finding_text(ScaleFinding("lines-of-no-class", 5)) == (
        "lines stand between those of every 5, the finest class, and are cut as long as these: give the others a "
        "class too, as 1=3mm"
    )


def test_one_collision_is_told_as_one() -> None:
    ring = tide_ring("2.5")
    found = next(collisions(ring))
    assert trouble_text([found], [], ring.lines()).startswith("1 collision: numeral 0 at line 0")


def test_a_thread_is_told_as_it_was_asked() -> None:
    _, rows = threads_table([(Fraction(254, 110), Fraction(4), 16), (Fraction(3, 2), Fraction(8), 8)])
    assert rows[0][0] == "11 tpi (2.309 mm)"
    assert rows[1][0] == "1.500 mm (0.0591 in)"
