import io
from fractions import Fraction
from pathlib import Path

import pypdf
import pypdfium2
import pytest
import zxingcpp
from starlette.testclient import TestClient

from crankwise.web import create_app
from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD
from tests.web.asking import new_head, new_job


def test_every_setting_is_counted_from_the_start_and_as_worked_out_by_hand(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="127", work="space")
    rows = visitor.get(f"/jobs/{job_id}/sheet?json").json()["rows"]
    assert len(rows) == 128
    for row in rows:
        halves = round(Fraction(row["row"] * 72 * 200, 127))
        assert (row["turns"], Fraction(row["reading"])) == (halves // 200, Fraction(halves % 200, 2))
    page = visitor.get(f"/jobs/{job_id}/sheet").text
    assert '<td>0</td><td class="set">56.5</td><td>2.83°</td>' in page
    assert '<tr class="closing"><th scope="row">0 = 127</th>' in page


def test_the_sheet_says_what_comes_first_and_what_ends_it(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="12", work="line")
    page = visitor.get(f"/jobs/{job_id}/sheet").text
    for words in ("CLOCKWISE", "Witness marks", "Trace pass", "POWER OFF", "Back at the beginning"):
        assert words in page


def test_an_exact_way_has_no_worst_position(visitor: TestClient) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    exact, near = (
        visitor.get(f"/jobs/{new_job(visitor, head_id, count=count, rim='200mm')}/sheet").text
        for count in ("60", "127")
    )
    assert "worst" not in exact.partition('<p class="lead">')[2].partition("</p>")[0]
    assert "· worst ±44.6&#34; (±21.6 µm" in near


@pytest.mark.parametrize(
    ("toml", "count", "cell"),
    [(PLATE_HEAD, "60", "15 circle"), (BULL_WHEEL, "12", "notch of 60"), (PLATE_HEAD, "127", "circle")],
)
def test_each_kind_of_way_heads_its_own_columns(
    visitor: TestClient, toml: str, count: str, cell: str
) -> None:
    job_id = new_job(visitor, new_head(visitor, toml), count=count)
    assert cell in visitor.get(f"/jobs/{job_id}/sheet").text


def test_a_thousand_rows_are_folded_into_small_pages(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="1000", rim="200mm")
    seen = []
    for number in range(1, 7):
        page = visitor.get(f"/jobs/{job_id}/sheet?page={number}")
        assert len(page.content) < 200_000
        assert f"page {number} of 6" in page.text
        seen += [row["row"] for row in visitor.get(f"/jobs/{job_id}/sheet?json&page={number}").json()["rows"]]
    assert seen == list(range(1001))


@pytest.mark.parametrize("page", ["0", "-1", "x", "99999999999", "7", ""])
def test_a_page_that_is_not_there_gives_the_nearest(visitor: TestClient, page: str) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="250")
    answer = visitor.get(f"/jobs/{job_id}/sheet?page={page}")
    assert answer.status_code == 200
    assert "of 2</span>" in answer.text


def test_angles_are_told_as_the_visitor_likes(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="127")
    assert "2°50&#39;4.7&#34;" in visitor.get(f"/jobs/{job_id}/sheet").text
    visitor.post("/preferences", data={"length": "mm", "angle": "decimal"})
    assert "2.8346°" in visitor.get(f"/jobs/{job_id}/sheet").text


@pytest.mark.parametrize(
    ("form", "starts"), [("csv", b"\xef\xbb\xbf"), ("pdf", b"%PDF-"), ("html", b"<!doctype html>")]
)
def test_the_files_are_handed_out(visitor: TestClient, form: str, starts: bytes) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="12", name="Bezel «12»")
    answer = visitor.get(f"/jobs/{job_id}/sheet.{form}")
    assert answer.status_code == 200
    assert answer.content.lower().startswith(starts.lower()) or form == "csv"
    assert answer.headers["Content-Disposition"] == f'attachment; filename="bezel-12.{form}"'


PASSES = "trace=1&cuts=two&rough_depth=1.5mm&finish_depth=2.25mm"


def test_the_passes_of_a_sheet_are_chosen_by_its_address(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="127", work="space")
    page = visitor.get(f"/jobs/{job_id}/sheet?{PASSES}").text
    assert "Passes: 1 trace; 2 roughing, 1.50 mm deep; 3 finishing, 2.25 mm deep." in page
    assert "each begins again at the first line of the list" in page
    assert "Counted: ________" not in page
    assert 'name="trace" value="1" checked' in page
    query = "?trace=1&amp;cuts=two&amp;rough_depth=1.5mm&amp;finish_depth=2.25mm"
    for form in ("pdf", "csv", "xlsx", "html"):
        assert f'href="/jobs/{job_id}/sheet.{form}{query}"' in page
    assert f'href="/jobs/{job_id}/sheet.pdf{query}&amp;wall=1"' in page
    told = visitor.get(f"/jobs/{job_id}/sheet?json&{PASSES}").json()
    assert [one["name"] for one in told["passes"]] == ["trace", "rough", "finish"]
    assert len(told["rows"]) == 128
    assert all(row["passes"] == [0, 1, 2] for row in told["rows"])


