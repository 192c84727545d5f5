"""The run page beyond Done and Back: checks, faults, slips, breaks, passes, as its own forms tap them."""

import re
from fractions import Fraction
from typing import Any

import pytest
from starlette.testclient import TestClient

from crankwise.exact.number import as_text
from tests.gear import BENCH_HEAD, PLATE_HEAD
from tests.web.asking import FRAGMENT, JSON, form_of, new_head, new_job, new_run, tap
from tests.web.test_run_json import carried, send, taps

FIRST_CHECK = 25


def tide_ring(visitor: TestClient, done: int, **typed: str) -> int:
    """Begin the run of 149 lines and do so many of them."""
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="149", work="line", **typed)
    run_id = new_run(visitor, job_id)
    if done:
        send(visitor, run_id, taps=taps(done), seen=1)
    return run_id


def page(visitor: TestClient, run_id: int, path: str = "") -> str:
    answer = visitor.get(f"/runs/{run_id}{path}")
    assert answer.status_code == 200
    return answer.text


def press(visitor: TestClient, run_id: int, kind: str, **typed: str) -> str:
    """Send the page's own form of one kind, with what is typed into it, and return the next page."""
    form = form_of(page(visitor, run_id), kind) | typed
    answer = visitor.post(f"/runs/{run_id}/taps", data=form)
    assert answer.status_code == 303, answer.text
    return page(visitor, run_id)


def state(visitor: TestClient, run_id: int) -> Any:
    return carried(visitor, run_id, "?rows=no")["state"]


def test_a_check_is_asked_before_the_work_and_then_the_work_is_done(visitor: TestClient) -> None:
    run_id = tide_ring(visitor, FIRST_CHECK)
    asked = page(visitor, run_id)
    assert "Read the ring before you work: it should show 60.40." in asked
    assert 'id="done"' not in asked
    answered = press(visitor, run_id, "ring")
    assert 'id="done"' in answered
    assert "Read the ring" not in answered
    assert state(visitor, run_id)["at_row"] == FIRST_CHECK


@pytest.mark.parametrize(
    ("reading", "fault"),
    [
        ("62.8", "The count is out by 1 position too many."),
        ("65.4", "The crank is out by 1 whole turn too many."),
        ("60.9", "The dial was read wrong by 1 numbered interval too many."),
    ],
)
def test_a_reading_that_disagrees_names_the_fault(visitor: TestClient, reading: str, fault: str) -> None:
    run_id = tide_ring(visitor, FIRST_CHECK)
    told = press(visitor, run_id, "ring", reading=reading)
    assert "Do not cut." in told
    assert fault in told
    assert 'id="done"' not in told
    mended = press(visitor, run_id, "ring")
    assert "Do not cut." not in mended
    assert 'id="done"' in mended


@pytest.mark.parametrize(
    ("reading", "fault"),
    [
        ("90.6", "The holes are miscounted by 1 hole too many."),
        ("99", "The sector arms span 1 hole too many."),
        ("88.8", "The holes are miscounted by 2 holes too few."),
    ],
)
def test_with_a_plate_what_is_counted_is_named_and_no_dial(
    visitor: TestClient, reading: str, fault: str
) -> None:
    """A hole of 15 is 0.6 degrees; fifteen moves with arms a hole too wide come to a turn of the crank."""
    toml = f'{PLATE_HEAD}[ring]\ngraduations = 360\nread_to = "1/2"\n'
    job_id = new_job(visitor, new_head(visitor, toml), count="60", work="line")
    visitor.post(f"/jobs/{job_id}/way", data={"way": "plain:circle=15:turns=0:holes=10"})
    run_id = new_run(visitor, job_id)
    send(visitor, run_id, taps=taps(15), seen=1)
    told = press(visitor, run_id, "ring", reading=reading)
    assert fault in told
    assert "dial was read" not in told


def test_a_misread_ring_is_read_again(visitor: TestClient) -> None:
    run_id = tide_ring(visitor, FIRST_CHECK)
    press(visitor, run_id, "ring", reading="70")
    again = press(visitor, run_id, "undone")
    assert "Read the ring before you work" in again


def test_what_no_ring_shows_is_refused(visitor: TestClient) -> None:
    run_id = tide_ring(visitor, FIRST_CHECK)
    form = form_of(page(visitor, run_id), "ring") | {"reading": "400"}
    answer = visitor.post(f"/runs/{run_id}/taps", data=form, headers=JSON)
    assert answer.status_code == 422
    assert answer.json()["error"]["message"] == "ring: 400; it shows from 0 to below 360"
    assert visitor.post(f"/runs/{run_id}/taps", data=form | {"reading": "x"}, headers=JSON).status_code == 422


