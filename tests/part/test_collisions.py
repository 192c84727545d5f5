"""What touches on real rings and dials, and what does not."""

from dataclasses import replace
from fractions import Fraction

import pytest

from crankwise.part.collisions import collisions
from crankwise.part.numeral_fixes import fixes, is_clear, largest_height_mm, largest_stamp
from tests.graduated import classes, dial, tide_ring, with_height


def test_stamps_of_3_2_mm_overlap_the_ends_of_the_long_lines_of_the_tide_ring() -> None:
    found = [*collisions(tide_ring(height="3.2"))]
    assert [(one.thing, one.text, one.other, one.other_position) for one in found] == [
        ("numeral", str(hour), "line", 12 * hour) for hour in range(13)
    ]
    # 6.5 mm of line, and the foot of the burr at 10 - 0.5 - (3.2 + 2 x 0.15) = 6.0 mm.
    assert all(one.gap_mm == pytest.approx(-0.5) and one.overlaps for one in found)


@pytest.mark.parametrize("height", ["2.4", "2", "1.6"])
def test_stamps_of_2_4_mm_and_less_clear(height: str) -> None:
    assert [*collisions(tide_ring(height=height))] == []


def test_the_largest_numeral_of_the_tide_ring_is_2_4_mm_and_every_fix_cures() -> None:
    ring = tide_ring(height="3.2")
    height = largest_height_mm(ring)
    stamp = largest_stamp(height)
    assert (height, stamp and stamp[0]) == (Fraction(12, 5), "3/32 in")
    told = {fix.kind: fix.value for fix in fixes(ring, height, stamp)}
    # All else as it is, the long lines may end at 10 - 0.5 - 3.5 - 0.3 = 5.7 mm.
    assert told == {"smaller-numerals": Fraction(12, 5), "shorter-lines": Fraction(57, 10)}
    assert is_clear(with_height(ring, "2.4"))
    assert not is_clear(with_height(ring, "2.41"))


def test_a_three_figure_number_of_3_2_mm_spans_six_lines_of_125_on_50_mm_and_stands_past_the_long_line() -> (
    None
):
    work = dial(125, 50, "3.2")
    assert work.numerals
    width = work.numerals.lettering.text_width("200")
    assert 5 < float(width) / work.least_spacing_mm < 6
    assert [*collisions(work)] == []
    # Pushed down among the lines, it touches its own long line and its neighbours.
    low = replace(work, numerals=replace(work.numerals, middle_mm=Fraction(3)))
    touched = {one.other_position for one in collisions(low) if one.position == 100}
    assert touched == {98, 99, 100, 101, 102}


def test_the_burr_counts() -> None:
    work = tide_ring("2.6")
    assert not is_clear(work)
    assert work.numerals
    engraved = replace(work.numerals.lettering, burr_mm=Fraction(0))
    assert is_clear(replace(work, numerals=replace(work.numerals, lettering=engraved)))


def test_a_shank_hits_the_shoulder_that_the_figure_clears() -> None:
    ring = tide_ring("2.4")
    walled = replace(ring, surface=replace(ring.surface, has_shoulder=True))
    found = [*collisions(walled)]
    assert {(one.thing, one.other) for one in found} == {("shank", "shoulder")}
    # The middle is at 6.5 + 0.3 + 1.35 = 8.15 mm; half a shank of 6 mm reaches 1.15 mm past the face.
    assert found[0].gap_mm == pytest.approx(-1.15)


def test_the_last_numeral_is_checked_against_the_first() -> None:
    # Numeral 12 stands 5 lines before 0; with a numeral each 12 lines and wide figures only these two meet.
    ring = with_height(tide_ring(face=None), "15")
    pairs = {(one.position, one.other_position) for one in collisions(ring) if one.other == "numeral"}
    assert pairs == {(144, 0)}


def test_lines_that_run_together_are_told_with_a_width_that_would_do() -> None:
    work = replace(dial(1000, 30), numerals=None, classes=classes({1: "2", 10: "3"}, "0.1"))
    (found,) = collisions(work)
    assert (found.thing, found.other) == ("line", "line")
    (fix,) = fixes(work, None, None)
    assert fix.kind == "narrower-lines"
    assert float(fix.value) < 3.1416 * 30 / 1000 < float(fix.value) + 0.01
    narrower = tuple(replace(one, width_mm=fix.value) for one in work.classes.classes)
    assert [*collisions(replace(work, classes=replace(work.classes, classes=narrower)))] == []


def test_fewer_numerals_are_proposed_where_they_cure() -> None:
    work = dial(360, 60, "2.4")
    assert not is_clear(work)
    told = {
        fix.kind: fix.value
        for fix in fixes(work, largest_height_mm(work), largest_stamp(largest_height_mm(work)))
    }
    assert told["fewer-numerals"] == 20
    assert work.numerals
    assert is_clear(replace(work, numerals=replace(work.numerals, every=Fraction(20))))


def test_a_numeral_inside_a_ring_makes_way_for_its_straight_foot() -> None:
    # The corners of a wide straight foot come nearer to the circle of the lines' ends than its middle does.
    work = dial(100, 40, "3.2", kind="ring", every=20)
    assert work.middle_mm > 4 + 0.3 + (3.2 + 0.3) / 2
    assert not [one for one in collisions(work) if one.other == "line"]


def test_work_without_numerals_has_no_largest_one() -> None:
    work = replace(dial(), numerals=None)
    assert largest_height_mm(work) is None
    assert largest_stamp(largest_height_mm(work)) is None
