"""Lines and numerals on a cone, as they are drawn and as the check of collisions sees them, against brute force."""

from math import dist, hypot

import numpy as np
import pytest

from crankwise.draw.part_drawing import PartDrawing
from crankwise.part.graduated import Graduated, Line
from crankwise.tasks.part_kinds import made_of
from crankwise.tasks.picture import drawing_of
from tests.oracle.unrolled_cone import UnrolledCone

CONES = [("60mm", "45"), ("60mm", "30"), ("90mm", "60"), ("40mm", "75")]
CLASSES = {1: 2.5, 5: 4.0, 10: 6.0}


def dial(across: str, slant: str, **more: str) -> tuple[Graduated, PartDrawing]:
    typed = {"lines": "80", "on": "cone", "across": across, "cone_angle": slant, "height": "1.6mm"}
    typed |= {"classes": "1=2.5mm, 5=4mm, 10=6mm", **more}
    made = made_of("graduated", typed)
    assert isinstance(made.value, Graduated)
    return made.value, drawing_of(made, 0.001)


def length_of(line: Line) -> float:
    return next(CLASSES[every] for every in (10, 5, 1) if line.count % every == 0)


@pytest.mark.parametrize("lines_run", ["in", "out"])
@pytest.mark.parametrize(("across", "slant"), CONES)
def test_lines_as_drawn_lie_where_the_unrolled_cone_has_them(across: str, slant: str, lines_run: str) -> None:
    """Distances of every line's two ends from those of the five lines on are those in the flat, but over the cut."""
    work, drawn = dial(across, slant, lines_run=lines_run)
    cone = UnrolledCone(float(across.removesuffix("mm")), float(slant))
    sign = 1 if lines_run == "in" else -1
    cut = [path.points for path in drawn.paths if path.layer == "cut"]
    flat = [
        [cone.in_the_flat(float(line.angle), along) for along in (0.0, sign * length_of(line))]
        for line in work.lines()
    ]
    checked = 0
    for first in range(80):
        assert dist(*cut[first]) == pytest.approx(length_of(work.lines()[first]), abs=1e-9)
        for other in range(first + 1, min(first + 6, 80)):
            for end in (0, 1):
                for far in (0, 1):
                    there = float(np.linalg.norm(flat[first][end] - flat[other][far]))
                    here = dist(cut[first][end], cut[other][far])
                    if abs(here - there) > 1e-5:
                        # Only what the cut of the sheet parts may lie elsewhere: then it lies much farther off.
                        assert here > there + 1.0, (first, other)
                    else:
                        checked += 1
    assert checked > 0.9 * 4 * (75 * 5 + 10)


@pytest.mark.parametrize(("across", "slant"), CONES)
def test_numerals_stand_on_their_lines_past_the_longest_ones(across: str, slant: str) -> None:
    work, drawn = dial(across, slant)
    cone = UnrolledCone(float(across.removesuffix("mm")), float(slant))
    middle = work.middle_mm
    for line in work.lines():
        if not line.numeral:
            continue
        own = [path for path in drawn.paths if path.position == line.position]
        start, end = next(path.points for path in own if path.layer == "cut")
        along = (end[0] - start[0]) / length_of(line), (end[1] - start[1]) / length_of(line)
        ink = [point for path in own if path.layer == "numeral" for point in path.points]
        # Along the line and across it, from the reading edge.
        on = [(x - start[0]) * along[0] + (y - start[1]) * along[1] for x, y in ink]
        beside = [(x - start[0]) * along[1] - (y - start[1]) * along[0] for x, y in ink]
        assert (max(on) + min(on)) / 2 == pytest.approx(middle, abs=0.02)
        assert max(on) - min(on) == pytest.approx(1.6 * 0.9, abs=0.02)  # the stroke's width is a tenth
        # On the cone: the ink keeps clear of where the longest lines end, all across.
        for far_along, far_beside in zip(on, beside, strict=True):
            to_apex = hypot(np.linalg.norm(cone.apex - cone.on_cone(0, far_along)), far_beside)
            longest_ends = float(np.linalg.norm(cone.apex - cone.on_cone(0, 6.0)))
            assert to_apex < longest_ends - 0.15


@pytest.mark.parametrize(("across", "slant"), CONES)
def test_the_check_of_collisions_sees_neighbours_as_far_apart_as_they_are(across: str, slant: str) -> None:
    """The boxes of a line and of the numeral five lines on have their middles as far apart as in the flat."""
    work, _ = dial(across, slant)
    cone = UnrolledCone(float(across.removesuffix("mm")), float(slant))
    lines = work.lines()
    for step in (1, 2, 5):
        here, there = lines[10 - step], lines[10]
        line = work.line_box(here, float(here.angle - there.angle))
        numeral = work.numeral_box(there, 0.0)
        half = length_of(here) / 2
        apart = cone.in_the_flat(float(here.angle), half) - cone.in_the_flat(
            float(there.angle), work.middle_mm
        )
        assert hypot(line.x - numeral.x, line.y - numeral.y) == pytest.approx(
            float(np.linalg.norm(apart)), abs=1e-5
        )
        assert line.height == pytest.approx(length_of(here))
