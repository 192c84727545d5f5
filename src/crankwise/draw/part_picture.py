"""A part's drawing as a picture on a page: one small `<svg>`, to scale, with the tool where it stands.

The picture is brought to one size in its own units, so that a pinion of a clock and a gear of 400 teeth are as
finely drawn. Widths of lines on the work are to scale; colours, and lines without a width, are the page's.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import replace
from itertools import pairwise
from math import hypot, sqrt

from crankwise.draw.part_drawing import PartDrawing, Path, Point
from crankwise.draw.svg import element, number, picture

SIZE = 400.0
"""Of the longer side of a picture, in its own units."""
_EDGE, _TOOL = 22.0, 18.0
FINEST, FINEST_FOLDED = 0.03, 0.1
"""How far a numeral's stroke may leave its curve, in the picture's units: less than any screen shows. A folded strip is
drawn larger, so that more is less to the eye, and thousands of lines on it stay a small picture."""
PIECES = 4000
"""A curve may bulge by this part of the picture's size: a tenth of what a screen shows."""
LONGEST, SQUARISH = 5.0, 1.3
"""A strip so many times as long as it is high is folded: on a phone its numerals would be finer than print. It is cut
into as many rows as make the picture about so many times as wide as high. Judgement."""
_PAST_THE_FOLD = 11.0
LEAST_SHARE = 0.4
"""A scale that takes up less of its picture, as a vernier on its ring, is drawn once more by itself. Judgement."""


def picture_chord_mm(size_mm: float) -> float:
    """Return how far curves may bulge out of straight pieces on a picture of a part so large."""
    return size_mm / PIECES


def part_picture(drawing: PartDrawing) -> str:
    """Return the picture; a long strip, as of a rack or an unrolled drum, in rows below one another."""
    left, bottom, right, top = drawing.box()
    rows = _rows((right - left) / (top - bottom) if top > bottom else 1.0)
    scale = rows * SIZE / drawing.size_mm
    frame = _Frame(left, top, scale, FINEST if rows == 1 else FINEST_FOLDED)
    body = [
        *_bodies(drawing, frame),
        *_lines(drawing, frame),
        *_numerals(drawing, frame),
        *_tool(drawing, frame),
    ]
    width, height = (right - left) * scale, (top - bottom) * scale
    if rows > 1:
        return _folded(drawing.label, body, rows, height)
    detail = _detail(drawing, frame)
    if detail:
        return _with_detail(drawing.label, body, (width, height), detail)
    return picture(drawing.label, (-_EDGE, -_EDGE, width + 2 * _EDGE, height + 2 * _EDGE), body, "part")


def _rows(aspect: float) -> int:
    return 1 if aspect <= LONGEST else round(sqrt(aspect / SQUARISH))


def _detail(drawing: PartDrawing, frame: "_Frame") -> tuple[float, float, float, float] | None:
    """Left, top, width, height of all that is numbered and its lines, where that is small on the whole; else None."""
    if not any(path.layer == "numeral" for path in drawing.paths):
        return None
    scale = [path for path in drawing.paths if path.layer in ("cut", "numeral")]
    left, bottom, right, top = replace(drawing, paths=tuple(scale), circles=()).box()
    if max(right - left, top - bottom) > LEAST_SHARE * drawing.size_mm:
        return None
    return (
        (left - frame.left) * frame.scale,
        (frame.top - top) * frame.scale,
        (right - left) * frame.scale,
        (top - bottom) * frame.scale,
    )


def _with_detail(
    label: str, body: list[str], size: tuple[float, float], detail: tuple[float, float, float, float]
) -> str:
    """The whole, and below it once more what is numbered, as large as the whole is wide."""
    left, top, wide, high = detail
    edge = 0.06 * wide
    box = (left - edge, top - edge, wide + 2 * edge, high + 2 * edge)
    shown_high = SIZE * box[3] / box[2]
    once = element("defs", element("g", "".join(body), id="strip"))
    below = element(
        "svg",
        element("use", href="#strip"),
        x=0.0,
        y=size[1] + _EDGE,
        width=SIZE,
        height=shown_high,
        viewBox=" ".join(map(number, box)),
    )
    told = f"{label}; below, the scale once more, {number(SIZE / box[2])} times as large"
    whole = (-_EDGE, -_EDGE, size[0] + 2 * _EDGE, size[1] + shown_high + 3 * _EDGE)
    return picture(told, whole, [once, element("use", href="#strip"), below], "part")


def _folded(label: str, body: list[str], rows: int, height: float) -> str:
    """The strip once, and a window on it for each row; each shows a little of what the next one begins with."""
    tall = height + 2 * _EDGE
    window = element("rect", x=-_PAST_THE_FOLD, y=-_EDGE, width=SIZE + 2 * _PAST_THE_FOLD, height=tall)
    once = element("g", "".join(body), id="strip") + element("clipPath", window, id="row")
    shown = [
        element(
            "g",
            element("use", href="#strip", x=-row * SIZE),
            transform=f"translate(0 {number(row * tall)})",
            clip_path="url(#row)",
        )
        for row in range(rows)
    ]
    box = (-_EDGE, -_EDGE, SIZE + 2 * _EDGE, rows * tall)
    told = f"{label}; folded into {rows} rows, the left end at the top"
    return picture(told, box, [element("defs", once), *shown], "part")


