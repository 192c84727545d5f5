from pathlib import Path

import pytest
from starlette.testclient import TestClient

from crankwise.web import create_app
from crankwise.web.guard import MOST_BYTES
from tests.gear import BENCH_HEAD


@pytest.mark.parametrize(
    "host", ["evil.example", "evil.example:8127", "127.0.0.1.evil.example", "", "127.0.0.2"]
)
def test_a_foreign_host_is_refused(demo: TestClient, host: str) -> None:
    answer = demo.get("/", headers={"Host": host})
    assert answer.status_code == 421
    assert "this server is not known by that name" in answer.text


@pytest.mark.parametrize("host", ["127.0.0.1", "localhost:9", "LOCALHOST", "[::1]:8127", "[::1]"])
def test_every_name_of_this_computer_is_let_in(demo: TestClient, host: str) -> None:
    assert demo.get("/about", headers={"Host": host}).status_code == 200


def test_a_name_that_was_allowed_is_let_in(tmp_path: Path) -> None:
    app = create_app(tmp_path / "w.sqlite", allowed_hosts=["Shed.local"])
    with TestClient(app, "http://shed.local:8127") as visitor:
        assert visitor.get("/").status_code == 200
        assert visitor.get("/", headers={"Host": "other.local"}).status_code == 421


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "http://evil.example"},
        {"Origin": "null"},
        {"Origin": "http://127.0.0.1:9999"},
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
    ],
)
def test_a_form_of_another_site_does_nothing(visitor: TestClient, headers: dict[str, str]) -> None:
    answer = visitor.post("/heads/import", data={"toml": BENCH_HEAD}, headers=headers)
    assert answer.status_code == 403
    assert "by a page of another site" in answer.text
    assert visitor.get("/heads?json").json() == {"heads": []}


def test_our_own_form_is_let_in(visitor: TestClient) -> None:
    headers = {"Origin": "http://127.0.0.1:8127", "Sec-Fetch-Site": "same-origin"}
    assert visitor.post("/heads/import", data={"toml": BENCH_HEAD}, headers=headers).status_code == 303


def test_too_large_a_body_is_refused_with_a_sentence(visitor: TestClient) -> None:
    answer = visitor.post("/heads/import", data={"toml": "x" * (MOST_BYTES + 1)})
    assert answer.status_code == 413
    assert "this is more than 1,000,000 bytes" in answer.text


def test_a_body_that_hides_its_length_is_counted_too(visitor: TestClient) -> None:
    def pieces() -> "object":
        for _ in range(30):
            yield b"toml=" + b"x" * 100_000

    answer = visitor.post(
        "/heads/import",
        content=pieces(),  # type: ignore[arg-type]  # a generator of bytes, which the client sends in pieces
        headers={"Content-Type": "application/x-www-form-urlencoded"},
    )
    assert answer.status_code == 413


@pytest.mark.parametrize("path", ["/", "/nowhere", "/static/style.css", "/jobs/1/sheet.csv"])
def test_every_answer_carries_the_headers(demo: TestClient, path: str) -> None:
    headers = demo.get(path).headers
    policy = headers["Content-Security-Policy"]
    assert policy.startswith("default-src 'none'")
    assert "unsafe" not in policy
    assert "frame-ancestors 'none'" in policy
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "same-origin"
    assert headers["Cache-Control"] in ("no-store", "no-cache")


def test_no_page_has_a_script_or_a_style_of_its_own(demo: TestClient) -> None:
    for path in ("/", "/heads/1", "/heads/1/edit", "/jobs/1", "/jobs/1/sheet", "/runs/1", "/about"):
        page = demo.get(path).text
        assert " style=" not in page
        assert "<style" not in page
        assert " onclick=" not in page
        assert "<script>" not in page
