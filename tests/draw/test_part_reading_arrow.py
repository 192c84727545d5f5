"""The arrow of a scale: which way it goes, and that the numbers then meet what they are read by in rising order."""

from itertools import product
from math import atan2, hypot, pi

import pytest

from crankwise.draw.part_drawing import PartDrawing, Path
from crankwise.tasks.part_kinds import made_of
from crankwise.tasks.picture import drawing_of

WAYS = list(product(("scale", "pointer"), ("clockwise", "anticlockwise"), ("front", "rear")))


def drawn(**typed: str) -> PartDrawing:
    return drawing_of(made_of("graduated", {"lines": "60", "across": "60mm", **typed}), 0.01)


def shaft(drawing: PartDrawing) -> Path:
    """The arrow's shaft: the open path that ends where the closed head of three corners has its tip."""
    heads = [
        path
        for path in drawing.paths
        if path.layer == "reference" and path.is_closed and len(path.points) == 3
    ]
    (head,) = heads
    (found,) = (path for path in drawing.paths if not path.is_closed and path.points[-1] == head.points[0])
    return found


def numeral_place(drawing: PartDrawing, position: int) -> tuple[float, float]:
    """Where the line of a position begins."""
    return next(path.points[0] for path in drawing.paths if path.layer == "cut" and path.position == position)


@pytest.mark.parametrize(("moves", "turns", "faces"), WAYS)
@pytest.mark.parametrize("on", ["ring", "cone"])
def test_as_the_reading_grows_the_next_line_comes_to_where_it_is_read(
    on: str, moves: str, turns: str, faces: str
) -> None:
    """Turned as the arrow has it by one line, a fixed scale's pointer, or the scale itself, shows the next number."""
    drawing = drawn(on=on, moves=moves, turns=turns, faces=faces)
    (x1, y1), (x2, y2) = shaft(drawing).points[0], shaft(drawing).points[-1]
    arrow = atan2(x2, y2) - atan2(x1, y1)  # above 0: clockwise, as drawn
    (u1, v1), (u2, v2) = (numeral_place(drawing, position) for position in (20, 21))
    step = (atan2(u2, v2) - atan2(u1, v1) + pi) % (2 * pi) - pi
    # A pointer goes to the next line; a scale brings the next line back to where this one was.
    assert (arrow * step > 0) == (moves == "pointer")
    assert hypot(x1, y1) == pytest.approx(hypot(x2, y2))
    # It lies clear of every line and numeral.
    nearest = min(
        hypot(x, y) for path in drawing.paths if path.layer in ("cut", "numeral") for x, y in path.points
    )
    assert hypot(x1, y1) < nearest


@pytest.mark.parametrize(("moves", "turns", "faces"), WAYS)
@pytest.mark.parametrize("feet", ["usual", "away"])
def test_on_a_strip_too(moves: str, turns: str, faces: str, feet: str) -> None:
    drawing = drawn(on="drum", moves=moves, turns=turns, faces=faces, feet=feet)
    start, tip = shaft(drawing).points
    left, low, right, high = drawing.box()
    assert low <= start[1] == tip[1] <= high
    assert left < min(start[0], tip[0]) < max(start[0], tip[0]) < right
    first, second = (numeral_place(drawing, position)[0] for position in (20, 21))
    assert ((tip[0] - start[0]) * (second - first) > 0) == (moves == "pointer")


def test_a_scale_that_faces_away_says_how_it_is_seen_from_the_handle() -> None:
    rear = drawn(on="ring", faces="rear", turns="clockwise")
    assert any(
        "seen as drawn: anticlockwise; from the handle, which is behind it, that is clockwise" in note
        for note in rear.notes
    )
    assert any(
        note.endswith("seen as drawn: clockwise, as from the handle.") for note in drawn(on="ring").notes
    )


def test_where_lines_reach_nearly_to_the_axis_there_is_no_arrow() -> None:
    full = drawn(on="ring", across="30mm", classes="1=14.5mm", no_numerals="true")
    assert not [path for path in full.paths if path.is_closed and len(path.points) == 3]
