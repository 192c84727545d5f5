"""Every route says no in one shape: as a page for a person, as one object for a program."""

import pytest
from starlette.routing import Route
from starlette.testclient import TestClient

from crankwise.web.routes import ROUTES
from tests.web.asking import JSON

SHAPE = {"status", "message", "faults"}


def refused(answer_json: object, status: int) -> str:
    """Check the shape of an error, and return its message."""
    assert isinstance(answer_json, dict)
    assert set(answer_json) == {"error"}
    error = answer_json["error"]
    assert set(error) == SHAPE
    assert error["status"] == status
    assert error["faults"]
    for fault in error["faults"]:
        assert set(fault) == {"place", "line", "message"}
    return str(error["message"])


def addresses() -> list[tuple[str, str]]:
    """Every address with numbers that name nothing, and a method it does not answer."""
    found = []
    for route in ROUTES:
        path = route.path.format(job_id="987654", run_id="987654", head_id="987654", measurement_id="987654")
        found.append((path, "DELETE"))
    return found


@pytest.mark.parametrize(("path", "method"), addresses())
def test_a_method_that_is_not_answered(demo: TestClient, path: str, method: str) -> None:
    answer = demo.request(method, path, headers=JSON)
    assert refused(answer.json(), 405) == "this address answers, but not to that kind of request"


@pytest.mark.parametrize("route", [one for one in ROUTES if "{" in one.path], ids=lambda route: route.path)
@pytest.mark.parametrize("number", ["987654", "x", "-1", "9" * 40, "1.0", "%00", "٣"])
def test_what_is_not_there(demo: TestClient, route: Route, number: str) -> None:
    path, methods = route.path, (route.methods or set()) - {"HEAD"}
    for method in methods:
        address = path.format(job_id=number, run_id=number, head_id=number, measurement_id=number)
        form = {"kind": "done", "tap": "t", "row": "0", "way": "dial", "name": "n", "as": "form"}
        answer = demo.request(method, address, headers=JSON, data=form if method == "POST" else None)
        assert refused(answer.json(), 404)


def test_no_such_page(demo: TestClient) -> None:
    assert "there is no page" in refused(demo.get("/nowhere?json").json(), 404)
    page = demo.get("/nowhere")
    assert page.status_code == 404
    assert "there is no page at this address" in page.text


def test_the_guard_says_no_in_the_same_shape(demo: TestClient) -> None:
    refused(demo.get("/?json", headers={"Host": "evil.example"}).json(), 421)
    refused(demo.post("/demo/drop?json", headers={"Origin": "http://evil.example"}).json(), 403)
    refused(demo.post("/heads/import?json", data={"toml": "x" * 1_100_000}).json(), 413)


def test_a_form_that_is_wrong_says_so_in_the_same_shape(demo: TestClient) -> None:
    for path, form in [
        ("/heads/new", {"as": "form", "name": ""}),
        ("/heads/import", {"toml": "["}),
        ("/jobs/new", {"head": "1", "count": "0"}),
        ("/jobs/new", {"head": "", "count": "9"}),
        ("/jobs/1/name", {"name": " "}),
        ("/runs/1/taps", {"kind": "sideways", "tap": "t"}),
        ("/runs/1/taps", {"kind": "done", "tap": "t", "row": "-3"}),
        ("/runs/1/taps", {"kind": "done", "tap": "t", "row": "3", "at": "noon"}),
        ("/runs/1/taps", {"kind": "done", "tap": "t", "row": "3", "at": "nan"}),
        ("/runs/1/taps", {"kind": "done", "tap": "", "row": "3"}),
        ("/runs/1/taps", {"kind": "done", "tap": "t", "row": "99999"}),
    ]:
        answer = demo.post(path, data=form, headers=JSON)
        assert answer.status_code == 422, (path, form, answer.text)
        refused(answer.json(), 422)


def test_a_body_that_is_no_form(demo: TestClient) -> None:
    answer = demo.post(
        "/heads/import?json",
        content=b"--x\r\nbad",
        headers={"Content-Type": "multipart/form-data; boundary=y"},
    )
    refused(answer.json(), 400)


def test_one_thing_typed_is_told_at_its_place(demo: TestClient) -> None:
    answer = demo.post("/jobs/new", data={"head": "1", "count": "12", "within": "5"}, headers=JSON)
    message = refused(answer.json(), 422)
    (fault,) = answer.json()["error"]["faults"]
    assert fault["place"] == "within"
    assert f"within: {fault['message']}" == message


def test_a_page_names_no_option_of_a_command(demo: TestClient) -> None:
    typed = {"head": "1", "count": "12", "within": "20um"}
    page, answer = demo.post("/jobs/new", data=typed), demo.post("/jobs/new", data=typed, headers=JSON)
    assert "needs the rim&#39;s diameter too, as rim 200mm" in page.text
    assert "too, as rim 200mm" in refused(answer.json(), 422)
    assert "--" not in answer.json()["error"]["faults"][0]["message"]
