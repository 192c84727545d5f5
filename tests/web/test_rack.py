"""A rack on the web: its slide, its job, its run and where it stands, all told in lengths."""

from starlette.testclient import TestClient

from tests.gear import BENCH_HEAD, MILL_TABLE
from tests.web.asking import JSON, form_of, new_head, new_run, tap
from tests.web.test_parts import new_part


def rack(visitor: TestClient, teeth: str = "60") -> int:
    return new_part(visitor, "rack", new_head(visitor, MILL_TABLE), teeth=teeth, module="1")


def test_a_slide_is_described_by_the_form_of_a_head(visitor: TestClient) -> None:
    typed = {"as": "form", "name": "Mill table", "slide.lead": "1/10in", "dial.marks": "100"}
    kept = visitor.post("/heads/new", data=typed, headers=JSON)
    assert kept.status_code == 200, kept.text
    assert '[slide]\nlead = "2.54mm"' in kept.json()["toml"]
    again = visitor.get(f"/heads/{kept.json()['id']}/edit").text
    assert 'name="slide.lead" value="2.54mm"' in again
    wrong = visitor.post("/heads/new", data=typed | {"slide.lead": "a turn"})
    assert wrong.status_code == 422
    assert "Slide, “Lead of its screw”: &#39;a turn&#39; is not a length" in wrong.text
    both = visitor.post("/heads/new", data=typed | {"ring.graduations": "360"})
    assert both.status_code == 422
    assert "ring: this turns the work, and a slide moves it along" in both.text


def test_the_travel_of_a_slide_is_kept_and_a_rack_that_is_longer_is_told_of(visitor: TestClient) -> None:
    typed = {
        "as": "form",
        "name": "Mill table",
        "slide.lead": "5mm",
        "slide.travel": "6in",
        "dial.marks": "100",
    }
    head_id = visitor.post("/heads/new", data=typed, headers=JSON).json()["id"]
    assert 'name="slide.travel" value="152.4mm"' in visitor.get(f"/heads/{head_id}/edit").text
    long = new_part(visitor, "rack", head_id, teeth="60", module="1")
    told = visitor.get(f"/jobs/{long}?json").json()["warnings"]
    assert [one["code"] for one in told] == ["travel"]
    assert told[0]["text"].startswith("The slide travels 152.400 mm (6.0000 in), and from the first space")
    assert "cut 49 spaces, move the rack along" in visitor.get(f"/jobs/{long}").text
    short = new_part(visitor, "rack", head_id, teeth="49", module="1")
    assert visitor.get(f"/jobs/{short}?json").json()["warnings"] == []


def test_only_slides_are_offered_for_a_rack_and_none_for_round_work(visitor: TestClient) -> None:
    new_head(visitor, BENCH_HEAD)
    page = visitor.get("/jobs/new/rack").text
    assert "You have described no slide yet" in page
    new_head(visitor, MILL_TABLE)
    page = visitor.get("/jobs/new/rack").text
    assert "Mill table" in page
    assert "Bench head" not in page
    assert 'name="rim"' not in page
    for kind in ("", "/spur"):
        page = visitor.get(f"/jobs/new{kind}").text
        assert "Bench head" in page
        assert "Mill table" not in page


def test_a_rack_is_refused_on_a_head_that_turns_with_a_sentence(visitor: TestClient) -> None:
    head_id = new_head(visitor, BENCH_HEAD)
    answer = visitor.post("/jobs/new/rack", data={"head": str(head_id), "teeth": "60", "module": "1"})
    assert answer.status_code == 422
    assert "this is cut along a slide, and Bench head turns the work" in answer.text