def test_lists_in_the_order_worked_follow_each_other_over_the_pages(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="149", work="line")
    passes = "order=lengths&lengths=10,5&trace=1"
    first = visitor.get(f"/jobs/{job_id}/sheet?{passes}").text
    assert "Trace, pass 1 of 4: 149 lines" in first
    assert "Every 5th but not every 10th, pass 3 of 4: 15 lines" in first
    assert '<tr class="closing"><th scope="row">5 = 154</th>' in first
    assert "?trace=1&amp;order=lengths&amp;lengths=10%2C5&amp;page=2" in first
    assert (
        "All but every 5th, pass 4 of 4: 119 lines (goes on)"
        in visitor.get(f"/jobs/{job_id}/sheet?{passes}&page=2").text
    )


def test_passes_that_make_no_sense_are_told_with_the_form_still_filled_in(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="149", work="line")
    answer = visitor.get(f"/jobs/{job_id}/sheet?order=spread&circuits=0<b>")
    assert answer.status_code == 422
    assert "circuits: &#39;0&lt;b&gt;&#39;; a whole number from 2 to 100" in answer.text
    assert 'value="0&lt;b&gt;"' in answer.text
    assert '<option value="spread" selected>' in answer.text
    assert "0 = 149" in answer.text
    assert visitor.get(f"/jobs/{job_id}/sheet.pdf?order=spread&circuits=x").status_code == 422
    assert visitor.get(f"/jobs/{job_id}/sheet?json&order=spread").status_code == 422


def test_the_sheet_of_a_run_has_the_passes_of_the_run(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="12", work="line", name="Bezel")
    begun = visitor.post(f"/jobs/{job_id}/runs", data={"trace": "1"}, follow_redirects=False)
    address = begun.headers["location"]
    assert f'href="{address}/sheet"' in _begun(visitor, address)
    page = visitor.get(f"{address}/sheet?order=spread").text
    assert "Passes: 1 trace; 2 lines." in page
    assert f'href="{address}/sheet.pdf"' in page
    assert "Show the sheet of these passes" not in page
    table = visitor.get(f"{address}/sheet.csv").text
    assert table.count("\r\n") == 1 + 2 * 13
    printed = " ".join(
        pypdf.PdfReader(io.BytesIO(visitor.get(f"{address}/sheet.pdf").content))
        .pages[0]
        .extract_text()
        .split()
    )
    assert "trace done position" in printed
    assert visitor.get("/runs/999/sheet").status_code == 404


def test_the_form_for_the_wall_is_a_pdf_of_its_own_name(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="12", name="Bezel")
    answer = visitor.get(f"/jobs/{job_id}/sheet.pdf?wall=1&paper=letter")
    assert answer.headers["Content-Disposition"] == 'attachment; filename="bezel-wall.pdf"'
    assert "to be read from" in pypdf.PdfReader(io.BytesIO(answer.content)).pages[0].extract_text()
    near = visitor.get(f"/jobs/{job_id}/sheet.pdf?wall=near")
    assert "read from 1.0 m" in pypdf.PdfReader(io.BytesIO(near.content)).pages[0].extract_text()
    refused = visitor.get(f"/jobs/{job_id}/sheet.csv?wall=1")
    assert refused.status_code == 422
    assert "the form for the wall is a PDF, not CSV" in refused.text


def test_the_code_on_a_runs_sheet_leads_to_that_run_and_on_a_jobs_to_its_last(tmp_path: Path) -> None:
    app = create_app(tmp_path / "workshop.sqlite", allowed_hosts=["shed.test"])
    with TestClient(app, "http://shed.test:8127", follow_redirects=False) as visitor:
        job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="12")
        assert _code(visitor, f"/jobs/{job_id}/sheet.pdf?trace=1") == f"http://shed.test:8127/jobs/{job_id}"
        first, last = (
            visitor.post(f"/jobs/{job_id}/runs", data={"cuts": cuts}).headers["location"]
            for cuts in ("", "two")
        )
        assert _code(visitor, f"{first}/sheet.pdf") == f"http://shed.test:8127{first}"
        assert _code(visitor, f"/jobs/{job_id}/sheet.pdf") == f"http://shed.test:8127{last}"


def _code(visitor: TestClient, address: str) -> str:
    """Return what a reader that is not ours reads from the first page."""
    document = pypdfium2.PdfDocument(visitor.get(address).content)
    [code] = zxingcpp.read_barcodes(document[0].render(scale=3).to_pil())
    document.close()
    return str(code.text)


def _begun(visitor: TestClient, address: str) -> str:
    tap = {"kind": "began", "tap": "a", "answer": "yes"}
    return visitor.post(f"{address}/taps", data=tap, follow_redirects=True).text
