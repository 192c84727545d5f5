"""The sheet for the wall read back by another library: every figure, how high it stands, what is where."""

import io
from collections import Counter
from itertools import combinations

import pypdf
import pypdfium2
import pytest
import zxingcpp

from crankwise.plan.plan import Plan
from crankwise.sheets.pdf_pages import PAPERS, Paper
from crankwise.sheets.sheet import Sheet, sheet_of
from crankwise.sheets.wall_sheet import laid_out, wall_sheet_bytes
from tests.gear import BENCH_HEAD, BULL_WHEEL
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
@pytest.mark.parametrize(("near", "meant"), [(False, 10), (True, 5)])
def test_a_setting_stands_a_two_hundredth_of_its_distance_high(paper: Paper, near: bool, meant: int) -> None:
    """Measured in the ink of the page, not from the size of the letters."""
    document = pypdfium2.PdfDocument(wall_sheet_bytes(sheet_of(tide_ring(), "Tide ring"), paper, near))
    text = document[0].get_textpage()
    head = document[0].get_height() - 35 * MM
    heights = []
    for index in range(text.count_chars()):
        if text.get_text_range(index, 1) in "147":  # flat at head and foot
            _, bottom, _, top = text.get_charbox(index)
            heights += [(top - bottom) / MM] if top < head else []
    high = [height for height in heights if 0.8 * meant < height < 1.2 * meant]
    assert len(high) > 20
    least = meant * laid_out(sheet_of(tide_ring(), ""), paper, near).shrunk
    assert least >= 0.95 * meant
    assert all(height == pytest.approx(least, abs=0.05) for height in high)
    document.close()


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("near", [False, True])
@pytest.mark.parametrize("kind", every_run())
def test_no_text_runs_into_another_or_off_the_paper(kind: str, near: bool, paper: Paper) -> None:
    document = pypdfium2.PdfDocument(wall_sheet_bytes(run_sheet(kind), paper, near))
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


def test_a_thousand_positions_to_be_read_from_one_metre_take_a_third_of_the_paper() -> None:
    sheet = sheet_of(plan(BENCH_HEAD, "dial", "1000"), "Long run")
    far, near = (-(-sheet.line_count // laid_out(sheet, "A4", near).on_a_page) for near in (False, True))
    assert near < far / 3
    printed = texts(wall_sheet_bytes(sheet, near=True))
    assert len(printed) == near
    assert "to be read from 1.0 m" in printed[0]


def test_every_page_leads_a_phone_to_the_run() -> None:
    link = "http://192.168.1.20:8127/runs/12"
    for near in (False, True):
        content = wall_sheet_bytes(sheet_of(tide_ring(), "Tide ring", link=link), near=near)
        document = pypdfium2.PdfDocument(content)
        for page in document:
            found = zxingcpp.read_barcodes(page.render(scale=3).to_pil())
            assert [code.text for code in found] == [link]
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
