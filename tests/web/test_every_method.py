"""Every method there is can be chosen, put on the sheet and run: a new one must not break a page."""

import pytest
from starlette.testclient import TestClient

from crankwise.wording.ways import METHODS
from tests.web.asking import new_head, new_job, new_run, tap

RICH = """
name = "All the gear"
[worm]
wheel_teeth = 40
[dial]
marks = 90
read_to = "1/2"
[ring]
graduations = 360
read_to = "1/2"
[stepper]
steps = 3200
[[plates]]
circles = [15, 16, 17, 18, 19, 20]
[[plates]]
circles = [37, 39, 41, 43, 47, 49]
[[notched_wheels]]
notches = 60
[[notched_wheels]]
notches = 24
[change_gears]
teeth = [24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100]
"""
COUNTS = ("12", "59", "60", "77", "127")


def keys_by_method(visitor: TestClient, head_id: int) -> dict[str, tuple[int, str]]:
    """Return for each method a job that has it, and the way's key."""
    found: dict[str, tuple[int, str]] = {}
    for count in COUNTS:
        job_id = new_job(visitor, head_id, count=count, work="line")
        for way in visitor.get(f"/jobs/{job_id}?json").json()["ways"]:
            found.setdefault(way["method"], (job_id, way["key"]))
    return found


def test_every_method_can_be_chosen_put_on_the_sheet_and_run(visitor: TestClient) -> None:
    found = keys_by_method(visitor, new_head(visitor, RICH))
    assert {"direct", "plain", "dial", "nearest-hole", "ring", "compound", "two-circle"} <= set(found)
    assert set(found) <= set(METHODS)
    for method, (job_id, key) in found.items():
        assert visitor.post(f"/jobs/{job_id}/way", data={"way": key}).status_code == 303, method
        for path in (f"/jobs/{job_id}", f"/jobs/{job_id}/sheet"):
            page = visitor.get(path)
            assert page.status_code == 200, (method, path)
            assert len(page.content) < 200_000, (method, path)
        run_id = new_run(visitor, job_id)
        for row in range(3):
            page = visitor.get(f"/runs/{run_id}")
            assert page.status_code == 200, method
            assert 'id="reading"' in page.text, method
            assert "None" not in page.text, method
            assert tap(visitor, run_id, "done", f"{method}-{row}", row)["counted"] is True


@pytest.mark.parametrize("count", ["3", "49", "60"])
def test_a_wheel_alone_can_be_run(visitor: TestClient, count: str) -> None:
    toml = 'name = "Wheels"\n[[notched_wheels]]\nnotches = 60\n[[notched_wheels]]\nnotches = 49\n'
    run_id = new_run(visitor, new_job(visitor, new_head(visitor, toml), count=count), answer="")
    assert "the first notch" in visitor.get(f"/runs/{run_id}").text


def test_where_a_way_turns_back_first_the_arrow_does_too(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, RICH), count="59", work="line")
    keys = [way["key"] for way in visitor.get(f"/jobs/{job_id}?json").json()["ways"]]
    visitor.post(f"/jobs/{job_id}/way", data={"way": "two-circle:circles=(41, 49)"})
    assert "two-circle:circles=(41, 49)" in keys
    run_id = new_run(visitor, job_id)
    for row in range(3):
        assert 'aria-label="clockwise"' in visitor.get(f"/runs/{run_id}").text
        tap(visitor, run_id, "done", f"t{row}", row)
    assert visitor.get(f"/runs/{run_id}?json").json()["row"]["move"]["turns"] == -1
    page = visitor.get(f"/runs/{run_id}").text
    assert 'aria-label="anticlockwise"' in page
    assert 'aria-label="clockwise"' not in page
    assert "back first" in page
