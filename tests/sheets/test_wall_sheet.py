"""The sheet for the wall read back by another library: every figure, how high it stands, what is where."""

import io
from collections import Counter
from itertools import combinations

import pypdf
import pypdfium2
import pytest

from crankwise.plan.plan import Plan
from crankwise.sheets.pdf_pages import PAPERS, Paper
from crankwise.sheets.sheet import Sheet, sheet_of
from crankwise.sheets.wall_sheet import laid_out, wall_sheet_bytes
from tests.gear import BULL_WHEEL
from tests.graduated import tide_ring as graduated_tide_ring
from tests.sheets.plans import every_run, plan, tide_ring

MM = 72 / 25.4


def run_sheet(kind: str) -> Sheet:
    planned, passes = every_run()[kind]
    return sheet_of(planned, kind, passes=passes)


def texts(content: bytes) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(content)).pages]


@pytest.mark.parametrize("kind", every_run())
def test_every_figure_that_is_set_is_printed(kind: str) -> None:
    sheet = run_sheet(kind)
    printed = Counter(" ".join(texts(wall_sheet_bytes(sheet))).replace("...", " ").split())
    shown = Counter(
        text
        for line in sheet.lines
        for role, figure in line.figures.items()
        if role not in ("target", "error", "remark", "numeral")
        for text in figure.replace("=", "").split()
    )
    assert not shown - printed


@pytest.mark.parametrize("paper", PAPERS)
def test_a_setting_stands_a_two_hundredth_of_two_metres_high(paper: Paper) -> None:
    """Measured in the ink of the page, not from the size of the letters."""
    document = pypdfium2.PdfDocument(wall_sheet_bytes(sheet_of(tide_ring(), "Tide ring"), paper))
    text = document[0].get_textpage()
    heights = []
    for index in range(text.count_chars()):
        if text.get_text_range(index, 1) in "147":  # flat at head and foot
            _, bottom, _, top = text.get_charbox(index)
            heights.append((top - bottom) / MM)
    high = [height for height in heights if height > 8]
    assert len(high) > 20
    least = 10 * laid_out(sheet_of(tide_ring(), ""), paper).shrunk
    assert least >= 9.5
    assert all(height == pytest.approx(least, abs=0.05) for height in high)
    document.close()


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("kind", every_run())
def test_no_text_runs_into_another_or_off_the_paper(kind: str, paper: Paper) -> None:
    document = pypdfium2.PdfDocument(wall_sheet_bytes(run_sheet(kind), paper))
    for page in document:
        width, height = page.get_size()
        text = page.get_textpage()
        boxes = [text.get_rect(index) for index in range(text.count_rects())]
        for left, bottom, right, top in boxes:
            assert 8 * MM < left < right < width - 8 * MM
            assert 8 * MM < bottom < top < height - 10 * MM
        for one, other in combinations(boxes, 2):
            apart = one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]
            assert apart, (text.get_text_bounded(*one), text.get_text_bounded(*other))
        text.close()
        page.close()
    document.close()


def test_each_page_can_hang_alone() -> None:
    printed = texts(wall_sheet_bytes(sheet_of(tide_ring(), "Tide ring")))
    assert len(printed) == 8
    for number, text in enumerate(printed, 1):
        assert f"{number} of 8" in text
        assert "Tide ring" in text
        assert "CLOCKWISE" in text
        assert "Never turn straight back to it" in text
        assert "to be read from 2.0 m; the ring's check from 1.4 m" in text
    assert "Page ends at position 19: 9 turns + 18. Next: position 20: 9 turns + 66.5." in printed[0]
    assert "Back at the beginning: the tool must fall in the first line." in printed[-1]


def test_few_columns_stand_in_many_blocks() -> None:
    layout = laid_out(sheet_of(plan(BULL_WHEEL, "direct", "60"), "Wheel"), "A4")
    assert [column.role for column in layout.columns] == ["position", "notches"]
    assert layout.on_a_page >= 50


def test_each_list_of_a_run_of_several_passes_begins_a_page_and_is_named_on_it() -> None:
    printed = texts(wall_sheet_bytes(run_sheet("trace, then long lines first")))
    for title, pages in (("Trace, pass 1 of 4", 8), ("Every 10th, pass 2 of 4", 1), ("pass 4 of 4", 6)):
        assert sum(title in text for text in printed) == pages


def test_line_classes_and_numerals_stand_beside_their_settings() -> None:
    planned = tide_ring()
    sheet = sheet_of(Plan(graduated_tide_ring().part(), planned.way), "Tide ring")
    printed = " ".join(texts(wall_sheet_bytes(sheet)))
    assert {line.line_class for line in sheet.lines if line.line_class} <= set(printed.split())
    assert {line.numeral for line in sheet.lines if line.numeral} <= set(printed.split())
