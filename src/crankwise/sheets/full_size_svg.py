"""A part at full size as one SVG file of its own, in millimetres, with the check bars below it."""

from collections.abc import Iterable
from html import escape
from textwrap import wrap

from crankwise.draw.part_drawing import PartDrawing, Path, Point
from crankwise.sheets.full_size import (
    EDGE_MM,
    OUTLINE_MM,
    PrinterScale,
    bar_strokes,
    down_bar_strokes,
)
from crankwise.wording.picture import CHECK_BAR, IF_OFF, corrected_text, sheet_text

_STYLE = (
    "path,ellipse{fill:none;stroke:#000;stroke-linecap:round;stroke-linejoin:round}"
    ".cut{stroke-linecap:butt}.reference{stroke-dasharray:3 1.5;stroke:#555}"
    ".tool{fill:#000;stroke:none}text{font:3px sans-serif}"
)
_BARS_MM, _LINE_MM, _LETTERS = 15.0, 4.0, 90
_LEAST_WIDE_MM, _LEAST_TALL_MM = 150.0, 100.0
_TOOL_MM = 5.0


def full_size_svg(drawing: PartDrawing, scale: PrinterScale = PrinterScale()) -> bytes:  # noqa: B008, a frozen value
    """Return the file. Coordinates are good to a ten-thousandth of a millimetre."""
    left, bottom, right, top = drawing.box()
    edge = EDGE_MM + (_TOOL_MM if drawing.tool else 0.0)
    wide = max(right - left, _LEAST_WIDE_MM) + 2 * edge
    told = [*_told(drawing, scale)]
    bars = _BARS_MM + _LINE_MM * len(told)
    tall = max(top - bottom, _LEAST_TALL_MM) + 2 * edge + bars
    frame = _Frame(
        (wide - (right - left)) / 2 - left,
        edge + top + max(0.0, _LEAST_TALL_MM - (top - bottom)) / 2,
        *scale.grown,
    )
    width, height = wide * frame.across, tall * frame.down
    body = [
        f"<title>{escape(sheet_text(drawing.name, 1, 1, 1, 1))}</title>",
        f"<desc>{escape(' '.join((drawing.label + '.', *drawing.notes)))}</desc>",
        f"<style>{_STYLE}</style>",
        *_drawn(drawing, frame),
        *_bars(frame, tall - bars - edge / 2, told),
    ]
    size = f'width="{_mm(width)}mm" height="{_mm(height)}mm" viewBox="0 0 {_mm(width)} {_mm(height)}"'
    lines = "\n".join(body)
    return (
        f'<?xml version="1.0" encoding="UTF-8"?>\n<svg xmlns="http://www.w3.org/2000/svg" {size}>\n{lines}\n</svg>\n'
    ).encode()


def _mm(value: float) -> str:
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


class _Frame:
    """From the drawing's millimetres, y up, to the paper's, y down, grown for the printer."""

    def __init__(self, x: float, y: float, across: float, down: float) -> None:
        self.x, self.y, self.across, self.down = x, y, across, down

    def spot(self, point: Point) -> str:
        return f"{_mm((point[0] + self.x) * self.across)} {_mm((self.y - point[1]) * self.down)}"

    def stroke(self, path: Path) -> str:
        return "M" + "L".join(map(self.spot, path.points)) + ("Z" if path.is_closed else "")

    def bar(self, x: float, y: float, strokes: Iterable[tuple[Point, Point]]) -> str:
        """The strokes of a bar whose corner is at x, y of the paper, y down."""

        def spot(across: float, down: float) -> str:
            return f"{_mm((x + across) * self.across)} {_mm((y + down) * self.down)}"

        drawn = [f"M{spot(*start)}L{spot(*end)}" for start, end in strokes]
        return f'<path class="bar" stroke-width="{OUTLINE_MM}" d="{"".join(drawn)}"/>'

    def text(self, x: float, y: float, content: str) -> str:
        return f'<text x="{_mm(x * self.across)}" y="{_mm(y * self.down)}">{escape(content)}</text>'


def _drawn(drawing: PartDrawing, frame: _Frame) -> Iterable[str]:
    for path in drawing.paths:
        at = "" if path.position is None else f' data-position="{path.position}"'
        width = _mm(path.width_mm or OUTLINE_MM)
        yield f'<path class="{path.layer}" stroke-width="{width}"{at} d="{frame.stroke(path)}"/>'
    for circle in drawing.circles:
        (x, y), radius = circle.middle, circle.radius_mm
        at = "" if circle.position is None else f' data-position="{circle.position}"'
        size = f'rx="{_mm(radius * frame.across)}" ry="{_mm(radius * frame.down)}"'
        spot = f'cx="{_mm((x + frame.x) * frame.across)}" cy="{_mm((frame.y - y) * frame.down)}"'
        yield f'<ellipse class="{circle.layer}" stroke-width="{OUTLINE_MM}"{at} {spot} {size}/>'
    if drawing.tool:
        yield f'<path class="tool" d="{frame.stroke(drawing.tool.outline(_TOOL_MM))}"/>'


def _told(drawing: PartDrawing, scale: PrinterScale) -> Iterable[str]:
    yield sheet_text(drawing.name, 1, 1, 1, 1)
    yield CHECK_BAR
    for text in (IF_OFF, corrected_text(scale.across_mm, scale.down_mm), *drawing.notes):
        yield from wrap(text, _LETTERS)


def _bars(frame: _Frame, y: float, told: Iterable[str]) -> Iterable[str]:
    yield frame.bar(EDGE_MM, y + 5, bar_strokes())
    yield frame.bar(3.0, y, down_bar_strokes())
    yield frame.text(EDGE_MM + 103, y + 5.5, "100 mm")
    yield frame.text(EDGE_MM + 103, y + 9.5, "4 in")
    for place, line in enumerate(told):
        yield frame.text(EDGE_MM, y + _BARS_MM + _LINE_MM * place, line)
