"""The arrow on graduated work that shows which way its scale, or a pointer over it, goes as the reading grows.

It is drawn as it is seen looking straight at the face that is engraved, or at a drum's end: of a scale that faces
away from the handle that is the other way than the handle turns, which the sentence beside it says.
"""

from collections.abc import Iterator
from math import cos, pi, sin

from crankwise.draw.part_drawing import Path, at
from crankwise.part.graduated import Graduated
from crankwise.part.scale_direction import ScaleDirection

_PIECES = 24
_SPAN = 1 / 6
"""How much of the circle the arrow takes."""
_FREE = 0.82
"""How far out it lies in the room that lines and numerals leave round the axis."""
_HEAD = 0.12
"""Length of its head, as a share of its radius, or of the strip's tenth."""
STRIP_GAP_MM = 5.0
"""Of a drum: how far beyond the strip it lies."""


def reading_arrow(
    work: Graduated, direction: ScaleDirection, up: int = 1, amid_mm: float = 0.0
) -> Iterator[Path]:
    """Yield the shaft and the head of the arrow; nothing where there is no room for one round the axis.

    up       1 where the end of a drum that is looked at lies below its strip, -1 where above
    amid_mm  where the middle of a drum's strip lies
    """
    sign = 1 if direction.seen_at_the_face == "clockwise" else -1
    if not work.surface.slant:
        yield from _on_a_strip(work, sign, up, amid_mm)
        return
    radius = _FREE * _free_mm(work)
    edge = float(work.surface.diameter_mm) / 2 / work.surface.slant
    if radius < edge / 20:
        return
    # On an unrolled cone less of the circle is there; the head points along the arc.
    half = _SPAN / 2 * work.surface.slant
    turns = [sign * half * (2 * piece / _PIECES - 1) for piece in range(_PIECES + 1)]
    yield Path(tuple(at(turn, radius) for turn in turns), "reference")
    tip, angle = at(turns[-1], radius), 2 * pi * turns[-1]
    yield _head(tip, (sign * cos(angle), -sign * sin(angle)), radius * _HEAD)


def _free_mm(work: Graduated) -> float:
    """How far from the axis, or from an unrolled cone's apex, all stays free."""
    edge = float(work.surface.diameter_mm) / 2 / work.surface.slant
    half = work.numeral_along_mm / 2
    if work.surface.lines_run == "in":
        taken = max(float(work.classes.longest.length_mm), work.middle_mm + half if work.numerals else 0.0)
        if work.surface.kind == "cone" and work.surface.face_mm is None:
            taken = (
                2 * float(work.classes.longest.length_mm) + work.numeral_along_mm
            )  # as its sector is drawn
        return edge - max(taken, float(work.surface.face_mm or 0))
    return edge - (max(0.0, half - work.middle_mm) if work.numerals else 0.0)


def _on_a_strip(work: Graduated, sign: int, up: int, amid_mm: float) -> Iterator[Path]:
    length = work.surface.circle_mm() / 10
    below = min(0.0, work.middle_mm - work.numeral_along_mm / 2 if work.numerals else 0.0) - STRIP_GAP_MM
    # Seen from its end below, what goes clockwise there goes to the right on the strip.
    half = up * sign * length / 2
    start, tip = (amid_mm - half, up * below), (amid_mm + half, up * below)
    yield Path((start, tip), "reference")
    yield _head(tip, (float(up * sign), 0.0), length * _HEAD * 1.5)


def _head(tip: tuple[float, float], along: tuple[float, float], length_mm: float) -> Path:
    x, y = tip[0] - along[0] * length_mm, tip[1] - along[1] * length_mm
    wide = length_mm * 0.4
    sides = (x - along[1] * wide, y + along[0] * wide), (x + along[1] * wide, y - along[0] * wide)
    return Path((tip, *sides), "reference", is_closed=True)
