"""Phones on the shop's network: in by a code, and nobody else. Driven on two loopback addresses."""

import json
import re
from collections.abc import Iterator
from http.client import HTTPConnection
from http.cookiejar import CookieJar
from pathlib import Path
from urllib.error import HTTPError
from urllib.parse import urlencode
from urllib.request import HTTPCookieProcessor, OpenerDirector, build_opener

import pytest
from starlette.testclient import TestClient

from crankwise.tasks.joining import Joining
from crankwise.web import create_app
from crankwise.web.door import COOKIE
from crankwise.web.guard import NOT_JOINED
from crankwise.web.routes import ROUTES
from crankwise.web.server import CannotListen, lan_socket
from tests.browser.serving import served

LAN = "127.0.0.2"


STRANGERS = [
    (f"http://{LAN}:8127", {}),
    ("http://shed.test:8127", {}),
    (f"http://{LAN}:8127", {"Host": "localhost:8127"}),
    (f"http://{LAN}:8127", {"Host": "127.0.0.1:8127", "X-Forwarded-For": "127.0.0.1"}),
    ("http://shed.test:8127", {"Cookie": f"{COOKIE}=a.b"}),
]
"""Addresses on the network that a phone may know the workshop by, and what it may claim of itself."""


@pytest.fixture
def joining(tmp_path: Path) -> Joining:
    kept = Joining(tmp_path)
    kept.found_at(LAN, 8127)
    return kept


@pytest.fixture
def phone(tmp_path: Path, joining: Joining) -> Iterator[TestClient]:
    app = create_app(
        tmp_path / "workshop.sqlite", demo=True, allowed_hosts=[LAN, "shed.test"], joining=joining
    )
    with TestClient(app, f"http://{LAN}:8127", follow_redirects=False) as client:
        yield client


def at_computer(phone: TestClient) -> TestClient:
    return TestClient(phone.app, "http://127.0.0.1:8127", follow_redirects=False)


def code_shown(phone: TestClient) -> str:
    link = at_computer(phone).get("/phones?json").json()["link"]
    return str(link).rpartition("code=")[2]


@pytest.mark.parametrize(
    "path", ["/", "/heads", "/jobs/1/sheet.pdf", "/runs/1.json", "/phones", "/nowhere", "/joint"]
)
def test_whoever_has_not_joined_is_told_how(phone: TestClient, path: str) -> None:
    answer = phone.get(path)

    assert answer.status_code == 403
    if not path.endswith("json"):
        assert "this phone has not joined the workshop" in answer.text
    assert "Tide" not in answer.text


def test_nothing_can_be_done_without_joining(phone: TestClient) -> None:
    answer = phone.post("/demo/drop", headers={"Accept": "application/json"})

    assert answer.status_code == 403
    assert answer.json()["error"]["message"] == NOT_JOINED
    assert "Slipway Shed" in at_computer(phone).get("/").text


@pytest.mark.parametrize(("address", "claims"), STRANGERS)
def test_no_route_at_all_is_open_to_a_stranger_on_the_network(
    phone: TestClient, address: str, claims: dict[str, str]
) -> None:
    stranger = TestClient(phone.app, address, headers=claims, follow_redirects=False)
    before = at_computer(phone).get("/jobs?json").json()
    asked = [
        (method, re.sub(r"{\w+}", "1", route.path))
        for route in ROUTES
        for method in ("GET", "HEAD", "POST")
        if route.path != "/join"
    ]
    for method, path in asked:
        answer = stranger.request(method, path, data={"name": "mine"} if method == "POST" else None)
        assert answer.status_code == 403, (method, path)
        assert "Tide" not in answer.text
        assert "set-cookie" not in answer.headers

    assert len(asked) > 100
    assert at_computer(phone).get("/jobs?json").json() == before
    assert "code=" not in stranger.get("/join").text


@pytest.mark.parametrize(
    "path", ["//", "/.", "/JOIN", "/join/", "/join/../", "/static", "/staticks/", "/%2e/heads"]
)
def test_no_way_of_writing_an_address_leads_past_the_door(phone: TestClient, path: str) -> None:
    answer = phone.get(f"http://{LAN}:8127{path}")

    assert answer.status_code in (403, 404)
    assert "Tide" not in answer.text


@pytest.mark.parametrize(
    "path", ["/static/../routes.py", "/static/%2e%2e/routes.py", "/static/..%2froutes.py"]
)
def test_the_files_that_all_may_have_are_those_alone(phone: TestClient, path: str) -> None:
    assert phone.get("/static/style.css").status_code == 200
    answer = phone.get(path)

    assert answer.status_code in (403, 404)
    assert "import" not in answer.text


def test_the_computer_itself_needs_no_code(phone: TestClient) -> None:
    assert at_computer(phone).get("/").status_code == 200


def test_a_phone_joins_by_the_code_and_stays_joined(phone: TestClient) -> None:
    code = code_shown(phone)
    asked = phone.get("/join", params={"code": code})
    assert asked.status_code == 200
    assert f'value="{code}"' in asked.text
    assert asked.text.count("<form") == 1, "one thing can be done by whoever is still outside"
    assert "<nav" not in asked.text
    assert phone.get("/").status_code == 403, "looking at the link lets nobody in"

    let_in = phone.post("/join", data={"code": code})
    assert let_in.status_code == 303
    assert re.search("httponly.*samesite=lax", let_in.headers["set-cookie"], re.IGNORECASE)
    assert phone.get("/").status_code == 200

    stranger = TestClient(phone.app, f"http://{LAN}:8127", follow_redirects=False)
    refused = stranger.post("/join", data={"code": code})
    assert refused.status_code == 422
    assert "This code has let a phone in and is used up" in refused.text
    assert stranger.get("/").status_code == 403


