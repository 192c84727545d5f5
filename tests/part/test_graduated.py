"""Rings and dials of the shed: lines, classes, numerals, and the part that is divided."""

from dataclasses import replace
from fractions import Fraction
from math import pi

import pytest

from crankwise.errors import BadLength
from crankwise.part.divisions import EqualDivisions
from crankwise.part.graduated_cards import preparation_card
from crankwise.part.scale_direction import ScaleDirection
from crankwise.part.scale_lines import equal_lines, listed_lines
from crankwise.part.surface import Run, SurfaceKind
from tests.graduated import classes, dial, tide_ring


def test_the_tide_ring_has_149_lines_of_which_13_are_hours_and_the_last_hour_is_short() -> None:
    part = tide_ring().part()
    assert part.divisions == EqualDivisions(149)
    assert part.work == "line"
    numbered = {place: mark.numeral for place, mark in enumerate(part.marks) if mark.numeral}
    assert numbered == {12 * hour: str(hour) for hour in range(13)}
    assert 149 - max(numbered) == 5
    assert [part.marks[place].line_class for place in (0, 1, 3, 12, 144, 148)] == [
        "long",
        "short",
        "middle",
        "long",
        "long",
        "short",
    ]


def test_the_tide_rings_lines_are_3_16_mm_apart_and_on_180_mm_3_80() -> None:
    # Own arithmetic on paper: pi x 150 / 149, pi x 180 / 149.
    ring = tide_ring()
    assert round(ring.least_spacing_mm, 2) == 3.16
    larger = replace(ring, surface=replace(ring.surface, diameter_mm=Fraction(180)))
    assert round(larger.least_spacing_mm, 2) == 3.80


@pytest.mark.parametrize(
    ("lines", "diameter", "spacing"),
    [(100, 60, "1.88"), (125, 50, "1.26"), (200, 80, "1.26")],
)
def test_the_spacing_of_usual_dials(lines: int, diameter: int, spacing: str) -> None:
    assert f"{dial(lines, diameter).least_spacing_mm:.2f}" == spacing


def test_lines_that_are_all_alike_have_no_class_to_be_told_apart_by() -> None:
    work = replace(dial(), classes=classes({1: "3"}), numerals=None)
    assert {mark.line_class for mark in work.part().marks} == {""}


def test_work_turned_the_other_way_meets_the_same_lines_backwards() -> None:
    forward, backward = dial(12, every=1), dial(12, every=1, scale=equal_lines(12).the_other_way())
    ahead = {line.numeral: line.angle for line in forward.lines()}
    assert all((line.angle + ahead[line.numeral]) % 1 == 0 for line in backward.lines())
    assert [line.numeral for line in backward.lines()][:3] == ["0", "11", "10"]


def test_a_list_turned_the_other_way_keeps_its_texts_at_their_lines() -> None:
    points = (("N", Fraction(0)), ("E", Fraction(1, 4)), ("S", Fraction(3, 8)))
    other = listed_lines(points).the_other_way()
    assert [*zip(other.texts, other.angles(), strict=True)] == [
        ("S", Fraction(0)),
        ("E", Fraction(1, 8)),
        ("N", Fraction(3, 8)),
    ]


def test_an_arc_has_a_line_more_than_its_parts_and_does_not_come_round() -> None:
    scale = equal_lines(10, Fraction(1, 4))
    assert len(scale.counts) == 11
    assert scale.angles()[-1] == Fraction(1, 4)
    assert not scale.comes_round


def test_lines_longer_than_the_face_are_refused() -> None:
    with pytest.raises(BadLength, match=r"long lines of 6\.5 mm do not go on a face of 6 mm"):
        tide_ring(face="6")


def test_numerals_taller_than_the_face_are_refused_with_the_room_there_is() -> None:
    with pytest.raises(BadLength, match=r"12 mm high they take 12\.30 mm .* there are 3\.00 mm"):
        tide_ring(height="12")


def test_lines_that_reach_the_axis_are_refused() -> None:
    with pytest.raises(BadLength, match=r"long lines of 4 mm reach the axis, 3\.00 mm in"):
        dial(12, 6, kind="ring")


def test_a_cone_lies_between_a_drum_and_a_ring() -> None:
    inner = {kind: dial(kind=kind).surface.circle_mm(4) for kind in ("drum", "cone", "ring")}
    assert inner["drum"] == pytest.approx(pi * 50)
    assert inner["cone"] == pytest.approx(pi * (50 - 8 * 0.5**0.5))
    assert inner["ring"] == pytest.approx(pi * 42)


@pytest.mark.parametrize(("run", "behind"), [("in", False), ("out", True)])
def test_numerals_that_reach_the_axis_are_refused_on_either_side_of_the_lines(run: Run, behind: bool) -> None:
    work = dial(12, 20, kind="ring", run=run, every=1)
    assert work.numerals
    far = replace(work.numerals, behind=behind, middle_mm=Fraction(9))
    with pytest.raises(BadLength, match=r"2\.4 mm high they reach the axis, 10\.00 mm from the reading edge"):
        replace(work, numerals=far)


def test_one_change_of_stop_is_told_as_one() -> None:
    two = replace(tide_ring(), classes=classes({1: "3", 12: "6.5"}))
    told = {line.what: line.note for line in preparation_card(two, ScaleDirection()).lines}
    assert " 1 change of stop, " in told["class by class"]


def test_a_width_that_all_lines_share_is_told_once_and_widths_that_differ_each() -> None:
    ring = tide_ring()
    told = [line.what for line in preparation_card(ring, ScaleDirection()).lines]
    assert [what for what in told if what.endswith((", long", ", wide", ", deep"))] == [
        "short lines, long",
        "middle lines, long",
        "long lines, long",
        "all lines, wide",
    ]
    first, *others = ring.classes.classes
    mixed = replace(
        ring, classes=replace(ring.classes, classes=(replace(first, width_mm=Fraction(1, 10)), *others))
    )
    assert "short lines, wide" in [line.what for line in preparation_card(mixed, ScaleDirection()).lines]


@pytest.mark.parametrize(
    ("kind", "run", "told"),
    [
        ("ring", "in", "the main scale's must run out, so the main scale lies outside the vernier"),
        ("ring", "out", "the main scale's must run in, so the main scale lies inside the vernier"),
        ("drum", "in", "the main scale's must run out, on the other side of the gap"),
    ],
)
def test_a_verniers_card_says_on_which_side_of_the_gap_the_main_scale_lies(
    kind: SurfaceKind, run: Run, told: str
) -> None:
    work = dial(12, kind=kind, run=run, every=1)
    lines = {line.what: line.note for line in preparation_card(work, ScaleDirection(), is_vernier=True).lines}
    assert told in lines["main scale"]
    assert f"cut this one with lines that run {'out' if run == 'in' else 'in'}" in lines["main scale"]
    assert "main scale" not in [line.what for line in preparation_card(work, ScaleDirection()).lines]
