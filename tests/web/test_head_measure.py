"""A head is measured from its page: planned, brought, looked at, kept; and an old calibration comes back in force."""

import re
from html import unescape

import pytest
from starlette.testclient import TestClient

from crankwise.files.head_toml import read_head
from tests.gear import BENCH_HEAD, BULL_WHEEL
from tests.house.tracked import HOUSE
from tests.web.asking import JSON, new_head, new_job, new_run, tap

READINGS = (HOUSE / "examples/bench-readings.csv").read_text(encoding="utf-8")
CLOSURE = (HOUSE / "examples/bench-closure.csv").read_text(encoding="utf-8")


def head_of(visitor: TestClient, head_id: int) -> object:
    return read_head(visitor.get(f"/heads/{head_id}/head.toml").content)


def kept(visitor: TestClient, head_id: int, readings: str = READINGS, **typed: str) -> None:
    form = {"readings": readings, "date": "2026-03-14", "keep": "1", **typed}
    answer = visitor.post(f"/heads/{head_id}/readings", data=form)
    assert (answer.status_code, answer.headers["Location"]) == (303, f"/heads/{head_id}#calibrations")


def test_a_plan_says_what_to_set_and_is_a_file_to_fill_in(visitor: TestClient) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    page = visitor.get(f"/heads/{head_id}/measure?reference=indicator&points=30&reverse=1")
    assert page.status_code == 200
    text = unescape(page.text)
    assert "0 turns and 12 marks" in text
    assert "turning back" in text
    assert text.count('class="fill"') == 60
    (address,) = re.findall(r'href="(/heads/\d+/measure\.csv\?[^"]+)"', text)
    csv = visitor.get(address)
    assert csv.headers["Content-Disposition"] == 'attachment; filename="bench-head-indicator.csv"'
    assert csv.text.splitlines()[:2] == ["setting_deg,measured_deg,direction", "0,,forward"]
    assert len(csv.text.splitlines()) == 61
    answer = visitor.get(f"/heads/{head_id}/measure?reference=closure&json").json()
    assert answer["reference"] == "closure"
    assert len(answer["points"]) == answer["steps"] * answer["rounds"]


@pytest.mark.parametrize(
    ("query", "told"),
    [
        ("reference=indicator&points=4", "points: 4; 24 at least"),
        ("points=many", "points: 'many' is not a whole number"),
        ("reference=closure&reverse=1", "a closure run goes one way round"),
    ],
)
def test_a_plan_that_cannot_be_made_says_why_and_keeps_what_was_typed(
    visitor: TestClient, query: str, told: str
) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    page = visitor.get(f"/heads/{head_id}/measure?{query}")
    assert page.status_code == 422
    assert told in unescape(page.text)
    for typed in re.findall(r"points=(\w+)", query):
        assert f'value="{typed}"' in page.text
    assert visitor.get(f"/heads/{head_id}/measure.csv?{query}").status_code == 422


def test_a_plan_of_a_wheel_without_a_worm(visitor: TestClient) -> None:
    page = visitor.get(f"/heads/{new_head(visitor, BULL_WHEEL)}/measure?points=12")
    assert page.status_code == 200
    assert "notches" in page.text


def test_a_slide_is_not_measured_as_a_head_is(visitor: TestClient) -> None:
    slide = new_head(visitor, 'name = "Mill table"\n[slide]\nlead = "5mm"\n[dial]\nmarks = 100\n')
    assert "How far out it is" not in visitor.get(f"/heads/{slide}").text
    for answer in (
        visitor.get(f"/heads/{slide}/measure"),
        visitor.post(f"/heads/{slide}/readings", data={"readings": READINGS}),
    ):
        assert answer.status_code == 422
        assert "a slide, which turns nothing" in answer.text


