import pytest
from starlette.testclient import TestClient

from crankwise.web.preferences import Preferences, preferred, read_preferences


def test_what_is_written_is_read_back() -> None:
    for length in ("mm", "inch"):
        for angle in ("dms", "decimal"):
            chosen = Preferences(length, angle)
            assert read_preferences({"crankwise_units": chosen.written()}) == chosen


@pytest.mark.parametrize("cookie", ["", ".", "mm", "cubit.dms", "inch.decimal.more", "<script>"])
def test_a_cookie_that_makes_no_sense_is_as_good_as_none(cookie: str) -> None:
    read = read_preferences({"crankwise_units": cookie})
    assert read == preferred(read.length, read.angle)
    assert "<" not in read.written()


@pytest.mark.parametrize(
    ("back", "goes"),
    [
        ("/jobs/1", "/jobs/1"),
        ("", "/"),
        ("//evil.example", "/"),
        ("http://evil.example", "/"),
        ("/\\evil.example", "/"),
        ("/a\r\nX: y", "/"),
    ],
)
def test_it_goes_back_to_the_page_it_came_from_and_nowhere_else(
    demo: TestClient, back: str, goes: str
) -> None:
    answer = demo.post("/preferences", data={"length": "inch", "angle": "dms", "back": back})
    demo.cookies.clear()
    assert (answer.status_code, answer.headers["Location"]) == (303, goes)
    assert "HttpOnly" in answer.headers["Set-Cookie"]
