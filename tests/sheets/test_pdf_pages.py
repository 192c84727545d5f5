"""The pages read back by other people's libraries: the text of every line, the boxes, what is where."""

import io
import re
import sys
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import combinations

import pypdf
import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crankwise.errors import MissingExtra
from crankwise.sheets.pdf_pages import PAPERS, Paper, pdf_bytes
from crankwise.sheets.pdf_pen import NO_LETTER, Pen
from crankwise.sheets.sheet import Sheet, sheet_of
from tests import graduated
from tests.gear import BENCH_HEAD
from tests.sheets.plans import every_run, half_marks_by_trying_all, plan, tide_ring

MM = 72 / 25.4


def texts(content: bytes) -> list[str]:
    """The text of each page, its words one space apart."""
    return [" ".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(content)).pages]


def run_sheet(kind: str) -> Sheet:
    planned, passes = every_run()[kind]
    return sheet_of(planned, kind, passes=passes)


def pages(content: bytes) -> Iterator[pypdfium2.PdfPage]:
    document = pypdfium2.PdfDocument(content)
    try:
        for page in document:
            yield page
            page.close()
    finally:
        document.close()


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("kind", every_run())
def test_every_line_is_printed_with_every_cell(kind: str, paper: Paper) -> None:
    sheet = run_sheet(kind)
    printed = " ".join(texts(pdf_bytes(sheet, paper)))
    for line in sheet.lines:
        cells = " ".join(f"{cell.text} {cell.small}" for cell in line.cells)
        assert " ".join(cells.split()) in printed
    assert sheet.ending in printed


def test_a_numeral_is_told_as_large_as_the_class_of_any_line() -> None:
    planned = replace(tide_ring(), part=graduated.tide_ring().part())
    content = pdf_bytes(sheet_of(planned, "Tide ring"))
    sizes: dict[str, set[float]] = {}
    for page in pypdf.PdfReader(io.BytesIO(content)).pages:
        page.extract_text(
            visitor_text=lambda text, _cm, _tm, _font, size: sizes.setdefault(text.strip(), set()).add(size)
        )
    assert sizes["numeral 11"] == sizes["short line"] == sizes["middle line"]


def test_every_reading_of_the_tide_ring_is_what_brute_force_says() -> None:
    printed = " ".join(texts(pdf_bytes(sheet_of(tide_ring(), "Tide ring"))))
    for position in range(1, 149):
        turns, reading = divmod(Fraction(half_marks_by_trying_all(position, 149, 72, 100), 2), 100)
        figure = str(reading) if reading.denominator == 1 else f"{int(reading)}.5"
        assert f" {position} {turns} {figure} " in printed


@pytest.mark.parametrize("paper", PAPERS)
def test_each_page_can_be_used_alone(paper: Paper) -> None:
    sheet = sheet_of(tide_ring(), "Tide ring")
    printed = texts(pdf_bytes(sheet, paper))
    assert len(printed) > 2
    for number, text in enumerate(printed, 1):
        assert f"page {number} of {len(printed)}" in text
        assert "Tide ring" in text
        assert "Bench head" in text
        assert "CLOCKWISE" in text
        assert "come up to" in text
        assert ("Page before ended at position" in text) == (number > 1)
        assert ("Page ends at position" in text) == (number < len(printed))
    assert "Page ends at position 14: 6 turns + 76.5. Next: position 15: 7 turns + 25." in printed[0]
    assert (
        "Page before ended at position 14: 6 turns + 76.5. Here first: position 15: 7 turns + 25."
        in printed[1]
    )


def test_a_page_that_goes_on_tells_the_setting_up_in_letters_that_can_be_read() -> None:
    """The way of a differential is long: it stands on two lines, and the direction comes first."""
    sheet = run_sheet("everything, differential")
    smallest: dict[str, float] = {}

    def seen(text: str, _cm: object, _tm: object, _font: object, size: float) -> None:
        smallest[text.strip()] = min(smallest.get(text.strip(), size), size)

    pypdf.PdfReader(io.BytesIO(pdf_bytes(sheet, "letter"))).pages[1].extract_text(visitor_text=seen)
    told = [text for text in smallest if len(text) > 20 and text in sheet.summary]
    assert " ".join(told) == sheet.summary
    assert "CLOCKWISE" in told[0]
    assert min(smallest[text] for text in told) > 8


def test_the_first_page_tells_what_must_be_known_before_the_first_cut() -> None:
    sheet = sheet_of(tide_ring(), "Tide ring")
    first = texts(pdf_bytes(sheet))[0]
    for text in (*(text for _, text in sheet.facts), *sheet.cautions, *sheet.before, "Date", "Signed"):
        assert text in first


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("kind", every_run())
def test_there_is_a_tick_box_for_every_pass_of_a_line_and_all_before_the_first_cut(
    kind: str, paper: Paper
) -> None:
    sheet = run_sheet(kind)
    squares = 0
    for page in pages(pdf_bytes(sheet, paper)):
        for drawn in page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_PATH]):
            left, bottom, right, top = drawn.get_bounds()
            squares += abs((right - left) - (top - bottom)) < 0.01
    assert squares == sum(len(one.lines) * len(one.ticks) for one in sheet.lists) + len(sheet.before)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("kind", every_run())