class _Frame:
    """From the drawing's millimetres, y up, to the picture's units, y down."""

    def __init__(self, left: float, top: float, scale: float, finest: float) -> None:
        self.left, self.top, self.scale, self.finest = left, top, scale, finest

    def spot(self, point: Point) -> str:
        return f"{number((point[0] - self.left) * self.scale)} {number((self.top - point[1]) * self.scale)}"

    def stroke(self, path: Path) -> str:
        """A path in steps from point to point, in whole hundredths of a unit, so that rounding never adds up."""
        spots = [
            (round((x - self.left) * self.scale * 100), round((self.top - y) * self.scale * 100))
            for x, y in path.points
        ]
        steps = "".join(f"l{_hundredths(c - a)} {_hundredths(d - b)}" for (a, b), (c, d) in pairwise(spots))
        first = f"M{_hundredths(spots[0][0])} {_hundredths(spots[0][1])}"
        return first + steps.replace(" -", "-") + ("Z" if path.is_closed else "")

    def figure(self, path: Path) -> str:
        """A stroke of a numeral, without the points that nobody could tell from a straight line."""
        return self.stroke(replace(path, points=_straightened(path.points, self.finest / self.scale)))

    def circle(self, middle: Point, radius_mm: float) -> str:
        size = number(radius_mm * self.scale)
        over = number(2 * radius_mm * self.scale)
        start = self.spot((middle[0] - radius_mm, middle[1]))
        return f"M{start}a{size} {size} 0 1 0 {over} 0a{size} {size} 0 1 0 -{over} 0Z"


def _straightened(points: tuple[Point, ...], within_mm: float) -> tuple[Point, ...]:
    """Return the fewest of these points, both ends with them, between which no other lies off the line by more.

    A stretch is halved at the point that is farthest off, until none is. Source: Douglas and Peucker, 1973.
    """
    if len(points) < 3:
        return points
    (x1, y1), (x2, y2) = points[0], points[-1]
    along, up = x2 - x1, y2 - y1
    length = hypot(along, up)
    apart = [
        abs(along * (y - y1) - up * (x - x1)) / length if length else hypot(x - x1, y - y1)
        for x, y in points[1:-1]
    ]
    worst = max(apart)
    if worst <= within_mm:
        return points[0], points[-1]
    middle = apart.index(worst) + 1
    return _straightened(points[: middle + 1], within_mm)[:-1] + _straightened(points[middle:], within_mm)


def _hundredths(whole: int) -> str:
    sign, (units, rest) = "-" if whole < 0 else "", divmod(abs(whole), 100)
    if not rest:
        return f"{sign}{units}"
    return f"{sign}{units or ''}.{rest:02d}".rstrip("0")


def _bodies(drawing: PartDrawing, frame: _Frame) -> Iterable[str]:
    """The outline in one piece, so that a bore or the inside of a ring is a hole in it."""
    outlines = [frame.stroke(path) for path in drawing.paths if path.layer == "body"]
    outlines += [
        frame.circle(circle.middle, circle.radius_mm) for circle in drawing.circles if circle.layer == "body"
    ]
    if outlines:
        yield element("path", d="".join(outlines), class_="body", fill_rule="evenodd")


def _lines(drawing: PartDrawing, frame: _Frame) -> Iterable[str]:
    """Everything but the body and the numerals, one element for each layer and width."""
    strokes: dict[tuple[str, float], list[str]] = defaultdict(list)
    for path in drawing.paths:
        if path.layer in ("cut", "reference"):
            strokes[path.layer, path.width_mm].append(frame.stroke(path))
    for circle in drawing.circles:
        if circle.layer in ("cut", "reference"):
            layer = f"{circle.layer} in-hand" if circle.is_in_hand else circle.layer
            strokes[layer, 0.0].append(frame.circle(circle.middle, circle.radius_mm))
    for (layer, width_mm), drawn in strokes.items():
        if width_mm:
            yield element("path", d="".join(drawn), class_=layer, stroke_width=width_mm * frame.scale)
        else:
            yield element("path", d="".join(drawn), class_=layer)


def _numerals(drawing: PartDrawing, frame: _Frame) -> Iterable[str]:
    """All numerals of one width of stroke in one element: a picture of hundreds stays small."""
    numerals: dict[float, list[str]] = defaultdict(list)
    for path in drawing.paths:
        if path.layer == "numeral":
            numerals[path.width_mm].append(frame.figure(path))
    for width_mm, drawn in numerals.items():
        yield element("path", d="".join(drawn), class_="numeral", stroke_width=width_mm * frame.scale)


def _tool(drawing: PartDrawing, frame: _Frame) -> Iterable[str]:
    if drawing.tool:
        yield element("path", d=frame.stroke(drawing.tool.outline(_TOOL / frame.scale)), class_="tool")
