"""A job on a measured head: settings plain or corrected, on its page, in its file, on its sheet and in its runs."""

import re
from html import unescape

import pytest
from starlette.testclient import TestClient

from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD
from tests.plan.test_corrected import MEASURED, RING, STEPPER
from tests.web.asking import JSON, new_head, new_job, new_run

WORM = 'name = "Table"\n[worm]\nwheel_teeth = 90\n'
METHODS = [
    ("dial", BENCH_HEAD + MEASURED),
    ("nearest-hole", PLATE_HEAD + MEASURED),
    ("two-circle", PLATE_HEAD + MEASURED),
    ("stepper", WORM + STEPPER + RING + MEASURED),
]


def corrected_key(visitor: TestClient, job_id: int, method: str) -> str:
    ways = visitor.get(f"/jobs/{job_id}?settings=corrected&json").json()["ways"]
    assert all(":corrected=2026-03-14" in way["key"] for way in ways)
    return str(next(way["key"] for way in ways if way["method"] == method))


@pytest.mark.parametrize(("method", "toml"), METHODS)
def test_every_method_is_chosen_corrected_and_says_so_to_the_last_page(
    visitor: TestClient, method: str, toml: str
) -> None:
    job_id = new_job(visitor, new_head(visitor, toml), count="127", rim="150mm")
    plain = visitor.get(f"/jobs/{job_id}?json").json()
    assert (plain["settings"], plain["corrected"]) == ("plain", None)
    key = corrected_key(visitor, job_id, method)
    assert visitor.post(f"/jobs/{job_id}/way", data={"way": key}).status_code == 303
    page = unescape(visitor.get(f"/jobs/{job_id}").text)
    assert "Corrected by the errors measured on 2026-03-14" in page
    assert "What remains beside that" in page
    assert len(re.findall(r'<svg[^>]*class="head-errors"', page)) == 2
    answer = visitor.get(f"/jobs/{job_id}?json").json()
    assert answer["settings"] == "corrected"
    assert answer["corrected"]["after_arcsec"] < answer["corrected"]["before_arcsec"]
    assert len(answer["corrected"]["curve"]) == 127
    assert "corrected by the errors of 2026-03-14" in unescape(visitor.get(f"/jobs/{job_id}/sheet").text)
    sheet = unescape(visitor.get(f"/jobs/{job_id}/sheet").text)
    assert "every zero must be the one that the head was measured from" in sheet
    new = unescape(visitor.get(f"/runs/{new_run(visitor, job_id, None)}").text)
    assert "every zero must be the one that the head was measured from" in new
    assert "The ring cannot be set to 0" not in new
    assert "dial set to 0" not in new.lower()


def test_the_page_offers_both_and_shows_what_a_correction_would_do(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD + MEASURED), count="127")
    page = unescape(visitor.get(f"/jobs/{job_id}").text)
    assert 'aria-current="true">Plain settings' in page
    assert "corrected settings make it good" in page
    assert "Corrected by the errors" not in page
    shown = unescape(visitor.get(f"/jobs/{job_id}?settings=corrected").text)
    assert 'aria-current="true">Corrected for' in shown
    assert "Corrected by the errors measured on 2026-03-14" in shown
    assert visitor.get(f"/jobs/{job_id}?json").json()["settings"] == "plain"


def test_a_head_never_measured_offers_no_correction(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="127")
    page = visitor.get(f"/jobs/{job_id}").text
    assert "Corrected for" not in page
    assert "is not known until it is measured" in page
    refused = visitor.get(f"/jobs/{job_id}?settings=corrected")
    assert refused.status_code == 422
    assert "are not known; measure it" in unescape(refused.text)


def test_a_measured_wheel_without_a_fine_scale_says_why(visitor: TestClient) -> None:
    table = '[[calibrations]]\ndate = "2026-01-02"\ntable = [[0, 0], [90, 12.5]]\n'
    job_id = new_job(visitor, new_head(visitor, BULL_WHEEL + table), count="12")
    page = unescape(visitor.get(f"/jobs/{job_id}?settings=corrected").text)
    assert "this head has no dial, hole circle or stepper drive" in page
    assert "not every position falls" not in page


def test_a_corrected_job_goes_out_as_a_file_and_comes_in_again(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD + MEASURED), count="127", rim="150mm")
    key = corrected_key(visitor, job_id, "dial")
    visitor.post(f"/jobs/{job_id}/way", data={"way": key})
    file = visitor.get(f"/jobs/{job_id}/job.toml").text
    again = visitor.post("/jobs/import", data={"toml": file}, headers=JSON).json()
    assert again["way"]["key"] == key
    first, second = (visitor.get(f"/jobs/{one}/sheet?json").json()["rows"] for one in (job_id, again["id"]))
    assert first == second


def test_a_job_is_planned_again_on_the_head_as_it_is_now(visitor: TestClient) -> None:
    head_id = new_head(visitor, BENCH_HEAD + MEASURED)
    job_id = new_job(visitor, head_id, count="127")
    visitor.post(f"/jobs/{job_id}/way", data={"way": corrected_key(visitor, job_id, "dial")})
    run_id = new_run(visitor, job_id)
    run = visitor.get(f"/runs/{run_id}.json").json()
    later = BENCH_HEAD + MEASURED + MEASURED.replace("2026-03-14", "2026-06-01").replace("64.7", "30")
    visitor.post(f"/heads/{head_id}/edit", data={"as": "file", "toml": later})
    assert "The head has been changed or measured since" in visitor.get(f"/jobs/{job_id}").text
    job = visitor.get(f"/jobs/{job_id}?json").json()
    assert (job["head_is_other"], job["corrected"]["date"]) == (True, "2026-03-14")
    assert visitor.post(f"/jobs/{job_id}/head").status_code == 303
    job = visitor.get(f"/jobs/{job_id}?json").json()
    assert (job["head_is_other"], job["corrected"]["date"]) == (False, "2026-06-01")
    assert job["way"]["key"] == "dial:corrected=2026-06-01"
    assert visitor.get(f"/runs/{run_id}.json").json() == run


def test_planned_again_without_its_way_it_takes_the_best(visitor: TestClient) -> None:
    head_id = new_head(visitor, BENCH_HEAD + MEASURED)
    job_id = new_job(visitor, head_id, count="127")
    visitor.post(f"/jobs/{job_id}/way", data={"way": corrected_key(visitor, job_id, "dial")})
    visitor.post(f"/heads/{head_id}/edit", data={"as": "file", "toml": BENCH_HEAD})
    assert visitor.post(f"/jobs/{job_id}/head", headers=JSON).json()["way"]["key"] == "dial"
    visitor.post(f"/heads/{head_id}/drop")
    assert visitor.get(f"/jobs/{job_id}").status_code == 200
    assert visitor.post(f"/jobs/{job_id}/head").status_code == 404
