"""The layout of a print: enough sheets, every spot of the part on one of them, crosses that meet."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import box, unary_union

from crankwise.draw.part_drawing import PartDrawing, Path
from crankwise.errors import BadLength
from crankwise.sheets.full_size import (
    EDGE_MM,
    FULL_SIZE_PAPERS,
    MOST_SHEETS,
    OVERLAP_MM,
    FullSizePaper,
    PrinterScale,
    crosses,
    laid_out,
)


def part_of(wide: float, tall: float) -> PartDrawing:
    corners = ((0.0, 0.0), (wide, 0.0), (wide, tall), (0.0, tall))
    return PartDrawing("plate", "A plate", (Path(corners, "body", is_closed=True),))


sizes = st.floats(1, 700)
papers: st.SearchStrategy[FullSizePaper] = st.sampled_from(list(FULL_SIZE_PAPERS))
scales = st.builds(PrinterScale, st.floats(95, 105), st.floats(95, 105))


@given(sizes, sizes, papers, scales)
def test_every_spot_of_the_part_is_on_a_sheet_and_neighbours_overlap(
    wide: float, tall: float, paper: FullSizePaper, scale: PrinterScale
) -> None:
    try:
        layout = laid_out(part_of(wide, tall), paper, scale)
    except BadLength:
        return
    assert len(layout.sheets) == layout.rows * layout.columns <= MOST_SHEETS
    windows = [box(s.left, s.top - s.height, s.left + s.width, s.top) for s in layout.sheets]
    assert unary_union(windows).covers(box(0, 0, wide, tall))
    grown = scale.grown
    for sheet in layout.sheets:
        assert sheet.width * grown[0] <= layout.width - 2 * EDGE_MM + 1e-9
        assert sheet.height * grown[1] < layout.height - 2 * EDGE_MM
    for one, other in combinations(layout.sheets, 2):
        if (one.row, one.column + 1) == (other.row, other.column):
            assert one.left + one.width - other.left == pytest.approx(OVERLAP_MM)
            shared = set(rounded(crosses(layout, one))) & set(rounded(crosses(layout, other)))
            assert len(shared) >= 2


def rounded(spots: object) -> list[tuple[float, float]]:
    return [(round(x, 6), round(y, 6)) for x, y in spots]  # type: ignore[attr-defined]


def test_a_part_that_fits_one_sheet_lying_is_laid_so() -> None:
    layout = laid_out(part_of(250, 60), "A4", PrinterScale())
    assert (layout.width, layout.height) == (297, 210)
    assert (layout.rows, layout.columns) == (1, 1)


def test_a_part_too_large_is_refused_with_what_would_do() -> None:
    with pytest.raises(
        BadLength, match=r"1500 x 1500 mm would need \d+ sheets of A4.*take A2, or write \.svg"
    ):
        laid_out(part_of(1500, 1500), "A4", PrinterScale())
    with pytest.raises(BadLength, match=r"cannot be joined true; write \.svg or \.dxf"):
        laid_out(part_of(9000, 9000), "A4", PrinterScale())


def test_a_printer_that_is_ten_per_cent_off_is_not_believed() -> None:
    with pytest.raises(BadLength, match=r"scale-measured: 50 mm for the bar of 100 mm.*as 99\.6mm"):
        PrinterScale(50.0, 100.0)
