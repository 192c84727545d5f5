"""The run: one tap a position, whatever the network and the fingers do."""

import re
from fractions import Fraction
from itertools import pairwise

import pytest
from starlette.testclient import TestClient

from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD, ROUND_TABLE
from tests.web.asking import FRAGMENT, JSON, form_of, new_head, new_job, new_run, tap

WITHOUT_SCALE = 'name = "Plain head"\n[worm]\nwheel_teeth = 40\n[[plates]]\ncircles = [15, 21]'


def begun(visitor: TestClient, toml: str = BENCH_HEAD, **typed: str) -> int:
    return new_run(
        visitor, new_job(visitor, new_head(visitor, toml), **{"count": "127", "work": "space", **typed})
    )


def test_it_begins_with_the_direction_as_a_question(visitor: TestClient) -> None:
    run_id = new_run(visitor, new_job(visitor, new_head(visitor, BENCH_HEAD), count="127"), answer=None)
    page = visitor.get(f"/runs/{run_id}").text
    assert (
        "Turn the crank clockwise, as you stand at it. Does the number under the index line of the dial grow?"
        in page
    )
    assert "mark across the wheel and its spindle, across the work and its arbor" in page
    assert 'id="done"' not in page


def test_a_head_without_a_scale_asks_only_to_mark_the_way(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, WITHOUT_SCALE), count="60")
    run_id = new_run(visitor, job_id, answer=None)
    assert "mark it with an arrow" in visitor.get(f"/runs/{run_id}").text
    assert tap(visitor, run_id, "began", "b", answer="")["turn"] == "clockwise"


def test_an_answer_against_the_description_is_asked_once_more(visitor: TestClient) -> None:
    run_id = new_run(visitor, new_job(visitor, new_head(visitor, BENCH_HEAD), count="127"), answer=None)
    form = form_of(visitor.get(f"/runs/{run_id}").text, "began") | {"answer": "no"}
    doubted = visitor.post(f"/runs/{run_id}/taps", data=form)
    assert doubted.status_code == 200
    assert "you saw the opposite" in doubted.text
    assert visitor.get(f"/runs/{run_id}?json").json()["began"] is False
    sure = form_of(doubted.text, "began")
    assert visitor.post(f"/runs/{run_id}/taps", data=sure).status_code == 303
    stands = visitor.get(f"/runs/{run_id}?json").json()
    assert (stands["turn"], stands["disagrees"]) == ("anticlockwise", True)
    assert "went against the head" in visitor.get(f"/runs/{run_id}").text


def test_one_position_is_shown_so_that_it_cannot_be_misread(visitor: TestClient) -> None:
    run_id = begun(visitor)
    tap(visitor, run_id, "done", "t0", 0)
    page = visitor.get(f"/runs/{run_id}").text
    for words in (
        '<p class="value len-4" id="reading">56.5</p>',
        "between 50 and 60: 6.5 past 50",
        "whole turns",
        "0 turns + 56.5",
        "2.83°",
        "Cut the space.",
        "Gone past?",
        "unlock",
        "<b>1</b> of 128 done",
        "come up to 13",
        "The dial at 56.5, between 50 and 60; the larger numbers lie to the left",
    ):
        assert words in page, words


def reading_on(page: str) -> Fraction:
    """Return what the page says to come up to on the dial."""
    shown = re.search(r'id="reading">([\d.]+)<', page)
    assert shown is not None
    return Fraction(shown[1])


def test_the_whole_run_without_script_by_its_own_forms(visitor: TestClient) -> None:
    """Each page's own Done form, to the end; every reading re-derived here from 72 x 100 half marks."""
    run_id = begun(visitor, count="127", work="line")
    asked: list[int] = []
    gone_back: list[int] = []

    def after(page: str, kind: str) -> str:
        answer = visitor.post(f"/runs/{run_id}/taps", data=form_of(page, kind))
        assert (answer.status_code, answer.headers["Location"]) == (303, f"/runs/{run_id}")
        return visitor.get(f"/runs/{run_id}").text

    page = visitor.get(f"/runs/{run_id}").text
    for row in range(127):
        if "Does the tool fall into the first line?" in page:
            assert reading_on(page) == 0, "the first line's own"
            page = after(page, "returned")
            gone_back.append(row)
        halves = round(Fraction(row * 72 * 200, 127))
        assert reading_on(page) == Fraction(halves % 200, 2)
        if "It shows" in page:
            page = after(page, "ring")
            asked.append(row)
        page = after(page, "done")
    assert "It shows" in page
    asked.append(127)
    page = after(page, "ring")
    assert "Motor isolated: the tool must fall in the first line." in page
    assert "0 = 127" in page
    assert reading_on(page) == 0
    page = after(page, "returned")  # which ends the closing row too
    assert max(after - before for before, after in pairwise([0, *asked])) <= 25
    assert gone_back == [64]
    assert "All 127 lines are done, and the last move came back to the first." in page
    visitor.post(f"/runs/{run_id}/taps", data=form_of(page, "back"))
    assert visitor.get(f"/runs/{run_id}?json").json()["done"] == 127


def test_a_repeated_and_a_late_tap_skip_nothing(visitor: TestClient) -> None:
    run_id = begun(visitor)
    assert tap(visitor, run_id, "done", "a", 0)["counted"] is True
    assert tap(visitor, run_id, "done", "a", 0)["counted"] is False
    assert tap(visitor, run_id, "done", "b", 0)["counted"] is False
    assert tap(visitor, run_id, "done", "c", 5)["counted"] is False
    assert visitor.get(f"/runs/{run_id}?json").json()["done"] == 1


