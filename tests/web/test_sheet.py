from fractions import Fraction

import pytest
from starlette.testclient import TestClient

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
