"""The picture of a run's part: the position under the tool, in the page's colours."""

import re
from html import unescape
from pathlib import Path
from xml.etree import ElementTree

import pytest
from starlette.testclient import TestClient

import crankwise.web
from crankwise.wording.cautions import DRILL
from tests.web.asking import JSON

SVG = "{http://www.w3.org/2000/svg}"
WHEEL, BEZEL = 3, 5
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
    [
        ("252", "this part has positions 0 to 250"),
        ("x", "a position is a whole number"),
        ("9" * 5000, "whole number"),
    ],
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


def test_the_jobs_page_has_the_tool_where_the_newest_run_stands(demo: TestClient) -> None:
    page = demo.get("/jobs/2").text
    assert 'class="tool"' in page
    assert "Position 177 is under the tool, as the newest run has it." in page
    assert 'class="tool"' not in demo.get("/jobs/3").text


def test_a_page_of_four_hundred_teeth_stays_light(own_demo: TestClient) -> None:
    made = own_demo.post("/jobs/new/spur", data={"head": "1", "teeth": "400", "module": "1"}, headers=JSON)
    page = own_demo.get(f"/jobs/{made.json()['id']}")
    assert page.status_code == 200
    assert "Gear of 400 teeth" in page.text
    assert len(page.content) < 300_000


def test_the_cautions_before_a_run_are_those_of_the_kind_of_part(own_demo: TestClient) -> None:
    told = {
        job: own_demo.get(f"/runs/{own_demo.post(f'/jobs/{job}/runs', headers=JSON).json()['id']}").text
        for job in (BEZEL, WHEEL)
    }
    assert DRILL in unescape(told[BEZEL])
    assert DRILL not in unescape(told[WHEEL])