def test_a_tap_that_was_long_delayed_never_completes_a_reopened_row(visitor: TestClient) -> None:
    run_id = begun(visitor)
    late = form_of(visitor.get(f"/runs/{run_id}").text, "done")
    tap(visitor, run_id, "done", "other", 0)
    tap(visitor, run_id, "back", "again", 0)
    answer = visitor.post(f"/runs/{run_id}/taps", data=late, headers=FRAGMENT)
    assert answer.status_code == 200
    assert visitor.get(f"/runs/{run_id}?json").json()["done"] == 0


def test_a_fragment_is_the_next_position_and_nothing_else(visitor: TestClient) -> None:
    run_id = begun(visitor)
    form = form_of(visitor.get(f"/runs/{run_id}").text, "done")
    answer = visitor.post(f"/runs/{run_id}/taps", data=form, headers=FRAGMENT)
    assert 'id="reading">56.5<' in answer.text
    assert "<html" not in answer.text
    assert "moved on" not in answer.text
    repeated = visitor.post(f"/runs/{run_id}/taps", data=form, headers=FRAGMENT)
    assert 'id="reading">56.5<' in repeated.text
    assert "moved on" not in repeated.text


def test_a_second_device_is_told_that_the_run_has_moved_on(visitor: TestClient) -> None:
    run_id = begun(visitor)
    stale = form_of(visitor.get(f"/runs/{run_id}").text, "done")
    for row in range(3):
        tap(visitor, run_id, "done", f"t{row}", row)
    answer = visitor.post(f"/runs/{run_id}/taps", data=stale, headers=FRAGMENT)
    assert "The run had moved on meanwhile" in answer.text
    assert visitor.get(f"/runs/{run_id}?json").json()["done"] == 3


def test_looking_again_costs_nothing_until_something_has_changed(visitor: TestClient) -> None:
    run_id = begun(visitor)
    mark = visitor.get(f"/runs/{run_id}", headers=FRAGMENT).headers["ETag"]
    again = visitor.get(f"/runs/{run_id}", headers=FRAGMENT | {"If-None-Match": mark})
    assert (again.status_code, again.content) == (304, b"")
    tap(visitor, run_id, "done", "t", 0)
    changed = visitor.get(f"/runs/{run_id}", headers=FRAGMENT | {"If-None-Match": mark})
    assert changed.status_code == 200
    assert changed.headers["ETag"] != mark


def test_every_page_mints_a_tap_of_its_own(visitor: TestClient) -> None:
    run_id = begun(visitor)
    names = {form_of(visitor.get(f"/runs/{run_id}").text, "done")["tap"] for _ in range(5)}
    assert len(names) == 5


@pytest.mark.parametrize(
    ("toml", "typed", "shown", "unit"),
    [
        (PLATE_HEAD, {"count": "60"}, "10", "holes on the 15 circle"),
        (PLATE_HEAD, {"count": "5"}, "0", "hole"),
        (BULL_WHEEL, {"count": "12"}, "5", "notches of the 60"),
        (ROUND_TABLE, {"count": "7"}, "206", "on the dial"),
    ],
)
def test_each_kind_of_way_shows_its_own_setting(
    visitor: TestClient, toml: str, typed: dict[str, str], shown: str, unit: str
) -> None:
    run_id = begun(visitor, toml, **typed)
    tap(visitor, run_id, "done", "t", 0)
    page = visitor.get(f"/runs/{run_id}").text
    assert f'id="reading">{shown}<' in page
    assert unit in page


def test_changing_the_head_never_changes_a_run(visitor: TestClient) -> None:
    run_id = begun(visitor)
    before = visitor.get(f"/runs/{run_id}?json").json()
    visitor.post("/heads/1/edit", data={"as": "file", "toml": BENCH_HEAD.replace("72", "40")})
    visitor.post("/heads/1/drop")
    assert visitor.get(f"/runs/{run_id}?json").json() == before


def test_the_workbench_leads_back_into_the_run(visitor: TestClient) -> None:
    run_id = begun(visitor)
    page = visitor.get("/").text
    assert f'href="/runs/{run_id}"' in page
    assert "0 of 128 done: 127 positions and the closing row" in page


def test_a_run_is_named_by_the_number_that_a_command_takes(visitor: TestClient) -> None:
    begun(visitor)
    second = begun(visitor)
    job_id = visitor.get(f"/runs/{second}?json").json()["job_id"]
    assert second == 2
    assert (
        f'<a href="/runs/{second}"><span class="title">Run {second}</span>'
        in visitor.get(f"/jobs/{job_id}").text
    )
    assert f"Run {second}: 127 positions and the closing row." in visitor.get(f"/runs/{second}").text


def test_a_job_name_with_markup_is_shown_as_text(visitor: TestClient) -> None:
    run_id = begun(visitor, name="<img src=x> \u202eabc 🌊")
    page = visitor.get(f"/runs/{run_id}").text
    assert "<img src=x" not in page
    assert "&lt;img src=x&gt;" in page


def test_a_tap_of_nonsense_keeps_nothing(visitor: TestClient) -> None:
    run_id = begun(visitor)
    for form in (
        {"kind": "done"},
        {"kind": "done", "tap": "x" * 500, "row": "0"},
        {"kind": "done", "tap": "x", "row": "1e3"},
    ):
        assert visitor.post(f"/runs/{run_id}/taps", data=form, headers=JSON).status_code == 422
    assert visitor.get(f"/runs/{run_id}?json").json()["done"] == 0