def test_no_text_runs_into_another_or_off_the_paper(kind: str, paper: Paper) -> None:
    for page in pages(pdf_bytes(run_sheet(kind), paper)):
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


@pytest.mark.parametrize("paper", PAPERS)
def test_the_paper_is_the_one_asked_for(paper: Paper) -> None:
    width, height = {"A4": (210 * MM, 297 * MM), "letter": (612, 792)}[paper]
    for page in pages(pdf_bytes(sheet_of(tide_ring(), "Tide ring"), paper)):
        assert page.get_size() == pytest.approx((width, height), abs=0.01)


def test_every_fifth_line_is_shaded_and_no_other() -> None:
    greys = {}
    for page in pages(pdf_bytes(sheet_of(plan(BENCH_HEAD, "dial", "9"), "Nine"))):
        picture = page.render(scale=4, grayscale=True).to_pil()
        text = page.get_textpage()
        for index in range(text.count_rects()):
            box = text.get_rect(index)
            label = "".join(text.get_text_bounded(*box).split())
            if 50 < box[0] < 110 and (label in "012345678" or label == "0=9"):
                # Just left of the figure, in line with its foot: nothing is printed there but the shade.
                greys[label] = picture.getpixel(
                    (int((box[0] - 2) * 4), int((page.get_height() - box[1]) * 4))
                )
        text.close()
    assert greys.keys() == {*map(str, range(9)), "0=9"}
    assert {label for label, grey in greys.items() if grey < 255} == {"0", "5"}


def test_every_page_tells_what_its_ticks_must_count_to() -> None:
    printed = texts(pdf_bytes(run_sheet("trace, rough, finish")))
    wanted = [int(found) for text in printed for found in re.findall(r"Wanted: (\d+) in each pass", text)]
    assert len(wanted) == len(printed)
    assert sum(wanted) == 149
    assert f"{wanted[-1]} in each pass, the last line left out." in printed[-1]
    assert (
        "Counted on the work: trace ______, rough ______, finish ______ (wanted: 149 lines)." in printed[-1]
    )


def test_a_list_of_each_pass_says_which_pass_it_is_and_where_the_page_before_ended() -> None:
    printed = texts(pdf_bytes(run_sheet("trace, then long lines first")))
    whole = " ".join(printed)
    for title in (
        "Trace, pass 1 of 4: 149 lines",
        "Every 10th, pass 2 of 4: 15 lines",
        "Every 5th but not every 10th, pass 3 of 4: 15 lines",
        "All but every 5th, pass 4 of 4: 119 lines",
    ):
        assert title in whole
    assert "Next: position 50 of pass 2: 96 turns + 16." in whole
    assert "5 = 154" in whole
    ticked = [int(found) for found in re.findall(r"Wanted: (\d+)", whole)]
    assert sum(ticked) == 149 + 15 + 15 + 119


def test_each_line_of_a_later_list_tells_the_angle_of_its_position() -> None:
    trace, long_lines, *_ = run_sheet("trace, then long lines first").lists
    by_label = {line.label: line for line in trace.lines}
    for line in long_lines.lines:
        assert line.figures["target"] == by_label[line.label].figures["target"]
        assert line.figures["dial"] == by_label[line.label].figures["dial"]


def test_the_same_run_gives_the_same_bytes() -> None:
    assert pdf_bytes(sheet_of(tide_ring(), "Tide ring")) == pdf_bytes(sheet_of(tide_ring(), "Tide ring"))


@pytest.mark.parametrize(
    ("name", "printed"),
    [
        ("Ring <script>alert(1)</script>", "Ring <script>alert(1)</script>"),
        ("Tide 👍 ring", f"Tide {NO_LETTER} ring"),
        ("a\tb\nc\x00d\u202ee", f"a b c{NO_LETTER}d{NO_LETTER}e"),
        ("\ud800", NO_LETTER),
        ("Ψηφίο Цифра Größe", "Ψηφίο Цифра Größe"),
    ],
)
def test_a_name_prints_and_what_cannot_be_printed_is_seen_to_be_missing(name: str, printed: str) -> None:
    assert printed in texts(pdf_bytes(sheet_of(plan(BENCH_HEAD, "dial", "3"), name)))[0]


def test_a_name_that_is_read_from_the_right_stands_so_on_paper() -> None:
    # The file holds letters from left to right as they are seen, so the last letter comes first.
    assert Pen(100, 100, "").clean("Ring של עולם 7") == "Ring םלוע לש 7"


@settings(max_examples=40)
@given(st.text(max_size=300))
def test_no_name_can_stop_a_sheet(name: str) -> None:
    sheet = sheet_of(plan(BENCH_HEAD, "dial", "3"), name)
    assert "page 1 of 1" in texts(pdf_bytes(sheet))[0]


def test_without_its_package_a_pdf_is_refused_in_one_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = sheet_of(tide_ring(), "Tide ring")
    monkeypatch.setitem(sys.modules, "reportlab.pdfgen.canvas", None)
    with pytest.raises(MissingExtra, match=r"PDF: its package is not installed; .*crankwise\[paper\]"):
        pdf_bytes(sheet)
