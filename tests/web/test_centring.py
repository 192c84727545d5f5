import re
from html import unescape

import pytest
from starlette.testclient import TestClient

FOUR = "0:0.00, 90:0.03, 180:0.05, 270:0.02"
SIX = "359.96:180.04, 60:240, 120.04:299.96, 180.04:359.96, 240:60, 299.96:120.04"


def asked(visitor: TestClient, **query: str) -> tuple[int, str]:
    answer = visitor.get("/centring", params=query)
    return answer.status_code, unescape(answer.text)


def test_an_empty_form_asks_and_says_nothing_yet(visitor: TestClient) -> None:
    status, page = asked(visitor)
    assert status == 200
    assert "What the readings say" not in page
    assert "to mend" not in page


def test_an_indicator_tells_how_far_and_which_screw(visitor: TestClient) -> None:
    status, page = asked(visitor, by="indicator", readings=FOUR, screws="0, 90, 180, 270")
    assert status == 200
    assert "Off centre by 0.025 mm ±0.004 mm" in page
    assert "at 180°: 0.025 mm in" in page
    assert "its centre off towards 169°; it is moved towards 349°" in page
    assert f"\n{FOUR}</textarea>" in page
    answer = visitor.get("/centring", params={"by": "indicator", "readings": FOUR, "json": "1"}).json()
    assert answer["offset_mm"] == pytest.approx(0.0254951)


def test_two_pointers_tell_the_settings_and_the_offset(visitor: TestClient) -> None:
    status, page = asked(visitor, by="pointers", pointers=SIX, diameter="120mm")
    assert status == 200
    assert "It stands out most at 60°" in page
    assert "an indicator on it would swing 0.097 mm in all" in page
    assert len(re.findall(r"<td class=\"whole\">144\.0\"</td>", page)) == 2
    answer = visitor.get(
        "/centring", params={"by": "pointers", "pointers": SIX, "diameter": "120", "json": "1"}
    )
    assert answer.json()["direction_deg"] == pytest.approx(60)
    status, page = asked(visitor, by="pointers", pointers=SIX)
    assert status == 200
    assert "with its diameter, and 3 settings or more" in page
    assert '<svg viewBox="-178' not in page


@pytest.mark.parametrize(
    ("query", "told"),
    [
        ({"by": "indicator", "readings": ""}, "readings: none; write 3 or more"),
        ({"by": "indicator", "readings": "0:0, 90"}, "reading 2: '90'"),
        ({"by": "indicator", "readings": "0:0, 90:1"}, "at 2 different angles; 3 at least"),
        ({"by": "indicator", "readings": FOUR, "diameter": "wide"}, "diameter"),
        ({"by": "indicator", "readings": FOUR, "screws": "x"}, "'x'"),
        ({"by": "pointers", "pointers": ""}, "pointers: none"),
        ({"by": "pointers", "pointers": "0:180, 9"}, "setting 2"),
    ],
)
def test_what_is_wrong_is_told_and_stays_in_the_form(
    visitor: TestClient, query: dict[str, str], told: str
) -> None:
    status, page = asked(visitor, **query)
    assert status == 422
    assert told in page
    assert "What the readings say" not in page
    for typed in query.values():
        assert typed in page


def test_inches_are_asked_where_they_come_first(visitor: TestClient) -> None:
    visitor.cookies.set("crankwise_units", "inch.dms")
    _, page = asked(visitor)
    assert '<option value="thou" selected>' in page
