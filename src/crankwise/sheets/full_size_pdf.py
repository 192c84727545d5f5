"""A part at full size as a PDF: one sheet, or several to join, each with its check bars."""

from collections import defaultdict
from collections.abc import Iterable, Sequence

from crankwise.draw.part_drawing import Layer, PartDrawing, Point
from crankwise.sheets.full_size import (
    BARS_MM,
    EDGE_MM,
    HEAD_MM,
    OUTLINE_MM,
    OVERLAP_MM,
    FullSizePaper,
    Layout,
    PrinterScale,
    Sheet,
    bar_strokes,
    crosses,
    down_bar_strokes,
    laid_out,
)
from crankwise.sheets.pdf_pen import Pen
from crankwise.wording.picture import CHECK_BAR, IF_OFF, JOIN, corrected_text, sheet_text

MM = 72 / 25.4
_DASHES = (3 * MM, 1.5 * MM)
_TOOL_MM = 5.0
_TEXT = 7.0
_NOTES = 3

Strokes = list[tuple[Sequence[Point], bool]]


def full_size_pdf(
    drawing: PartDrawing,
    paper: FullSizePaper = "A4",
    scale: PrinterScale = PrinterScale(),  # noqa: B008, a frozen value
) -> tuple[bytes, int]:
    """Return the document and how many sheets it has.

    Raises MissingExtra when the PDF package is not installed, BadLength when the part needs too many sheets.
    """
    layout = laid_out(drawing, paper, scale)
    pen = Pen(layout.width * MM, layout.height * MM, title=drawing.name, subject="Full size print")
    for number, sheet in enumerate(layout.sheets):
        if number:
            pen.turn_page()
        page = _Page(pen, layout, sheet, scale)
        page.draw(drawing)
        page.join()
        page.words(drawing)
    return pen.pdf(), len(layout.sheets)


class _Page:
    """One sheet: from the drawing's millimetres, y up, to the paper's points, y down."""

    def __init__(self, pen: Pen, layout: Layout, sheet: Sheet, scale: PrinterScale) -> None:
        self.pen, self.layout, self.sheet, self.scale = pen, layout, sheet, scale
        self.across, self.down = (grown * MM for grown in scale.grown)
        self.left, self.top = EDGE_MM * MM, (EDGE_MM + HEAD_MM) * MM
        self.width, self.height = sheet.width * self.across, sheet.height * self.down

    def spot(self, point: Point) -> Point:
        return (
            self.left + (point[0] - self.sheet.left) * self.across,
            self.top + (self.sheet.top - point[1]) * self.down,
        )

    def draw(self, drawing: PartDrawing) -> None:
        """Draw all that is in the window; strokes of one layer and width go down together."""
        strokes: dict[tuple[Layer, float], Strokes] = defaultdict(list)
        for path in drawing.paths:
            strokes[path.layer, path.width_mm].append(([*map(self.spot, path.points)], path.is_closed))
        with self.pen.window(self.left, self.top, self.width, self.height):
            for (layer, width_mm), together in strokes.items():
                self.pen.strokes(together, (width_mm or OUTLINE_MM) * MM, self._dashes(layer))
            for circle in drawing.circles:
                x, y = self.spot(circle.middle)
                radius = circle.radius_mm
                self.pen.ellipse(
                    x,
                    y,
                    radius * self.across,
                    radius * self.down,
                    OUTLINE_MM * MM,
                    self._dashes(circle.layer),
                )
            if drawing.tool:
                points = [*map(self.spot, drawing.tool.outline(_TOOL_MM).points)]
                self.pen.strokes([(points, True)], filled=True)

    def _dashes(self, layer: Layer) -> tuple[float, float] | None:
        return _DASHES if layer == "reference" else None

    def join(self) -> None:
        """Draw the crosses and the edges to cut, where there is a neighbour."""
        arm = 3 * MM
        for x, y in map(self.spot, crosses(self.layout, self.sheet)):
            self.pen.strokes(
                [([(x - arm, y), (x + arm, y)], False), ([(x, y - arm), (x, y + arm)], False)], 0.4
            )
        half_x, half_y = OVERLAP_MM / 2 * self.across, OVERLAP_MM / 2 * self.down
        right, bottom = self.left + self.width, self.top + self.height
        if self.sheet.column > 1:
            x = self.left + half_x
            self.pen.strokes([([(x, self.top), (x, bottom)], False)], 0.3, (1.5, 4.0))
        if self.sheet.row > 1:
            y = self.top + half_y
            self.pen.strokes([([(self.left, y), (right, y)], False)], 0.3, (1.5, 4.0))

    def words(self, drawing: PartDrawing) -> None:
        """Write the head, the bars, and what to do with them."""
        pen, wide = self.pen, (self.layout.width - 2 * EDGE_MM) * MM
        sheet, layout = self.sheet, self.layout
        told = sheet_text(drawing.name, sheet.row, layout.rows, sheet.column, layout.columns)
        pen.fitted(self.left, self.left + 10, told, 11, wide, bold=True)
        join = [JOIN] if len(layout.sheets) > 1 else []
        notes = pen.wrapped(" ".join((*join, *drawing.notes)), _TEXT, wide, most=_NOTES)
        for place, line in enumerate(notes):
            pen.text(self.left, self.left + 20 + place * (_TEXT + 1.5), line, _TEXT)
        y = (layout.height - EDGE_MM - BARS_MM + 8) * MM
        self._bar(self.left, y, bar_strokes())
        self._bar((EDGE_MM - 5) * MM, y - 8 * MM, down_bar_strokes())
        x = self.left + 104 * self.across
        pen.text(x, y + 1, "100 mm", 8, bold=True)
        pen.text(x, y + 3.6 * self.down, "4 in", 8, bold=True)
        corrected = corrected_text(self.scale.across_mm, self.scale.down_mm)
        lines = pen.wrapped(f"{CHECK_BAR} {IF_OFF} {corrected}".strip(), _TEXT, wide, most=3)
        for place, line in enumerate(lines):
            pen.text(self.left, y + 9 * self.down + place * (_TEXT + 2), line, _TEXT)

    def _bar(self, x: float, y: float, strokes: Iterable[tuple[Point, Point]]) -> None:
        drawn: Strokes = [
            ([(x + a * self.across, y + b * self.down), (x + c * self.across, y + d * self.down)], False)
            for (a, b), (c, d) in strokes
        ]
        self.pen.strokes(drawn, OUTLINE_MM * MM)
