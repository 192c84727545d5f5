"""A print at full size, laid out: which part of the drawing goes on which sheet, and the bars that prove it.

Printers are not true: `PrinterScale` says what one makes of 100 mm, and everything, the bars included, is then
drawn larger by as much. Lengths are millimetres as they shall measure on the paper.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil
from typing import Literal, get_args

from crankwise.draw.part_drawing import PartDrawing
from crankwise.errors import BadLength

FullSizePaper = Literal["A4", "A3", "A2", "A1", "A0", "letter", "tabloid"]
FULL_SIZE_PAPERS: dict[FullSizePaper, tuple[float, float]] = {
    "A4": (210.0, 297.0),
    "A3": (297.0, 420.0),
    "A2": (420.0, 594.0),
    "A1": (594.0, 841.0),
    "A0": (841.0, 1189.0),
    "letter": (215.9, 279.4),
    "tabloid": (279.4, 431.8),
}
assert get_args(FullSizePaper) == tuple(FULL_SIZE_PAPERS)
EDGE_MM = 10.0
"""What most printers leave white, and a little more."""
HEAD_MM, BARS_MM = 15.0, 24.0
OVERLAP_MM = 10.0
MOST_SHEETS = 20
BAR_MM, BAR_INCHES = 100.0, 4
INCH_MM = 25.4
OUTLINE_MM = 0.13
"""Width of an outline on paper: as fine as an office printer draws it without gaps."""


@dataclass(frozen=True, slots=True)
class PrinterScale:
    """What a printer makes of 100 mm, across the sheet as it comes and down it, in mm: 90 to 110.

    Raises BadLength.
    """

    across_mm: float = 100.0
    down_mm: float = 100.0

    def __post_init__(self) -> None:
        for measured in (self.across_mm, self.down_mm):
            if not 90 <= measured <= 110:
                raise BadLength(
                    "scale-measured",
                    f"{measured:.6g} mm for the bar of 100 mm; a printer that is right is within 10 %: "
                    "print at 100 %, not “fit to page”, and give what the bar of 100 mm measures, as 99.6mm",
                )

    @property
    def grown(self) -> tuple[float, float]:
        """How much larger everything is drawn, across and down."""
        return 100 / self.across_mm, 100 / self.down_mm


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet: its place among all, from 1, and the window of the drawing that it shows, y up.

    left, top      the window's corner, in the drawing's mm
    width, height  the window, in mm
    """

    row: int
    column: int
    left: float
    top: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Layout:
    """All sheets of a print.

    width, height  of the paper as it is laid, in mm
    """

    width: float
    height: float
    rows: int
    columns: int
    sheets: tuple[Sheet, ...]


def laid_out(drawing: PartDrawing, paper: FullSizePaper, scale: PrinterScale) -> Layout:
    """Return the sheets, upright or lying, whichever needs fewer.

    Raises BadLength when the part would need more than 20 sheets; the sentence says what would do.
    """
    layout = _best(drawing, paper, scale)
    if layout.rows * layout.columns > MOST_SHEETS:
        left, bottom, right, top = drawing.box()
        larger = [
            name
            for name in FULL_SIZE_PAPERS
            if (found := _best(drawing, name, scale)).rows * found.columns <= MOST_SHEETS
        ]
        cure = f"take {larger[0]}, or write" if larger else "write"
        raise BadLength(
            "full size",
            f"{right - left:.0f} x {top - bottom:.0f} mm would need {layout.rows * layout.columns} sheets "
            f"of {paper}, and more than {MOST_SHEETS} cannot be joined true; {cure} .svg or .dxf for a large printer",
        )
    return layout


def _best(drawing: PartDrawing, paper: FullSizePaper, scale: PrinterScale) -> Layout:
    width, height = FULL_SIZE_PAPERS[paper]
    upright = _tiled(drawing, width, height, scale)
    lying = _tiled(drawing, height, width, scale)
    return lying if lying.rows * lying.columns < upright.rows * upright.columns else upright


def _tiled(drawing: PartDrawing, width: float, height: float, scale: PrinterScale) -> Layout:
    left, bottom, right, top = drawing.box()
    # Half a line's width and a little, so that what lies on the border is drawn whole.
    left, bottom, right, top = left - 1, bottom - 1, right + 1, top + 1
    grown_across, grown_down = scale.grown
    wide = (width - 2 * EDGE_MM) / grown_across
    tall = (height - 2 * EDGE_MM - HEAD_MM - BARS_MM) / grown_down
    columns, rows = _count(right - left, wide), _count(top - bottom, tall)
    # What is left over goes to both sides alike.
    start_x = left - (columns * wide - (columns - 1) * OVERLAP_MM - (right - left)) / 2
    start_y = top + (rows * tall - (rows - 1) * OVERLAP_MM - (top - bottom)) / 2
    sheets = tuple(
        Sheet(
            row + 1,
            column + 1,
            start_x + column * (wide - OVERLAP_MM),
            start_y - row * (tall - OVERLAP_MM),
            wide,
            tall,
        )
        for row in range(rows)
        for column in range(columns)
    )
    return Layout(width, height, rows, columns, sheets)


def _count(length: float, room: float) -> int:
    return max(1, ceil((length - OVERLAP_MM) / (room - OVERLAP_MM))) if length > room else 1


def crosses(layout: Layout, sheet: Sheet) -> Iterator[tuple[float, float]]:
    """Yield where the crosses that join a sheet to its neighbours stand, in the drawing's mm."""
    half = OVERLAP_MM / 2
    across = (sheet.left + half, sheet.left + sheet.width - half)
    up = (sheet.top - half, sheet.top - sheet.height + half)
    for x, has_beside in zip(across, (sheet.column > 1, sheet.column < layout.columns), strict=True):
        for y, has_above in zip(up, (sheet.row > 1, sheet.row < layout.rows), strict=True):
            if has_beside or has_above:
                yield x, y


def bar_strokes() -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    """Yield the strokes of the check bars from their corner at 0, 0, in mm, y down: 100 mm, and 4 in below it.

    Ticks stand every 10 mm and every half inch.
    """
    yield (0.0, 0.0), (BAR_MM, 0.0)
    for tick in range(11):
        x = tick * BAR_MM / 10
        yield (x, 0.0), (x, -3.0 if tick % 10 == 0 else -1.5)
    below = 2.0
    inches = BAR_INCHES * INCH_MM
    yield (0.0, below), (inches, below)
    for tick in range(2 * BAR_INCHES + 1):
        x = tick * INCH_MM / 2
        yield (x, below), (x, below + (3.0 if tick % (2 * BAR_INCHES) == 0 else 1.5))


def down_bar_strokes() -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    """Yield the strokes of the upright bar of 100 mm from its lower end at 0, 0, y down."""
    yield (0.0, 0.0), (0.0, -BAR_MM)
    for tick in range(11):
        y = -tick * BAR_MM / 10
        yield (0.0, y), (3.0 if tick % 10 == 0 else 1.5, y)
