"""A hole plate on the pages: asked once, a job a circle, and led from each to the next."""

import re

import pytest
from starlette.testclient import TestClient

from tests.gear import BENCH_HEAD, BULL_WHEEL
from tests.web.asking import JSON, new_head, new_run, tap
from tests.web.test_parts import new_part

PLATE = {"plate": "4,6", "circle": "60mm", "hole": "3mm", "apart": "9mm"}


def finish(visitor: TestClient, run_id: int) -> None:
    rows = visitor.get(f"/runs/{run_id}?json").json()["of"]
    for row in range(rows):
        tap(visitor, run_id, "done", f"d{run_id}-{row}", row)


def test_a_plate_is_asked_once_and_becomes_a_job_a_circle(visitor: TestClient) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    answer = visitor.post(
        "/jobs/new/holes", data={"head": str(head_id), "name": "Plate", **PLATE}, headers=JSON
    )
    assert answer.json()["job_ids"] == [1, 2]
    told = visitor.get("/jobs/2?json").json()
    assert told["name"] == "Plate, circle 2 (4 holes)"
    assert [(one["job_id"], one["run"], one["finished"]) for one in told["together"]] == [
        (1, 1, False),
        (2, 2, False),
    ]
    page = visitor.get("/jobs/2").text
    assert "2 runs of one part" in page
    assert '<a href="/jobs/1">Circle 1 (6 holes)</a>' in page
    assert "circle 2 (4 holes): offset from the centre: 21.000 mm" in page
    assert "circle 2 is in hand" in page


def test_one_circle_may_be_asked_alone(visitor: TestClient) -> None:
    job_id = new_part(visitor, "holes", new_head(visitor, BENCH_HEAD), **PLATE, which="2")
    assert visitor.get(f"/jobs/{job_id}?json").json()["together"] == []
    assert len(visitor.get("/jobs?json").json()["jobs"]) == 1


def test_a_run_leads_on_to_the_next_circle_over_the_same_passes(visitor: TestClient) -> None:
    first = new_part(visitor, "holes", new_head(visitor, BENCH_HEAD), **PLATE)
    begun = visitor.post(f"/jobs/{first}/runs", data={"trace": "1"}, headers=JSON).json()
    run_id = begun["id"]
    assert "Circle 1 (6 holes): offset from the centre: 30.000 mm" in visitor.get(f"/runs/{run_id}").text
    tap(visitor, run_id, "began", "b", answer="yes", sure="1")
    assert "Go on to circle 2" not in visitor.get(f"/runs/{run_id}").text
    finish(visitor, run_id)
    page = visitor.get(f"/runs/{run_id}").text
    assert "Next: circle 2 (4 holes), of 2 runs." in page
    assert "Circle 2 (4 holes): offset from the centre: 21.000 mm" in page
    gone = visitor.post(f"/runs/{run_id}/next")
    assert gone.headers["Location"] == f"/runs/{run_id + 1}"
    following = visitor.get(f"/runs/{run_id + 1}?json").json()
    assert (following["job_id"], following["of"]) == (first + 1, 2 * (4 + 1))


def test_a_second_tap_goes_to_the_run_that_the_first_one_made(visitor: TestClient) -> None:
    first = new_part(visitor, "holes", new_head(visitor, BENCH_HEAD), **PLATE)
    run_id = new_run(visitor, first)
    finish(visitor, run_id)
    gone = [visitor.post(f"/runs/{run_id}/next", headers=JSON).json()["id"] for _ in range(2)]
    assert gone == [run_id + 1] * 2
    assert visitor.get(f"/jobs/{first + 1}?json").json()["run_ids"] == [run_id + 1]


def test_when_all_circles_are_done_it_says_so(visitor: TestClient) -> None:
    first = new_part(visitor, "holes", new_head(visitor, BENCH_HEAD), **PLATE)
    run_id = new_run(visitor, first)
    finish(visitor, run_id)
    run_id = new_run(visitor, first + 1)
    finish(visitor, run_id)
    assert "All 2 runs of this part are done." in visitor.get(f"/runs/{run_id}").text
    refused = visitor.post(f"/runs/{run_id}/next", headers=JSON)
    assert refused.status_code == 404
    assert "no further run to be made" in refused.json()["error"]["message"]


def test_the_workbench_shows_a_plate_as_one_card(visitor: TestClient) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    first = new_part(visitor, "holes", head_id, name="Plate", **PLATE)
    new_part(visitor, "flats", head_id, count="6", across_flats="17mm")
    page = visitor.get("/").text
    assert len(re.findall(r'<a href="/jobs/\d+">', page)) == 2
    assert f'<a href="/jobs/{first}">' in page
    assert "2 runs of one part, none done" in page
    finish(visitor, new_run(visitor, first))
    page = visitor.get("/").text
    assert f'<a href="/jobs/{first + 1}">' in page
    assert "2 runs of one part, 1 done" in page
    assert len(visitor.get("/?json").json()["jobs"]) == 3


@pytest.mark.parametrize(("line", "jobs"), [("", 2), ("which = 2", 1)])
def test_a_job_file_that_says_nothing_of_which_brings_every_circle(
    visitor: TestClient, line: str, jobs: int
) -> None:
    toml = f'[part]\nkind = "holes"\nplate = "4,6"\ncircle = "60mm"\nhole = "3mm"\n{line}'
    head_id = new_head(visitor, BENCH_HEAD)
    answer = visitor.post("/jobs/import", data={"toml": toml, "head": str(head_id)}, headers=JSON)
    assert len(answer.json()["job_ids"]) == jobs


def test_a_file_whose_head_cannot_make_one_circle_leaves_nothing_behind(visitor: TestClient) -> None:
    toml = f'[part]\nkind = "holes"\nplate = "6,7"\ncircle = "60mm"\nhole = "3mm"\n[head]{BULL_WHEEL}'
    toml = toml.replace("[[notched_wheels]]", "[[head.notched_wheels]]")
    answer = visitor.post("/jobs/import", data={"toml": toml}, headers=JSON)
    assert answer.status_code == 422
    assert "7 parts are no whole number of notches" in answer.text
    assert visitor.get("/heads?json").json()["heads"] == []