def test_story_a_the_phone_rang_at_88(visitor: TestClient) -> None:
    """The dial shows 0.7 and the ring 215: he stands at 89 already."""
    run_id = tide_ring(visitor, 88)
    told = page(visitor, run_id, "/where?scale0=0.7&scale1=215")
    assert "You are at position 89." in told
    assert "If position 88 is done, tick it: the run then stands at 89." in told
    form = dict(
        re.findall(r'name="(row|tap|seen)" value="([^"]*)"', told.split('/where"')[1].partition("</form>")[0])
    )
    answer = visitor.post(f"/runs/{run_id}/where", data=form)
    assert answer.headers["Location"] == f"/runs/{run_id}"
    assert state(visitor, run_id)["at_row"] == 89
    visitor.post(f"/runs/{run_id}/where", data=form)
    assert state(visitor, run_id)["at_row"] == 89, "sent again, it changes nothing"


def test_story_b_the_crank_was_forced_with_the_lock_on(visitor: TestClient) -> None:
    """A slip of 0.31 degrees from 120 on, found at the check of 125: the dial agrees, the ring is 0.3 off."""
    run_id = tide_ring(visitor, 100)
    press(visitor, run_id, "ring")
    send(visitor, run_id, taps=taps(25, first=100), seen=102)
    row = carried(visitor, run_id)["rows"][125]
    dial, shows = row["reading"], as_text(Fraction(row["check_ring"]) + Fraction(31, 100))
    told = press(visitor, run_id, "ring", reading=shows)
    assert "Something has slipped, by 0.31 degrees" in told
    where = page(visitor, run_id, f"/where?scale0={dial}&scale1={shows}&near1=0.25")
    assert "The setting agrees with position 125 and the ring does not" in where
    assert "look at positions 100 to 124, 25 of them." in where
    slipped = form_of(where, "slipped")
    assert slipped["since"] == "100"
    answer = visitor.post(
        f"/runs/{run_id}/taps", data=slipped | {"degrees": "0.31", "side": "ahead", "joint": "spindle"}
    )
    assert answer.status_code == 303
    after = page(visitor, run_id)
    assert 'id="done"' in after
    now = state(visitor, run_id)
    assert now["suspect"] == list(range(100, 125))
    assert now["anchor"] == {"work": "31/36000", "ring_off": "31/36000"}
    # Six marks and a fifth less: a mark of this dial is 3 minutes of arc.
    set_to = carried(visitor, run_id)["row_in_hand"]["reading"]
    assert float(dial) - float(set_to) == pytest.approx(6.2, abs=0.3)
    journal = page(visitor, run_id, "/journal")
    assert "To be looked at" in journal
    good = form_of(journal, "good")
    assert visitor.post(f"/runs/{run_id}/taps", data=good).headers["Location"] == f"/runs/{run_id}/journal"
    assert state(visitor, run_id)["suspect"] == list(range(101, 125))


def test_story_f_the_power_went_at_177_of_251(visitor: TestClient) -> None:
    """On return the journal says where the machine was left, and the readings say whether it is still there."""
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="251", work="space")
    run_id = new_run(visitor, job_id)
    send(visitor, run_id, taps=[*taps(178), {"kind": "paused", "tap": "p", "at": 1.76e9}], seen=1)
    paused = page(visitor, run_id)
    assert "the machine was left at position 177." in paused
    assert "dial 77.5, ring 253.88" in paused
    assert "It is the one done last" not in page(visitor, run_id, "/where?scale0=77.5&scale1=253.9")
    press(visitor, run_id, "resumed")
    where = page(visitor, run_id, "/where?scale0=77.5&scale1=253.9")
    assert "You are at position 177." in where
    assert "It is the one done last, so nothing is lost" in where
    one_on = page(visitor, run_id, "/where?scale0=6&scale1=255.3")
    assert "This is the position in hand." in one_on


