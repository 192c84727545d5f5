"""The picture of a run's part: the position under the tool, in the page's colours."""

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
from starlette.testclient import TestClient

import crankwise.web

SVG = "{http://www.w3.org/2000/svg}"
TOOL = "#9d2312"
STYLE = Path(crankwise.web.__file__).parent / "static/style.css"


def drawn(demo: TestClient, query: str = "") -> ElementTree.Element:
    answer = demo.get(f"/runs/1/picture.svg{query}")
    assert answer.status_code == 200
    assert answer.headers["content-type"].startswith("image/svg+xml")
    return ElementTree.fromstring(answer.text)


def tools(picture: ElementTree.Element) -> list[str]:
    return [path.get("d", "") for path in picture.iter(f"{SVG}path") if path.get("fill") == TOOL]


def test_the_tool_stands_at_the_position_and_moves_with_it(demo: TestClient) -> None:
    assert tools(drawn(demo)) == []
    (first,), (later,) = tools(drawn(demo, "?position=0")), tools(drawn(demo, "?position=37"))
    assert first != later


def test_the_closing_row_meets_the_first_position(demo: TestClient) -> None:
    assert tools(drawn(demo, "?position=251")) == tools(drawn(demo, "?position=0"))


@pytest.mark.parametrize(
    ("typed", "told"),
    [("252", "this part has positions 0 to 250"), ("x", "a position is a whole number")],
)
def test_a_position_that_is_not_there_is_told(demo: TestClient, typed: str, told: str) -> None:
    answer = demo.get(f"/runs/1/picture.svg?position={typed}&json")
    assert 400 <= answer.status_code < 500
    assert told in answer.json()["error"]["message"]


def test_every_stroke_has_a_look_and_its_colours_are_those_of_the_page(demo: TestClient) -> None:
    picture = drawn(demo, "?position=37")
    assert [path.get("class") for path in picture.iter() if path.get("class") not in (None, "part")] == []
    used = set(re.findall(r"#[0-9a-f]{6}", ElementTree.tostring(picture, "unicode")))
    assert used <= set(re.findall(r"#[0-9a-f]{6}", STYLE.read_text(encoding="utf-8")))
