"""The page on JSON tells every key that a run, its card and the joining of phones answer with."""

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from crankwise.run.journal import Entry
from crankwise.tasks.joining import Joining
from crankwise.web import create_app
from crankwise.web.routes import ROUTES
from tests.cli.conftest import Typed, typed
from tests.docs.test_json_page import TOLD, keys
from tests.files.journal_writing import journal_text
from tests.web.asking import JSON

__all__ = ["typed"]  # the fixture that runs a command


@pytest.fixture
def page(tmp_path: Path) -> Iterator[TestClient]:
    """A visitor at the computer of a demo workshop that phones may join."""
    joining = Joining(tmp_path)
    joining.found_at("192.0.2.7", 8127)
    app = create_app(tmp_path / "workshop.sqlite", demo=True, allowed_hosts=["192.0.2.7"], joining=joining)
    with TestClient(app, "http://127.0.0.1:8127", follow_redirects=False) as client:
        yield client


def test_every_key_of_a_run_and_of_its_card_is_told(page: TestClient, typed: Typed, tmp_path: Path) -> None:
    begun = page.post("/jobs/1/runs", headers=JSON).json()["id"]
    run = page.get(f"/runs/{begun}.json").json()
    away = [
        {"kind": "began", "tap": "a", "at": 1, "numbers_grow": True},
        {"kind": "done", "tap": "b", "at": 2, "row": 0},
    ]
    taken = page.post(f"/runs/{begun}/taps", json={"taps": away}, headers=JSON).json()
    against = [
        {"kind": "back", "tap": "c", "at": 3, "row": 0},
        {"kind": "done", "tap": "d", "at": 4, "row": 7},
    ]
    conflict = page.post(f"/runs/{begun}/taps", json={"taps": against, "seen": 0}, headers=JSON).json()
    text = journal_text([Entry("done", "", 1.0, 0)], begun, run["schedule"], seen=1)
    looked = page.get(f"/runs/{begun}/bring", params={"journal": text}, headers=JSON).json()
    brought = page.post(f"/runs/{begun}/bring", data={"journal": text}, headers=JSON).json()
    card = typed(
        "pocket", str(begun), "--out", str(tmp_path / "card.html"), "--data", str(tmp_path), "--json"
    )
    state = run.pop("state") | {"bad": None}
    answers = [run, state, taken, conflict, looked, brought, json.loads(card.out)]

    assert conflict["conflicts"]
    assert sorted({key for answer in answers for key in keys(answer) if not key.isdecimal()} - TOLD) == []
    assert "check_why" in run["usual"], "rows are among what was asked"


def test_every_key_of_joining_is_told(page: TestClient) -> None:
    shown = page.get("/phones?json").json()
    joined = page.post("/join", data={"code": shown["link"].rpartition("code=")[2]}, headers=JSON).json()
    out = page.post("/phones/out", headers=JSON).json()

    assert {*keys(shown), *keys(joined), *keys(out)} == {"site", "link", "joined"} & TOLD
    assert "lan" in TOLD


def test_a_refusal_has_the_shape_that_is_told(page: TestClient) -> None:
    gone = page.get("/jobs/999?json")
    wrong = page.post("/heads/import", data={"toml": 'name = "x"\n[dial]\nmarks = 0\n'}, headers=JSON)

    for refused in (gone, wrong):
        told = refused.json()["error"]
        assert told["status"] == refused.status_code
        assert {*keys(refused.json())} <= TOLD
        assert [*told["faults"][0]] == ["place", "line", "message"]
    assert wrong.json()["error"]["faults"][0]["place"] == "dial.marks"


def test_every_key_of_every_page_is_told(page: TestClient) -> None:
    assert page.post("/jobs/1/runs", headers=JSON).status_code == 200
    ids = {"job_id": 1, "run_id": 1, "head_id": 1}
    asked, told = 0, {}
    for route in ROUTES:
        if "GET" in (route.methods or ()) and "measurement_id" not in route.path and route.path != "/about":
            answer = page.get(route.path.format(**ids), params={"json": ""}, headers=JSON)
            if "json" in answer.headers.get("content-type", ""):
                asked += 1
                told[route.path] = sorted({key for key in keys(answer.json()) if not key.isdecimal()} - TOLD)
    assert asked > 30
    assert {path: missing for path, missing in told.items() if missing} == {}