def test_story_g_the_second_pass_one_position_out(visitor: TestClient) -> None:
    run_id = tide_ring(visitor, 0)
    job_id = carried(visitor, run_id)["run"]
    answer = visitor.post(
        f"/jobs/{job_id}/runs",
        data={"cuts": "two", "rough_depth": "1mm", "finish_depth": "1.5mm"},
        headers=JSON,
    )
    second = answer.json()["id"]
    tap(visitor, second, "began", "b", answer="yes", sure="1")
    run = carried(visitor, second)
    assert run["row_count"] == 300
    assert run["usual"]["pass_text"] in (
        "Roughing, pass 1 of 2, 1.00 mm deep",
        "Finishing, pass 2 of 2, 1.50 mm deep",
    )
    send(visitor, second, taps=taps(150), seen=1)
    in_second = page(visitor, second)
    assert "Finishing, pass 2 of 2, 1.50 mm deep" in in_second
    row = (run["usual"] | run["rows"][153])["row"]
    send(visitor, second, taps=taps(row - 150, first=150), seen=151)
    one_out = run["usual"] | run["rows"][row + 1]
    where = page(visitor, second, f"/where?scale0={one_out['reading']}&scale1={one_out['ring'].rstrip('°')}")
    assert "You are at position 4." in where
    assert "Tick 1 as done" in where


def test_skip_and_come_back(visitor: TestClient) -> None:
    run_id = tide_ring(visitor, 3)
    press(visitor, run_id, "skipped")
    assert state(visitor, run_id)["skipped"] == [3]
    answers = [{"kind": "done", "tap": f"s{row}", "at": 1.0, "row": row} for row in range(4, 149)]
    send(visitor, run_id, taps=answers, seen=5)
    back = page(visitor, run_id)
    assert "Passed over earlier, and come back to now." in back
    assert '<b id="position">3</b>' in back
    assert carried(visitor, run_id, "?rows=no")["row_in_hand"]["row"] == 3


def test_overshot_says_how_to_come_back_and_stays(visitor: TestClient) -> None:
    run_id = tide_ring(visitor, 10)
    told = press(visitor, run_id, "overshot")
    assert "turn back half a turn or more, to take up the slack, and come up again clockwise" in told
    assert '<b id="position">10</b>' in told
    assert "turn back half a turn" not in press(visitor, run_id, "done")


def test_a_note_is_shown_as_it_was_written_and_can_be_taken_back(visitor: TestClient) -> None:
    run_id = tide_ring(visitor, 5)
    odd = "<script>alert(1)</script> \N{WRENCH} \u202eبعد\u202c"
    press(visitor, run_id, "bad", note=odd)
    journal = page(visitor, run_id, "/journal")
    assert "<script>alert" not in journal
    assert "&lt;script&gt;alert(1)&lt;/script&gt;" in journal
    assert state(visitor, run_id)["bad"] == {"5": odd}
    undo = form_of(journal, "undone")
    visitor.post(f"/runs/{run_id}/taps", data=undo)
    assert state(visitor, run_id)["bad"] == {}
    assert "Something written before was taken back." in page(visitor, run_id, "/journal")


def test_pause_and_go_on(visitor: TestClient) -> None:
    run_id = tide_ring(visitor, 5)
    paused = press(visitor, run_id, "paused")
    assert "Paused" in paused
    assert 'id="done"' not in paused
    assert 'id="done"' in press(visitor, run_id, "resumed")


def test_the_pace_is_told(visitor: TestClient) -> None:
    run_id = tide_ring(visitor, 0)
    slow = [{**one, "at": 1.75e9 + 60 * number} for number, one in enumerate(taps(30))]
    send(visitor, run_id, taps=slow, seen=1)
    assert "about 2 h left" in page(visitor, run_id)


def test_where_am_i_says_when_it_cannot_tell_and_when_none_agrees(visitor: TestClient) -> None:
    run_id = tide_ring(visitor, 88)
    assert "These readings do not decide it." in page(visitor, run_id, "/where?scale1=215&near1=10")
    wrong = visitor.get(f"/runs/{run_id}/where?scale0=abc&scale1=999")
    assert wrong.status_code == 422
    assert "2 things to mend" in wrong.text
    assert "ring: 999; it shows from 0 to below 360" in wrong.text
    assert 'value="abc"' in wrong.text
    answer = visitor.get(f"/runs/{run_id}/where?json&scale0=0.7&scale1=215").json()
    assert (answer["verdict"], answer["row"]) == ("here", 89)


def test_where_am_i_on_holes(visitor: TestClient) -> None:
    run_id = new_run(visitor, new_job(visitor, new_head(visitor, PLATE_HEAD), count="60", work="space"))
    send(visitor, run_id, taps=taps(7), seen=1)
    asked = page(visitor, run_id, "/where")
    assert "The hole shows" in asked
    assert "Counted: a whole number from 0 to" in asked


