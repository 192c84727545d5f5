"""Every page opens for a person and for a program, small, and readable by a machine that reads aloud."""

from collections.abc import Iterator
from html.parser import HTMLParser

import pytest
from starlette.testclient import TestClient

PAGES = [
    "/",
    "/jobs",
    "/jobs/new",
    "/jobs/1",
    "/jobs/4",
    "/jobs/6",
    "/jobs/1/sheet",
    "/jobs/3/sheet",
    "/heads",
    "/heads/new",
    "/heads/import",
    "/heads/1",
    "/heads/2",
    "/heads/4",
    "/heads/1/edit",
    "/heads/2/edit",
    "/runs/1",
    "/about",
]
VOID = {"input", "meta", "link", "br", "img", "hr", "circle", "path", "rect"}


class Reader(HTMLParser):
    """Notes what an accessibility check asks for, and that every element is closed."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.ids: list[str] = []
        self.labelled: set[str] = set()
        self.controls: list[dict[str, str | None]] = []
        self.landmarks: list[str] = []
        self.headings: list[int] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if tag not in VOID:
            self.open.append(tag)
        if given.get("id"):
            self.ids.append(str(given["id"]))
        if tag == "label":
            self.labelled.add(str(given.get("for")))
        if tag in ("input", "select", "textarea") and given.get("type") != "hidden":
            self.controls.append({**given, "inside": "label" if "label" in self.open else None})
        if tag in ("main", "nav", "header", "footer"):
            self.landmarks.append(tag)
        if len(tag) == 2 and tag[0] == "h" and tag[1].isdigit():
            self.headings.append(int(tag[1]))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if dict(attrs).get("id"):
            self.ids.append(str(dict(attrs)["id"]))

    def handle_endtag(self, tag: str) -> None:
        assert self.open, f"</{tag}> closes nothing"
        assert self.open.pop() == tag, f"</{tag}> closes something else"


def read(page: str) -> Reader:
    reader = Reader()
    reader.feed(page)
    return reader


@pytest.mark.parametrize("path", PAGES)
def test_a_page_is_whole_small_and_can_be_read_aloud(demo: TestClient, path: str) -> None:
    answer = demo.get(path)
    assert answer.status_code == 200
    assert len(answer.content) < 200_000
    reader = read(answer.text)
    assert reader.open == []
    assert len(reader.ids) == len(set(reader.ids)), "an id stands twice"
    assert reader.landmarks.count("main") == 1
    assert {"nav", "header", "footer"} <= set(reader.landmarks)
    assert reader.headings[0] == 1
    assert reader.headings.count(1) == 1
    steps = zip(reader.headings, reader.headings[1:], strict=False)
    assert all(after - before <= 1 for before, after in steps), "a level of headings is left out"
    for control in reader.controls:
        named = control.get("id") in reader.labelled or control["inside"] == "label"
        assert named, f"{path}: no label for {control}"


@pytest.mark.parametrize("path", PAGES)
def test_the_same_answer_is_there_for_a_program(demo: TestClient, path: str) -> None:
    asked = demo.get(path, headers={"Accept": "application/json"})
    by_query = demo.get(f"{path}?json")
    assert asked.headers["Content-Type"] == "application/json"
    assert asked.json() == by_query.json()


def styles(demo: TestClient) -> Iterator[str]:
    yield demo.get("/static/style.css").text
    yield demo.get("/static/run.js").text
    yield demo.get("/static/head.js").text


def test_nothing_is_fetched_from_elsewhere(demo: TestClient) -> None:
    for text in (*styles(demo), *(demo.get(path).text for path in PAGES)):
        assert "http://" not in text.replace("http://www.w3.org/2000/svg", "")
        assert "https://" not in text


def test_a_page_cannot_be_left_through_the_static_folder(demo: TestClient) -> None:
    assert demo.get("/static/../app.py").status_code == 404
    assert demo.get("/static/%2e%2e/app.py").status_code == 404
