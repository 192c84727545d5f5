"""Figures and capitals as strokes: the numerals of graduated work as an engraver would cut them.

Each figure is drawn in a box of 1 by 1, feet at 0, and stretched to its real width and height; so the print,
the file for engraving and the check of what touches all speak of the same figures. What has no strokes here
is shown as an empty box, never left out.
"""

from collections.abc import Iterator
from functools import cache
from math import ceil, cos, pi, sin

from crankwise.draw.part_drawing import Point
from crankwise.part.numerals import Lettering

Stroke = tuple[Point, ...]

STROKE_SHARE = 0.1
"""Width of a figure's stroke, as a share of its height. Typical of stamps."""
_STEP = 15.0


def figure_strokes(text: str, lettering: Lettering) -> Iterator[Stroke]:
    """Yield the strokes of a numeral in mm, its middle at the origin, upright; the ink just fills its real size."""
    height = float(lettering.height_mm)
    ink = height * STROKE_SHARE
    for figure, middle in zip(text, lettering.figure_middles(text), strict=True):
        width = float(lettering.width_of(figure))
        # Half the ink lies outside a stroke's middle; what is too narrow for that is one upright stroke.
        wide, tall = max(width - ink, 0.0), height - ink
        for stroke in _strokes(figure.upper()):
            yield tuple((float(middle) + (x - 0.5) * wide, (y - 0.5) * tall) for x, y in stroke)


def _arc(x: float, y: float, across: float, up: float, start: float, end: float) -> Stroke:
    """An arc of an ellipse: angles in degrees anticlockwise from the right."""
    pieces = max(2, ceil(abs(end - start) / _STEP))
    angles = [(start + (end - start) * piece / pieces) * pi / 180 for piece in range(pieces + 1)]
    return tuple((x + across * cos(angle), y + up * sin(angle)) for angle in angles)


@cache
def _strokes(figure: str) -> tuple[Stroke, ...]:
    return _FIGURES.get(figure, (((0, 0), (1, 0), (1, 1), (0, 1), (0, 0)),))


_FIGURES: dict[str, tuple[Stroke, ...]] = {
    " ": (),
    "0": ((*_arc(0.5, 0.5, 0.5, 0.5, 0, 360),),),
    "1": (((0, 0.75), (1, 1), (1, 0)),),
    "2": (((*_arc(0.5, 0.72, 0.5, 0.28, 170, -30), (0, 0), (1, 0))),),
    "3": ((*_arc(0.48, 0.76, 0.46, 0.24, 150, -90), *_arc(0.48, 0.26, 0.52, 0.26, 90, -150)),),
    "4": (((0.78, 0), (0.78, 1), (0, 0.28), (1, 0.28)),),
    "5": (((0.94, 1), (0.1, 1), (0.04, 0.55), *_arc(0.48, 0.33, 0.52, 0.33, 125, -155)),),
    "6": (((*_arc(0.5, 0.62, 0.5, 0.38, 40, 180), (0, 0.32), *_arc(0.5, 0.32, 0.5, 0.32, 180, 540))),),
    "7": (((0, 1), (1, 1), (0.3, 0)),),
    "8": (_arc(0.5, 0.77, 0.44, 0.23, -90, 270), _arc(0.5, 0.27, 0.5, 0.27, -90, 270)),
    "9": (((*_arc(0.5, 0.38, 0.5, 0.38, 220, 360), (1, 0.68), *_arc(0.5, 0.68, 0.5, 0.32, 0, 360))),),
    ".": (((0.35, 0), (0.65, 0), (0.65, 0.06), (0.35, 0.06), (0.35, 0)),),
    ",": (((0.65, 0.06), (0.35, 0.06), (0.35, 0), (0.65, 0), (0.65, 0.06), (0.3, -0.1)),),
    "/": (((0, 0), (1, 1)),),
    "-": (((0.1, 0.5), (0.9, 0.5)),),
    "−": (((0.1, 0.5), (0.9, 0.5)),),
    "+": (((0.1, 0.5), (0.9, 0.5)), ((0.5, 0.25), (0.5, 0.75))),
    ":": (((0.5, 0.25), (0.5, 0.32)), ((0.5, 0.68), (0.5, 0.75))),
    "°": (_arc(0.5, 0.82, 0.36, 0.18, 0, 360),),
    "'": (((0.5, 1), (0.5, 0.7)),),
    "A": (((0, 0), (0.5, 1), (1, 0)), ((0.18, 0.36), (0.82, 0.36))),
    "B": (
        ((0, 0), (0, 1), *_arc(0.55, 0.77, 0.38, 0.23, 90, -90), (0, 0.54)),
        ((0, 0.54), *_arc(0.58, 0.27, 0.42, 0.27, 90, -90), (0, 0)),
    ),
    "C": (_arc(0.52, 0.5, 0.52, 0.5, 45, 315),),
    "D": (((0, 0), (0, 1), *_arc(0.4, 0.5, 0.6, 0.5, 90, -90), (0, 0)),),
    "E": (((1, 1), (0, 1), (0, 0), (1, 0)), ((0, 0.52), (0.8, 0.52))),
    "F": (((1, 1), (0, 1), (0, 0)), ((0, 0.52), (0.8, 0.52))),
    "G": (((*_arc(0.52, 0.5, 0.52, 0.5, 45, 330), (1, 0.45), (0.6, 0.45))),),
    "H": (((0, 0), (0, 1)), ((1, 0), (1, 1)), ((0, 0.52), (1, 0.52))),
    "I": (((0.5, 0), (0.5, 1)),),
    "J": ((((0.8, 1), (0.8, 0.3), *_arc(0.4, 0.3, 0.4, 0.3, 0, -180))),),
    "K": (((0, 0), (0, 1)), ((1, 1), (0, 0.4)), ((0.3, 0.58), (1, 0))),
    "L": (((0, 1), (0, 0), (1, 0)),),
    "M": (((0, 0), (0, 1), (0.5, 0.3), (1, 1), (1, 0)),),
    "N": (((0, 0), (0, 1), (1, 0), (1, 1)),),
    "O": (_arc(0.5, 0.5, 0.5, 0.5, 0, 360),),
    "P": (((0, 0), (0, 1), *_arc(0.6, 0.75, 0.4, 0.25, 90, -90), (0, 0.5)),),
    "Q": (_arc(0.5, 0.5, 0.5, 0.5, 0, 360), ((0.6, 0.3), (1, 0))),
    "R": (((0, 0), (0, 1), *_arc(0.6, 0.75, 0.4, 0.25, 90, -90), (0, 0.5)), ((0.5, 0.5), (1, 0))),
    "S": (((*_arc(0.5, 0.75, 0.48, 0.25, 30, 270), *_arc(0.5, 0.25, 0.5, 0.25, 90, -150))),),
    "T": (((0, 1), (1, 1)), ((0.5, 1), (0.5, 0))),
    "U": ((((0, 1), (0, 0.35), *_arc(0.5, 0.35, 0.5, 0.35, 180, 360), (1, 1))),),
    "V": (((0, 1), (0.5, 0), (1, 1)),),
    "W": (((0, 1), (0.25, 0), (0.5, 0.7), (0.75, 0), (1, 1)),),
    "X": (((0, 0), (1, 1)), ((0, 1), (1, 0))),
    "Y": (((0, 1), (0.5, 0.5), (1, 1)), ((0.5, 0.5), (0.5, 0))),
    "Z": (((0, 1), (1, 1), (0, 0), (1, 0)),),
}