def test_readings_are_shown_and_only_kept_when_asked(visitor: TestClient) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    before = head_of(visitor, head_id)
    form = {"readings": READINGS, "date": "2026-03-14", "reference": "index"}
    page = visitor.post(f"/heads/{head_id}/readings", data=form)
    assert page.status_code == 200
    text = unescape(page.text)
    assert "85.2" in text
    assert "Turned back, it stands 226.5" in text
    assert "F test" in text
    assert "Keep this calibration" in text
    assert "stays in force" not in text
    assert "--" not in re.sub(r"<!--.*?-->", "", text)
    assert head_of(visitor, head_id) == before
    hidden = dict(re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', page.text))
    assert (hidden["date"], hidden["reference"]) == ("2026-03-14", "index")
    kept(visitor, head_id, reference="index")
    now = visitor.get(f"/heads/{head_id}?json").json()["calibrations"]
    assert [(one["date"], one["reference"], one["in_force"]) for one in now] == [
        ("2026-03-14", "index", True)
    ]
    shown = unescape(visitor.get(f"/heads/{head_id}").text)
    assert "Measured on 2026-03-14" in shown
    assert "Against an index table, 72 readings." in shown


def test_keeping_twice_keeps_it_once(visitor: TestClient) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    kept(visitor, head_id)
    once = head_of(visitor, head_id)
    kept(visitor, head_id)
    assert head_of(visitor, head_id) == once
    page = visitor.post(f"/heads/{head_id}/readings", data={"readings": READINGS, "date": "2026-03-14"})
    assert "keeps this very calibration already" in page.text


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_a_file_is_sent_up_and_its_text_stays_in_the_form(visitor: TestClient, encoding: str) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    sent = {"file": ("run.csv", CLOSURE.encode(encoding), "text/csv")}
    page = visitor.post(f"/heads/{head_id}/readings", data={"date": "2026-01-05"}, files=sent)
    assert page.status_code == 200
    assert CLOSURE.strip() in unescape(page.text)
    assert "The gauge is 58.2" in unescape(page.text)


@pytest.mark.parametrize(
    ("form", "told"),
    [
        ({"readings": ""}, "readings: none; choose the file"),
        ({"readings": "setting_deg,measured_deg\n0,0\nx,1"}, "setting_deg (what was pasted, line 3): 'x'"),
        ({"readings": "setting_deg,measured_deg\n0,0\n9,9.001"}, "2 readings; too few"),
        ({"readings": READINGS, "date": "14.3.2026"}, "a date is written as 2026-03-14"),
        ({"readings": READINGS, "without": "4000"}, "without: line 4000"),
        ({"readings": READINGS, "reference": "ruler"}, "this is one of index"),
    ],
)
def test_readings_that_cannot_be_used_say_why_and_stay_in_the_form(
    visitor: TestClient, form: dict[str, str], told: str
) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    before = head_of(visitor, head_id)
    page = visitor.post(f"/heads/{head_id}/readings", data={"date": "2026-03-14", "keep": "1"} | form)
    assert page.status_code == 422
    assert told in unescape(page.text)
    assert form["readings"].strip() in unescape(page.text)
    refused = visitor.post(f"/heads/{head_id}/readings", data={"date": "2026-03-14"} | form, headers=JSON)
    assert refused.status_code == 422
    assert told.partition(" (what")[0] in refused.text.replace('\\"', '"')
    assert head_of(visitor, head_id) == before


def test_what_stands_out_is_named_marked_and_fitted_and_left_out_only_by_its_owner(
    visitor: TestClient,
) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    lines = READINGS.splitlines()
    (at,) = (index for index, line in enumerate(lines) if re.match(r"87\.25,.*forward", line))
    setting, measured, way = lines[at].split(",")
    lines[at] = f"{setting},{float(measured) + 40 / 3600:.5f},{way}"
    form = {"readings": "\n".join(lines), "date": "2026-03-14"}
    page = unescape(visitor.post(f"/heads/{head_id}/readings", data=form).text)
    assert f"Line {at + 1} stands out" in page
    assert f"leave it out (without {at + 1})" in page
    assert "72 readings" in page
    assert page.count("reading wrong") == 1
    kept(visitor, head_id, **form, without=str(at + 1))
    (now,) = visitor.get(f"/heads/{head_id}?json").json()["calibrations"]
    assert (now["readings"], now["left_out"]) == (71, 1)
    assert "71 readings, 1 more left out" in visitor.get(f"/heads/{head_id}").text


def test_an_old_calibration_is_shown_and_put_in_force_again(visitor: TestClient) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    kept(visitor, head_id)
    kept(visitor, head_id, CLOSURE, date="2026-06-02")
    page = visitor.get(f"/heads/{head_id}").text
    assert "Measured on 2026-06-02" in page
    assert "Measured on 2026-03-14" in visitor.get(f"/heads/{head_id}?calibration=1").text
    answer = visitor.post(f"/heads/{head_id}/in-force", data={"calibration": "1"}, headers=JSON)
    assert [one["in_force"] for one in answer.json()["calibrations"]] == [True, False]
    assert "Measured on 2026-03-14" in visitor.get(f"/heads/{head_id}").text
    file = visitor.get(f"/heads/{head_id}/head.toml").text
    again = new_head(visitor, file)
    assert visitor.get(f"/heads/{again}/head.toml").text == file
    for wrong in ("3", "0", "x", ""):
        assert visitor.post(f"/heads/{head_id}/in-force", data={"calibration": wrong}).status_code in (
            404,
            422,
        )
    assert visitor.get(f"/heads/{head_id}?calibration=9").status_code == 404


def test_a_mistaken_calibration_is_dropped_once_its_file_lies_safe(visitor: TestClient) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    before = visitor.get(f"/heads/{head_id}/head.toml").text
    kept(visitor, head_id)
    kept(visitor, head_id, CLOSURE, date="2026-06-02")
    both = visitor.get(f"/heads/{head_id}/head.toml").text
    page = visitor.get(f"/heads/{head_id}").text
    assert "Drop the calibration of 2026-06-02" in page
    assert f'href="/heads/{head_id}/head.toml">Keep the head file (TOML)' in page
    shown = visitor.get(f"/heads/{head_id}?json").json()["calibrations"]
    wanted = {"calibration": "2", "mark": shown[1]["mark"]}
    address = f"/heads/{head_id}/drop-calibration"
    refused = visitor.post(address, data=wanted)
    assert refused.status_code == 422
    assert "nothing was dropped; keep the head file first" in refused.text
    sure = wanted | {"sure": "1"}
    now = visitor.post(address, data=sure, headers=JSON).json()["calibrations"]
    assert [(one["date"], one["in_force"]) for one in now] == [("2026-03-14", True)]
    assert visitor.post(address, data=sure).status_code == 404
    stale = visitor.post(address, data=sure | {"calibration": "1"}, headers=JSON)
    assert stale.status_code == 422
    (fault,) = stale.json()["error"]["faults"]
    assert fault["place"] == "calibration"
    assert fault["message"].startswith("1; the head has changed since this was shown")
    last = {"calibration": "1", "mark": now[0]["mark"], "sure": "1"}
    visitor.post(address, data=last)
    assert visitor.get(f"/heads/{head_id}/head.toml").text == before
    again = new_head(visitor, both)
    assert len(visitor.get(f"/heads/{again}?json").json()["calibrations"]) == 2


def test_readings_taken_earlier_are_kept_and_do_not_take_over(visitor: TestClient) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    kept(visitor, head_id)
    form = {"readings": CLOSURE, "date": "2025-11-02"}
    assert (
        "one of 2026-03-14, measured later, stays in force"
        in visitor.post(f"/heads/{head_id}/readings", data=form).text
    )
    kept(visitor, head_id, **form)
    now = visitor.get(f"/heads/{head_id}?json").json()["calibrations"]
    assert [one["in_force"] for one in now] == [True, False]


def test_a_calibration_never_changes_a_run_in_progress(visitor: TestClient) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    job_id = new_job(visitor, head_id, count="127")
    run_id = new_run(visitor, job_id)
    tap(visitor, run_id, "done", "d0", 0)
    before = visitor.get(f"/runs/{run_id}?json").json()
    job = visitor.get(f"/jobs/{job_id}?json").json()
    kept(visitor, head_id)
    after = visitor.get(f"/runs/{run_id}?json").json()
    assert after == before
    assert visitor.get(f"/jobs/{job_id}?json").json()["way"] == job["way"]
    assert visitor.post(f"/jobs/{job_id}/head").status_code == 303
    ways = visitor.get(f"/jobs/{job_id}?settings=corrected&json").json()["ways"]
    assert visitor.post(f"/jobs/{job_id}/way", data={"way": ways[0]["key"]}).status_code == 303
    assert visitor.get(f"/runs/{run_id}?json").json() == before