@pytest.mark.parametrize("code", ["used", "never-ours", ""])
def test_a_code_that_lets_nobody_in_says_so_and_shows_no_form(phone: TestClient, code: str) -> None:
    if code == "used":
        code = code_shown(phone)
        TestClient(phone.app, f"http://{LAN}:8127").post("/join", data={"code": code})
    for answer in (phone.get("/join", params={"code": code}), phone.post("/join", data={"code": code})):
        assert answer.status_code == 422
        assert "is used" in answer.text
        assert "go to Phones" in answer.text
        assert "<form" not in answer.text
        assert "set-cookie" not in answer.headers
        assert not code or code not in answer.text
    told = phone.get("/join", params={"code": code}, headers={"Accept": "application/json"})
    assert "scan the one that the workshop's computer shows now" in told.json()["error"]["message"]


def test_a_phone_that_is_in_is_told_so_and_uses_no_code_up(phone: TestClient) -> None:
    first = code_shown(phone)
    phone.post("/join", data={"code": first})
    for code in (first, code_shown(phone)):
        again = phone.get("/join", params={"code": code})
        assert again.status_code == 200
        assert "This phone has joined" in again.text
        assert "<nav" in again.text
        assert phone.post("/join", data={"code": code}).status_code == 303
    stranger = TestClient(phone.app, f"http://{LAN}:8127", follow_redirects=False)
    assert stranger.post("/join", data={"code": code_shown(phone)}).status_code == 303


def test_a_cookie_of_another_workshop_lets_nobody_in(phone: TestClient, tmp_path: Path) -> None:
    (tmp_path / "other").mkdir()
    other = Joining(tmp_path / "other")
    phone.cookies.set(COOKIE, other.join(other.code(0), 1))

    assert phone.get("/").status_code == 403


def test_a_phone_that_is_in_lets_nobody_else_in(phone: TestClient) -> None:
    phone.post("/join", data={"code": code_shown(phone)})
    page = phone.get("/phones")

    assert page.status_code == 200
    assert "code=" not in page.text
    assert "on the workshop's own computer only" in page.text.replace("&#39;", "'").replace("’", "'")
    assert phone.post("/phones/out").status_code == 404


def test_the_computer_shuts_all_phones_out(phone: TestClient) -> None:
    phone.post("/join", data={"code": code_shown(phone)})
    assert phone.get("/").status_code == 200
    assert at_computer(phone).post("/phones/out").status_code == 303
    assert phone.get("/").status_code == 403


def test_without_lan_the_page_says_how(demo: TestClient) -> None:
    assert "crankwise serve --lan" in demo.get("/phones").text
    refused = demo.post("/join", data={"code": "x"})
    assert refused.status_code == 404
    assert "crankwise serve --lan" in refused.text


def opener() -> OpenerDirector:
    return build_opener(HTTPCookieProcessor(CookieJar()))


def status(browser: OpenerDirector, address: str, data: dict[str, str] | None = None) -> int:
    try:
        with browser.open(address, urlencode(data).encode() if data else None, timeout=10) as answer:
            answer.read()
            return int(answer.status)
    except HTTPError as error:
        error.close()
        return int(error.code)


def claimed(address: str, port: int, host: str) -> int:
    """Ask for the workbench at an address under the name of another, and return the status."""
    asking = HTTPConnection(address, port, timeout=10)
    try:
        asking.request("GET", "/", headers={"Host": host})
        answer = asking.getresponse()
        answer.read()
        return answer.status
    finally:
        asking.close()


def test_served_on_two_addresses_and_found_again_after_a_restart(tmp_path: Path) -> None:
    mine, computer = opener(), opener()
    with served(tmp_path, "--demo", "--lan", "--host", LAN) as server:
        port = server.port
        assert server.address == f"http://127.0.0.1:{port}"
        assert status(computer, f"{server.address}/") == 200
        site = f"http://{LAN}:{port}"
        assert status(mine, f"{site}/") == 403
        assert claimed(LAN, port, f"127.0.0.1:{port}") == claimed(LAN, port, f"localhost:{port}") == 403
        assert claimed("127.0.0.1", port, f"127.0.0.1:{port}") == 200
        with computer.open(f"{server.address}/phones?json") as told:
            link = json.load(told)["link"]
        assert link.startswith(f"{site}/join?code=")
        assert status(mine, f"{site}/join", {"code": link.rpartition("=")[2]}) == 200
        assert status(mine, f"{site}/") == 200
    with served(tmp_path, "--lan") as again:
        assert again.port == port, "any free port was asked for, and the known one was free"
        assert status(mine, f"http://{LAN}:{port}/") == 200
        assert status(opener(), f"http://{LAN}:{port}/") == 403


def test_an_address_that_is_no_longer_ours_gives_way(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("crankwise.web.server.own_address", lambda: LAN)
    listening, address, port = lan_socket(("192.0.2.1", 8127), "", 0)
    with listening:
        assert (address, listening.getsockname()) == (LAN, (LAN, port))


@pytest.mark.parametrize("host", ["0.0.0.0", "::"])
def test_an_address_that_no_phone_can_open_is_refused(host: str) -> None:
    with pytest.raises(
        CannotListen, match="means every address of this computer, and a phone opens one of them"
    ):
        lan_socket(("", 0), host, 0)
