import pytest
from starlette.testclient import TestClient

from tests.gear import BENCH_HEAD, BULL_WHEEL, PLATE_HEAD
from tests.web.asking import JSON, new_head, new_job

GEARED = PLATE_HEAD + "[change_gears]\nteeth = [24, 24, 28, 32, 40, 44, 48, 56, 64, 72, 86, 100]\n"


def test_a_job_is_a_head_and_a_number(visitor: TestClient) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    answer = visitor.post("/jobs/new", data={"head": str(head_id), "count": "127", "work": "space"})
    assert answer.headers["Location"] == "/jobs/1"
    page = visitor.get("/jobs/1").text
    assert "127 spaces on" in page
    assert "Dial, nearest reading" in page
    assert "±44.6" in page
    assert "First because no way is exact; this one has the smallest worst error." in page


def test_the_errors_are_told_at_the_rim_in_both_units(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="127", rim="200mm", within="25um")
    page = visitor.get(f"/jobs/{job_id}").text
    assert "±21.6 µm (8.5 tenths of a thou)" in page
    assert "rim Ø 200 mm (7.874 in)" in page
    visitor.post("/preferences", data={"length": "inch", "angle": "decimal"})
    page = visitor.get(f"/jobs/{job_id}").text
    assert "±8.5 tenths of a thou (21.6 µm)" in page
    assert "rim Ø 7.874 in (200 mm)" in page


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"count": "0"}, "divisions: 0; a circle is divided into 1 part or more"),
        ({"count": "-3"}, "divisions: -3; a circle is divided into 1 part or more"),
        ({"count": "1.5"}, "divisions: 1.5 is not a whole number"),
        ({"count": "ten"}, "is not a whole number"),
        ({"count": "10000000"}, "at most 1,000,000"),
        ({"count": "9", "rim": "big"}, "is not a length"),
        ({"count": "9", "within": "3"}, "has no unit"),
        ({"count": "9", "within": "20um"}, "needs the rim&#39;s diameter too"),
        ({"angles": "0, 5, 5"}, "5 degrees is there twice"),
        ({"angles": "0, 5, 3"}, "angles must rise"),
        ({"count": "9", "work": "polish"}, "polish"),
        ({"count": "9", "first": "20"}, "first: position 20"),
        ({"count": "9", "head": "77"}, "head 77"),
    ],
)
def test_what_is_wrong_is_told_and_the_form_stays_filled(
    visitor: TestClient, typed: dict[str, str], sentence: str
) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    answer = visitor.post("/jobs/new", data={"head": str(head_id), "name": "My job", **typed})
    assert 400 <= answer.status_code < 500
    assert sentence in answer.text
    assert 'value="My job"' in answer.text
    assert visitor.get("/jobs?json").json() == {"jobs": []}


def test_no_way_within_the_tolerance_is_an_answer(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="127", within="5arcsec")
    page = visitor.get(f"/jobs/{job_id}")
    assert page.status_code == 200
    assert "no way within 5.0&#34;; the nearest is dial, nearest reading" in page.text


def test_another_way_is_chosen(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="127")
    keys = [way["key"] for way in visitor.get(f"/jobs/{job_id}?json").json()["ways"]]
    assert len(keys) > 1
    assert visitor.post(f"/jobs/{job_id}/way", data={"way": keys[1]}).status_code == 303
    assert visitor.get(f"/jobs/{job_id}?json").json()["way"]["key"] == keys[1]
    wrong = visitor.post(f"/jobs/{job_id}/way", data={"way": "by magic"}, headers=JSON)
    assert wrong.status_code == 404
    assert visitor.get(f"/jobs/{job_id}?json").json()["way"]["key"] == keys[1]


def test_the_working_is_shown(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, PLATE_HEAD), count="60")
    page = visitor.get(f"/jobs/{job_id}").text
    assert "turns of the crank for one move: 40 x 1 / 60 = about 0.6667 turns" in page


def test_a_head_with_hundreds_of_ways_is_a_small_page(visitor: TestClient) -> None:
    circles = ", ".join(map(str, range(15, 55)))
    head_id = new_head(visitor, f'name = "Many"\n[worm]\nwheel_teeth = 40\n[[plates]]\ncircles = [{circles}]')
    job_id = new_job(visitor, head_id, count="127", rim="200mm")
    page = visitor.get(f"/jobs/{job_id}")
    assert len(page.content) < 200_000
    assert "more ways, each further out" in page.text
    assert page.text.count('class="tag chosen"') == 1


def test_a_job_is_renamed_and_dropped(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BULL_WHEEL), count="12")
    assert visitor.post(f"/jobs/{job_id}/name", data={"name": "<b>Bezel</b>"}).status_code == 303
    assert "&lt;b&gt;Bezel&lt;/b&gt;" in visitor.get(f"/jobs/{job_id}").text
    assert visitor.post(f"/jobs/{job_id}/drop").headers["Location"] == "/"
    assert visitor.get(f"/jobs/{job_id}").status_code == 404


def test_a_job_outlives_its_head(visitor: TestClient) -> None:
    head_id = new_head(visitor, BULL_WHEEL)
    job_id = new_job(visitor, head_id, count="12")
    visitor.post(f"/heads/{head_id}/drop")
    page = visitor.get(f"/jobs/{job_id}")
    assert page.status_code == 200
    assert "Bull wheel" in page.text


def test_the_demo_is_marked_and_goes_in_one_tap(own_demo: TestClient) -> None:
    assert "marks the demo workshop" in own_demo.get("/").text
    assert own_demo.get("/").text.count('class="tag demo"') > 5
    assert own_demo.post("/demo/drop").headers["Location"] == "/"
    page = own_demo.get("/").text
    assert "demo" not in page
    assert "Describe your head" in page


def test_the_ways_that_nothing_beats_stand_first_and_say_what_they_cost(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, GEARED), count="127")
    page = visitor.get(f"/jobs/{job_id}").text
    first, _, folded = page.partition('<details class="more">')
    for method in ("Differential indexing", "Two circles of one plate", "Compound indexing"):
        assert method in first
    assert first.count("Differential indexing</h3>") == 1
    assert "Another way is as good in everything here" not in first
    assert "Another way is as good in everything here" in folded
    assert "<dt>crank turns</dt><dd>40</dd>" in first
    assert "<dt>mistakes to expect</dt><dd>0.06</dd>" in first
    assert "one figure looked up in 400 goes wrong" in page


def test_the_traps_of_a_number_are_told_above_its_ways(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, GEARED), count="57")
    page = visitor.get(f"/jobs/{job_id}").text
    assert page.index("A chart&#39;s row for 57 that names change gears") < page.index('<ol class="ways">')


def test_the_answer_for_programs_weighs_the_ways_too(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, GEARED), count="127")
    answer = visitor.get(f"/jobs/{job_id}?json").json()
    assert answer["ways"][0]["unbeaten"] is True
    assert answer["ways"][0]["work"]["crank_turns"] == "40"
    assert [warning["code"] for warning in answer["warnings"]] == ["missing-factor", "row-needs-gears"]
