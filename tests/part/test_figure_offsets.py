"""Figures stamped one by one read from left to right: looked at on the work, as its reader stands."""

from dataclasses import replace
from math import cos, pi, sin

import pytest

from crankwise.part.figure_offsets import figure_offsets
from crankwise.part.graduated import Graduated
from crankwise.part.scale_direction import ScaleDirection, Sense
from crankwise.part.surface import Run
from tests.graduated import dial


def numbered(work: Graduated, feet_out: bool, behind: bool) -> Graduated:
    assert work.numerals
    return replace(work, numerals=replace(work.numerals, feet_out=feet_out, behind=behind))


@pytest.mark.parametrize("run", ["in", "out"])
@pytest.mark.parametrize("feet_out", [True, False])
@pytest.mark.parametrize("behind", [True, False])
@pytest.mark.parametrize("turns", ["clockwise", "anticlockwise"])
@pytest.mark.parametrize("turned_round", [True, False])
def test_on_a_ring_28_reads_28_with_its_feet_down(
    run: Run, feet_out: bool, behind: bool, turns: Sense, turned_round: bool
) -> None:
    work = numbered(dial(40, 60, kind="ring", run=run), feet_out, behind)
    direction = ScaleDirection(turns=turns)
    line = work.lines()[20]
    two, zero = figure_offsets(work, direction, turned_round, line)
    # The face as it is looked at: positions rise clockwise or not, and each figure lies at line + offset.
    rising = (1 if direction.numbers_run == "clockwise" else -1) * (-1 if turned_round else 1)
    radius = 30 + (-1 if run == "in" else 1) * work.middle_mm

    def spot(turn: float, at: float) -> tuple[float, float]:
        angle = 2 * pi * rising * turn  # clockwise from the top
        return at * sin(angle), at * cos(angle)

    here = float(line.angle)
    edge, middle = spot(here, 30), spot(here, radius)
    down = (edge[0] - middle[0], edge[1] - middle[1])
    if feet_out:
        down = (-down[0], -down[1])
    right = (-down[1], down[0])  # with down pointing down, right is a quarter turn anticlockwise from it
    first, second = spot(here + two, radius), spot(here + zero, radius)
    assert (second[0] - first[0]) * right[0] + (second[1] - first[1]) * right[1] > 0


def test_a_usual_dial_read_from_its_end_turns_on_for_the_first_figure() -> None:
    # Seen with the end at the bottom the positions rise to the left, and the first figure is the left one.
    work = dial(100, 50)
    first, second = figure_offsets(work, ScaleDirection(), False, work.lines()[20])
    assert first > 0 > second
    # 20 is 1.45 heights wide, its figures 0.8 heights apart.
    assert first - second == pytest.approx(0.8 * 2.4 / (pi * 50))


def test_one_figure_and_numerals_along_their_lines_need_no_offset() -> None:
    work = dial(100, 50)
    assert figure_offsets(work, ScaleDirection(), False, work.lines()[0]) == ()
    radial = dial(100, 50, stand="radial")
    assert figure_offsets(radial, ScaleDirection(), False, radial.lines()[10]) == ()
