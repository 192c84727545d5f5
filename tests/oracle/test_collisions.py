"""Everything that touches, held against a geometry library: each box built as a polygon and truly turned.

Nothing is shared with the product but the numbers that describe the work: lines and numerals are drawn on the
plane as they lie on a flat ring (a drum laid flat), and every pair is measured, near or far.
"""

from dataclasses import replace
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import Polygon, box

from crankwise.part.box import Box, gap
from crankwise.part.collisions import collisions
from crankwise.part.graduated import Graduated
from crankwise.part.numerals import Lettering
from crankwise.part.scale_lines import Scale, listed_lines
from tests.graduated import dial, tide_ring

sizes = st.floats(0.05, 9)


@given(
    st.tuples(st.floats(-8, 8), st.floats(-8, 8), sizes, sizes, st.floats(-7, 7)),
    st.tuples(st.floats(-8, 8), st.floats(-8, 8), sizes, sizes, st.floats(-7, 7)),
)
def test_the_gap_of_two_boxes(first: tuple[float, ...], second: tuple[float, ...]) -> None:
    one, other = (
        affinity.rotate(box(x - w / 2, y - h / 2, x + w / 2, y + h / 2), -lean, use_radians=True)
        for x, y, w, h, lean in (first, second)
    )
    found = gap(Box(*first), Box(*second))
    if found > 1e-9:
        assert one.distance(other) == pytest.approx(found, abs=1e-9)
    elif found < -1e-9:
        assert one.intersects(other)
        # Parted by as much as is said, some way, they only touch.
        moved = [
            affinity.translate(other, dx * -found, dy * -found).intersection(one).area
            for axis in (*Box(*first).axes(), *Box(*second).axes())
            for dx, dy in (axis, (-axis[0], -axis[1]))
        ]
        assert min(moved) < 1e-6


def drawn(work: Graduated, wide: float, tall: float, along: float, turns: float) -> Polygon:
    """A box on the work, its middle so far along the lines and so many turns round, on the plane."""
    radius = float(work.surface.diameter_mm) / 2
    if work.surface.kind == "drum":
        x = turns * 3.141592653589793 * 2 * radius
        return box(x - wide / 2, along - tall / 2, x + wide / 2, along + tall / 2)
    middle = radius - along if work.surface.lines_run == "in" else radius + along
    upright = box(-wide / 2, middle - tall / 2, wide / 2, middle + tall / 2)
    return affinity.rotate(upright, -360 * turns, origin=(0, 0))


def everything(work: Graduated) -> set[tuple[int, str, int]]:
    """Every numeral with a line or a numeral nearer than 0.3 or 0.5 mm, by measuring all of them."""
    assert work.numerals
    lettering = work.numerals.lettering
    burr = 2 * float(lettering.burr_mm)
    laps = (-1, 0, 1) if work.surface.kind == "drum" else (0,)
    numerals, found = {}, set()
    for line in work.lines():
        if line.numeral:
            wide, tall = float(lettering.text_width(line.numeral)) + burr, float(lettering.height_mm) + burr
            if work.numerals.stand == "radial":
                wide, tall = tall, wide
            if work.numerals.stand == "level":
                at = drawn(work, 1e-6, 1e-6, work.middle_mm, float(line.angle)).centroid
                numerals[line.position] = box(
                    at.x - wide / 2, at.y - tall / 2, at.x + wide / 2, at.y + tall / 2
                )
            else:
                numerals[line.position] = drawn(work, wide, tall, work.middle_mm, float(line.angle))
    for line in work.lines():
        for lap in laps:
            length = float(line.line_class.length_mm)
            stroke = drawn(work, float(line.line_class.width_mm), length, length / 2, float(line.angle) + lap)
            for position, numeral in numerals.items():
                if numeral.distance(stroke) < 0.3 - 1e-6:
                    found.add((position, "line", line.position))
    around = 3.141592653589793 * float(work.surface.diameter_mm)
    for (one, first), (other, second) in combinations(numerals.items(), 2):
        if min(first.distance(affinity.translate(second, lap * around)) for lap in laps) < 0.5 - 1e-6:
            found.add((one, "numeral", other))
    return found


@pytest.mark.parametrize(
    "work",
    [
        tide_ring("3.2"),
        tide_ring("2.4"),
        tide_ring("5", face=None),
        dial(100, 50),
        dial(100, 30, "3.2"),
        dial(125, 50, "5"),
        dial(100, 30, "3.2", kind="ring"),
        dial(100, 30, "2.4", kind="ring", run="out"),
        dial(60, 40, "3.2", kind="ring", stand="level", every=5),
        dial(60, 40, "4", kind="ring", run="out", stand="level", every=5),
        dial(100, 30, "3.2", kind="ring", stand="radial"),
        dial(100, 30, "3.2", stand="radial"),
        dial(360, 60, "2.4", every=15),
    ],
    ids=lambda work: (
        f"{work.scale.name}, {work.surface.kind} {work.surface.diameter_mm} {work.surface.lines_run}, "
        f"{work.numerals.lettering.height_mm} {work.numerals.stand}"
    ),
)
def test_what_touches_is_what_a_drawing_shows(work: Graduated) -> None:
    ours = {
        (one.position, one.other, one.other_position)
        for one in collisions(work)
        if one.other in ("line", "numeral") and one.thing == "numeral"
    }
    met = {
        (min(a, b), other, max(a, b)) if other == "numeral" else (a, other, b)
        for a, other, b in ours
        if b is not None
    }
    shown = everything(work)
    assert {one for one in met if one[1] == "line"} == {one for one in shown if one[1] == "line"}
    # We tell neighbours; where a drawing shows more than neighbours meet, neighbours meet too.
    numbered = [line.position for line in work.lines() if line.numeral]
    neighbours = {
        (min(a, b), "numeral", max(a, b)) for a, b in zip(numbered, [*numbered[1:], numbered[0]], strict=True)
    }
    assert {one for one in met if one[1] == "numeral"} == {
        one for one in shown if one[1] == "numeral"
    } & neighbours


def uneven(angles: list[int]) -> Scale:
    return listed_lines(
        [(str(place), Fraction(angle, 360)) for place, angle in enumerate(sorted(set(angles)))]
    )


@given(st.lists(st.integers(0, 359), min_size=2, max_size=40), st.integers(8, 40))
def test_uneven_scales_too(angles: list[int], tenths: int) -> None:
    work = dial(kind="ring", diameter=40, scale=uneven(angles))
    assert work.numerals
    work = replace(work, numerals=replace(work.numerals, lettering=Lettering(Fraction(tenths, 10))))
    met = {
        (one.position, one.other_position)
        for one in collisions(work)
        if one.thing == "numeral" and one.other == "line"
    }
    assert met == {(a, b) for a, other, b in everything(work) if other == "line"}