def test_the_job_the_sheet_and_the_run_are_told_in_lengths(visitor: TestClient) -> None:
    job_id = rack(visitor)
    page = visitor.get(f"/jobs/{job_id}").text
    assert "±12.4 µm (4.9 tenths of a thou)" in page
    assert "turns of the screw" in page
    sheet = visitor.get(f"/jobs/{job_id}/sheet").text
    assert "185.354 mm (7.2974 in)" in sheet
    assert "arc" not in sheet
    run_id = new_run(visitor, job_id)
    tap(visitor, run_id, "done", "a", 0)
    run = visitor.get(f"/runs/{run_id}").text
    assert "<dd>3.142 mm</dd>" in run
    assert "63" in run
    told = visitor.get(f"/runs/{run_id}?json").json()["row"]
    assert (told["turns"], told["reading"], told["target_deg"]) == (0, "63", None)
    assert told["target_mm"].startswith("31415926535897932384626433")


def test_where_am_i_says_what_to_measure_for_the_turn(visitor: TestClient) -> None:
    run_id = new_run(visitor, rack(visitor))
    for row in range(3):
        tap(visitor, run_id, "done", f"t{row}", row)
    page = visitor.get(f"/runs/{run_id}/where?scale0=88.5").text
    assert "You are at position 3." in page
    assert "position 3 is 9.425 mm (0.3711 in)" in page
    assert "which turn of the screw" in page
    assert "crank" not in page


def test_where_am_i_takes_what_was_measured_and_names_the_turn_that_is_missing(visitor: TestClient) -> None:
    run_id = new_run(visitor, rack(visitor))
    for row in range(23):
        tap(visitor, run_id, "done", f"t{row}", row)
    page = visitor.get(f"/runs/{run_id}/where").text
    assert "From the first space it is" in page
    there = visitor.get(f"/runs/{run_id}/where?scale0=45&scale1=2.85in").text
    assert "You are at position 23." in there
    assert "which turn" not in there
    short = visitor.get(f"/runs/{run_id}/where?scale0=45&scale1=67.1mm").text
    assert "You are 1 whole turn of the screw short of position 23" in short
    assert "The screw is out by 1 whole turn too few." in short
    assert "5.000 mm (0.1969 in) behind" in short
    wrong = visitor.get(f"/runs/{run_id}/where?scale1=far")
    assert wrong.status_code == 422
    assert "measured: &#39;far&#39; is not a length" in wrong.text


def test_a_slide_is_neither_calibrated_nor_has_its_job_a_budget(visitor: TestClient) -> None:
    job_id = rack(visitor)
    page = visitor.get("/heads/1").text
    assert "New rack on this slide" in page
    assert "How far out it is" not in page
    planned = visitor.get("/heads/1/measure?reference=index")
    assert planned.status_code == 422
    assert "Mill table is a slide, which turns nothing" in planned.text
    told = visitor.get(f"/jobs/{job_id}/accuracy")
    assert told.status_code == 422
    assert "this job steps along a line" in told.text


def test_a_slip_along_the_slide_is_typed_in_millimetres(visitor: TestClient) -> None:
    run_id = new_run(visitor, rack(visitor))
    for row in range(3):
        tap(visitor, run_id, "done", f"t{row}", row)
    page = visitor.get(f"/runs/{run_id}/where").text
    assert "How far, in mm" in page
    assert "the work on the table" in page
    assert "spindle" not in page
    form = form_of(page, "slipped")
    sent = visitor.post(f"/runs/{run_id}/taps", data=form | {"mm": "0.3", "side": "ahead", "joint": "work"})
    assert sent.status_code == 303
    # 9.425 - 0.3 mm: 182.5 marks from the start, and the dial is read to a half.
    now = visitor.get(f"/runs/{run_id}?json").json()["row"]
    assert (now["turns"], now["reading"]) == (1, "82.5")
    journal = visitor.get(f"/runs/{run_id}/journal").text
    assert "the work stands 0.300 mm (0.0118 in) ahead" in journal


def test_the_pocket_card_of_a_rack_tells_lengths(visitor: TestClient) -> None:
    run_id = new_run(visitor, rack(visitor))
    card = visitor.get(f"/runs/{run_id}/pocket.html").text
    assert "Never wind a locked slide" in card
    assert " mm" in card
    assert "across the work and the table" in card
