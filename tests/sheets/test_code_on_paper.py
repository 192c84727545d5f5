"""The code on the run sheet, read back from paper and page by a reader that is not ours."""

import pypdfium2
import pytest
import zxingcpp

from crankwise.sheets.html_page import html_bytes
from crankwise.sheets.pdf_pages import PAPERS, Paper, pdf_bytes
from crankwise.sheets.sheet import sheet_of
from tests.sheets.plans import every_kind, tide_ring

LINK = "http://shed.local:8127/runs/3"


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("kind", ["dial", "plain", "one position", "compound"])
def test_the_code_on_paper_leads_back_to_the_run(kind: str, paper: Paper) -> None:
    document = pypdfium2.PdfDocument(pdf_bytes(sheet_of(every_kind()[kind], "Tide ring", link=LINK), paper))
    found = zxingcpp.read_barcodes(document[0].render(scale=3).to_pil())

    assert [code.text for code in found] == [LINK]


def test_a_sheet_without_an_address_has_no_code() -> None:
    document = pypdfium2.PdfDocument(pdf_bytes(sheet_of(tide_ring(), "Tide ring")))

    assert zxingcpp.read_barcodes(document[0].render(scale=3).to_pil()) == []
    assert b"<svg" not in html_bytes(sheet_of(tide_ring(), "Tide ring"))


def test_the_page_to_print_has_the_code_too() -> None:
    page = html_bytes(sheet_of(tide_ring(), "Tide ring", link=LINK)).decode()

    assert f'aria-label="{LINK}"' in page
    assert page.count("<svg") == 1