def test_start_over_leaves_the_old_run(visitor: TestClient) -> None:
    run_id = tide_ring(visitor, 5)
    fresh = visitor.post(f"/runs/{run_id}/again", headers=JSON).json()
    assert (fresh["began"], fresh["of"]) == (False, 150)
    assert state(visitor, run_id)["done"] == 5


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"order": "spread", "circuits": "1"}, "circuits: &#39;1&#39;; a whole number from 2 to 100"),
        ({"order": "lengths", "lengths": "10, 4"}, "lengths: 10, 4; each is a multiple of the next"),
        ({"order": "lengths"}, "this job does not tell lines apart"),
        (
            {"cuts": "two", "rough_depth": "2mm", "finish_depth": "1mm"},
            "finishing: its depth is counted from the rim",
        ),
        ({"order": "backwards"}, "order: &#39;backwards&#39;; an order is one of"),
    ],
)
def test_passes_that_make_no_sense_are_refused_with_the_form_filled(
    visitor: TestClient, typed: dict[str, str], sentence: str
) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="149", work="line")
    answer = visitor.post(f"/jobs/{job_id}/runs", data=typed)
    assert answer.status_code == 422
    assert sentence in answer.text
    assert visitor.get(f"/jobs/{job_id}?json").json()["run_ids"] == []


def test_long_lines_first_in_three_passes(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="150", work="line")
    answer = visitor.post(
        f"/jobs/{job_id}/runs", data={"order": "lengths", "lengths": "10, 5", "trace": "1"}, headers=JSON
    )
    run = carried(visitor, answer.json()["id"])
    told = [run["usual"] | row for row in run["rows"]]
    assert run["gates"] == [150, 166, 182, 303]
    assert told[0]["work"] == "A faint mark only."
    assert [row["position"] for row in told[151:154]] == ["0", "10", "20"]
    assert told[151]["pass_text"] == "Every 10th, pass 2 of 4"


def test_a_fragment_of_a_check_is_the_panel_alone(visitor: TestClient) -> None:
    run_id = tide_ring(visitor, FIRST_CHECK)
    form = form_of(page(visitor, run_id), "ring")
    answer = visitor.post(f"/runs/{run_id}/taps", data=form, headers=FRAGMENT)
    assert "<html" not in answer.text
    assert 'id="done"' in answer.text
    assert "moved on" not in answer.text


def test_a_ring_reading_on_a_head_without_a_ring_is_refused(visitor: TestClient) -> None:
    toml = 'name = "Plain head"\n[worm]\nwheel_teeth = 40\n[[plates]]\ncircles = [15, 21]'
    run_id = new_run(visitor, new_job(visitor, new_head(visitor, toml), count="60"), answer="")
    form = {"kind": "ring", "tap": "r", "row": "0", "reading": "5"}
    answer = visitor.post(f"/runs/{run_id}/taps", data=form, headers=JSON)
    assert answer.json()["error"]["message"] == "ring: the head of this run has no ring"
    assert 'id="done"' in page(visitor, run_id)


def test_a_ring_that_cannot_be_set_is_counted_from_what_it_shows_at_zero(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="149", work="line")
    run_id = new_run(visitor, job_id, answer=None)
    assert "The ring cannot be set to 0" in page(visitor, run_id)
    told = page(visitor, run_id, "?ring=12.5")
    assert "Every ring check counts from 12.5." in told
    doubted = visitor.post(f"/runs/{run_id}/taps", data=form_of(told, "began") | {"answer": "no"}).text
    begun = form_of(doubted, "began")
    assert begun["angle"] == "5/144"
    visitor.post(f"/runs/{run_id}/taps", data=begun | {"answer": "yes"})
    send(visitor, run_id, taps=taps(FIRST_CHECK), seen=1)
    asked = page(visitor, run_id)
    assert "it should show 72.90." in asked
    assert carried(visitor, run_id)["rows"][50]["ring"] == "133.30°"
    assert 'id="done"' in press(visitor, run_id, "ring", reading="72.9")
    assert "You are at position 89." in page(visitor, run_id, "/where?scale0=0.7&scale1=227.5")


def test_a_ring_at_zero_that_no_ring_shows_is_refused(visitor: TestClient) -> None:
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="149", work="line")
    run_id = new_run(visitor, job_id, answer=None)
    assert visitor.get(f"/runs/{run_id}?ring=400").status_code == 422
