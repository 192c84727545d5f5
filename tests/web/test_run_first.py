"""Going back to the first line or space, as the run page's own forms tap it."""

import html
import re
from fractions import Fraction
from typing import Any

import pytest
from starlette.testclient import TestClient

from tests.gear import BENCH_HEAD
from tests.web.asking import FRAGMENT, JSON, new_head, new_job, new_run
from tests.web.test_run_json import carried, send, taps

MIDDLE = 75
ASKS = "Does the tool fall into the first line?"


def tide_ring(visitor: TestClient, done: int = MIDDLE, rim: str = "150mm", **typed: str) -> int:
    """Begin the run of 149 lines and do so many of them."""
    job_id = new_job(visitor, new_head(visitor, BENCH_HEAD), count="149", work="line", rim=rim, **typed)
    run_id = new_run(visitor, job_id)
    send(visitor, run_id, taps=taps(done), seen=1)
    return run_id


def page(visitor: TestClient, run_id: int, path: str = "") -> str:
    answer = visitor.get(f"/runs/{run_id}{path}")
    assert answer.status_code == 200
    return answer.text


def press(visitor: TestClient, run_id: int, name: str, path: str = "", **typed: str) -> str:
    """Send the form whose tap ends with a name, with what is typed into it, and return the run's next page."""
    for form in re.findall(r"<form[^>]*/taps.*?</form>", page(visitor, run_id, path), re.DOTALL):
        fields = dict(re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', form))
        if fields["tap"].endswith(f"-{name}"):
            answer = visitor.post(f"/runs/{run_id}/taps", data=fields | typed)
            assert answer.status_code == 303, answer.text
            return page(visitor, run_id)
    raise AssertionError(f"no form is called {name}")


def state(visitor: TestClient, run_id: int) -> Any:
    return carried(visitor, run_id, "?rows=no")["state"]


def test_it_is_asked_at_its_row_and_one_tap_answers_it(visitor: TestClient) -> None:
    run_id = tide_ring(visitor)
    asked = page(visitor, run_id)
    assert ASKS in asked
    assert "Go round to the first line, machine off" in asked
    assert 'id="done"' not in asked
    assert state(visitor, run_id)["return_due"] is True
    answered = press(visitor, run_id, "met")
    assert ASKS not in answered
    assert "Read the ring" in answered, "the ring is read when the row is come up to again"
    assert state(visitor, run_id)["return_due"] is False
    assert "Before position 75: the tool met the first line, by loupe." in page(visitor, run_id, "/journal")
    (kept,) = [one for one in carried(visitor, run_id)["journal"] if one["kind"] == "returned"]
    assert {name: kept[name] for name in ("row", "angle", "means")} == {
        "row": MIDDLE,
        "angle": "0",
        "means": "loupe",
    }


def test_it_may_be_put_off_and_is_asked_again_in_the_next_break(visitor: TestClient) -> None:
    run_id = tide_ring(visitor)
    put_off = press(visitor, run_id, "not-now")
    assert ASKS not in put_off
    assert "Before position 75: going back to the first line was put off." in page(
        visitor, run_id, "/journal"
    )
    paused = press(visitor, run_id, "paused")
    assert ASKS in paused
    assert "Put off earlier, and asked again now." in paused
    assert "Not now" not in paused
    assert ASKS not in press(visitor, run_id, "met")


def test_what_is_put_off_at_the_last_row_is_asked_again_when_all_is_done(visitor: TestClient) -> None:
    run_id = tide_ring(visitor, 149)
    assert ASKS not in page(visitor, run_id), "the ring first"
    press(visitor, run_id, "agrees")
    press(visitor, run_id, "not-now")
    done = press(visitor, run_id, "done")
    assert "All 149 lines are done" in done
    assert ASKS in done
    assert ASKS not in press(visitor, run_id, "met")


def at_the_end(visitor: TestClient) -> int:
    run_id = tide_ring(visitor, 149)
    press(visitor, run_id, "agrees")
    return run_id


def test_on_the_closing_row_one_tap_ends_it_and_one_takes_it_back(visitor: TestClient) -> None:
    run_id = at_the_end(visitor)
    asked = page(visitor, run_id)
    assert "It falls in: done" in asked
    assert "All 149 lines are done" in press(visitor, run_id, "met")
    assert [one["kind"] for one in carried(visitor, run_id)["journal"]][-2:] == ["returned", "done"]
    reopened = press(visitor, run_id, "back")
    assert "It falls in: done" in reopened
    assert state(visitor, run_id)["return_due"] is True
    assert [one["kind"] for one in carried(visitor, run_id)["journal"]][-2:] == ["back", "undone"]
    assert "All 149 lines are done" in press(visitor, run_id, "met")


def test_what_ended_the_closing_row_and_is_sent_again_counts_once(visitor: TestClient) -> None:
    run_id = at_the_end(visitor)
    form = closing_form(page(visitor, run_id))
    for _ in range(3):
        answer = visitor.post(f"/runs/{run_id}/taps", data=form, headers=FRAGMENT)
        assert answer.status_code == 200
        assert "The run had moved on" not in answer.text
    assert state(visitor, run_id)["entries"] == 1 + 149 + 1 + 2


def test_where_another_device_was_first_the_closing_row_is_not_ended_unseen(visitor: TestClient) -> None:
    run_id = at_the_end(visitor)
    form = closing_form(page(visitor, run_id))
    send(
        visitor,
        run_id,
        taps=[{"kind": "returned", "tap": "other", "at": 1.76e9, "row": 149, "off_mm": "0.3"}],
    )
    visitor.post(f"/runs/{run_id}/taps", data=form)
    assert state(visitor, run_id)["finished"] is False


def test_a_late_tap_that_takes_the_closing_row_back_leaves_what_was_found_there(visitor: TestClient) -> None:
    run_id = at_the_end(visitor)
    press(visitor, run_id, "met")
    late = form_that_says_also(page(visitor, run_id), "undone")
    send(visitor, run_id, taps=[{"kind": "note", "tap": "other", "at": 1.76e9, "row": 149, "note": "oiled"}])
    answer = visitor.post(f"/runs/{run_id}/taps", data=late, headers=FRAGMENT)
    assert "The run had moved on" in answer.text
    assert [one["kind"] for one in carried(visitor, run_id)["journal"]][-3:] == ["returned", "done", "note"]


def closing_form(text: str) -> dict[str, str]:
    return form_that_says_also(text, "done")


def form_that_says_also(text: str, also: str) -> dict[str, str]:
    for form in re.findall(r"<form[^>]*/taps.*?</form>", text, re.DOTALL):
        fields = dict(re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', form))
        if fields.get("also") == also:
            return fields
    raise AssertionError(f"no form says {also} besides")


def test_mended_on_the_closing_row_ends_it_too(visitor: TestClient) -> None:
    run_id = at_the_end(visitor)
    assert "Mended: it falls in: done" in press(visitor, run_id, "off", mm="0.3", side="ahead", means="loupe")
    assert "All 149 lines are done" in press(visitor, run_id, "mended")


def test_where_it_is_off_the_slip_is_proposed_and_taken_in(visitor: TestClient) -> None:
    """0.41 mm at a radius of 75 mm is 0.3132 degrees."""
    run_id = tide_ring(visitor)
    press(visitor, run_id, "met")
    press(visitor, run_id, "agrees")
    send(visitor, run_id, taps=taps(74, first=MIDDLE), seen=state(visitor, run_id)["entries"])
    press(visitor, run_id, "agrees")
    off = press(visitor, run_id, "off", mm="0.41", side="behind", means="loupe")
    assert "The first line stands 0.410 mm (0.0161 in) behind the tool. Do not cut." in off
    assert 'id="done"' not in off
    assert "Something has slipped, by 0.31 degrees" in off
    assert "75 to 148, 74 of them" in off
    kept = page(visitor, run_id, "/journal")
    assert "Before position 149: the first line stood 0.410 mm (0.0161 in), 0.31 degrees" in kept
    where = page(visitor, run_id, "/where")
    assert 'value="0.3132"' in where
    assert "worked since it was last met: 75 to 148, 74 of them" in where
    before = visitor.get(f"/runs/{run_id}/where", headers=JSON).json()["told_before"]
    assert [line.split(":")[0] for line in before] == [
        "Before position 149",
        "Position 149",
        "Position 75",
        "Before position 75",
    ]
    told = visitor.get(f"/runs/{run_id}/where", headers=JSON).json()["first_missed"]
    assert float(Fraction(told["off"]) * 360) == pytest.approx(-0.3132, abs=0.0001)
    assert (told["since"], told["suspect"][0], told["suspect"][-1]) == (75, 75, 148)
    taken = press(visitor, run_id, "slipped", path="/where", degrees="0.3132", side="behind", joint="work")
    assert "is not met" not in taken
    assert state(visitor, run_id)["suspect"] == list(range(75, 149))
    assert state(visitor, run_id)["anchor"]["work"] == "-0.00087"


def test_mended_or_looked_at_wrongly_it_goes_on(visitor: TestClient) -> None:
    run_id = tide_ring(visitor)
    off = press(visitor, run_id, "off", mm="0.016in", side="ahead", means="loupe")
    assert "0.406 mm (0.0160 in)" in off
    assert ASKS in press(visitor, run_id, "misread")
    press(visitor, run_id, "off", mm="-0.3", side="ahead", means="loupe")
    assert "is not met" not in press(visitor, run_id, "mended")


def test_within_what_a_loupe_shows_it_is_met(visitor: TestClient) -> None:
    run_id = tide_ring(visitor)
    assert "is not met" not in press(visitor, run_id, "off", mm="0.02", side="ahead", means="loupe")


def test_without_a_rim_it_is_told_in_degrees(visitor: TestClient) -> None:
    run_id = tide_ring(visitor, rim="")
    assert "How far, in degrees" in page(visitor, run_id)
    off = press(visitor, run_id, "off", degrees="0.31", side="ahead", means="loupe")
    assert "The first line stands 0.31 degrees" in off


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"mm": ""}, "how far off: nothing is typed; type how far the first one is from the tool, as 0.41"),
        ({"mm": "a bit"}, "is not a length"),
        ({"degrees": "a bit"}, "how far off"),
        ({"mm": "100.5"}, "returned: 100.5 mm off; up to 100 mm either way is kept"),
        ({"degrees": "181"}, "returned: how far it is off is half a turn at most either way"),
    ],
)
def test_what_cannot_be_read_is_told_and_keeps_nothing(
    visitor: TestClient, typed: dict[str, str], sentence: str
) -> None:
    run_id = tide_ring(visitor)
    form = {"kind": "returned", "tap": "odd", "row": str(MIDDLE), "side": "ahead", **typed}
    answer = visitor.post(f"/runs/{run_id}/taps", data=form, headers=FRAGMENT)
    assert 400 <= answer.status_code < 500
    assert sentence in answer.text.replace("&#39;", "'")
    assert state(visitor, run_id)["return_due"] is True


@pytest.mark.parametrize(
    ("tap", "sentence"),
    [
        ({"means": "eye"}, "the first line is looked at with one of loupe, indicator"),
        ({"off_mm": "1", "angle": "0"}, "told as a length or as an angle, and not as both"),
        ({"off_mm": "near"}, "off_mm"),
    ],
)
def test_a_program_is_told_what_is_wrong_with_a_return(
    visitor: TestClient, tap: dict[str, str], sentence: str
) -> None:
    run_id = tide_ring(visitor)
    sent = {"kind": "returned", "tap": "odd", "at": 1.75e9, "row": MIDDLE, **tap}
    answer = visitor.post(f"/runs/{run_id}/taps", json={"taps": [sent]}, headers=JSON)
    assert 400 <= answer.status_code < 500
    assert sentence in answer.text


def test_what_a_phone_needs_to_ask_by_itself_is_told(visitor: TestClient) -> None:
    first = carried(visitor, tide_ring(visitor))["first"]
    assert first["rows"] == [75, 149]
    assert (first["what"], first["unit"], first["means"]) == ("line", "mm", "loupe")
    assert first["near_mm"] == {"loupe": "0.02", "indicator": "0.005"}
    assert float(Fraction(first["near_turns"]["loupe"]) * 360 * 60) == pytest.approx(0.917, abs=0.001)


def test_a_row_reopened_is_told_from_zero_since_the_machine_stands_there_already(visitor: TestClient) -> None:
    run_id = tide_ring(visitor, done=10)
    reopened = press(visitor, run_id, "back")
    told = "Reopened: the machine may stand there already, or further on. Go by the setting since zero, 4 turns + 35"
    assert told in reopened
    assert told in spoken(reopened)
    assert told not in press(visitor, run_id, "done")


def spoken(text: str) -> str:
    """Return the line of a page that is spoken."""
    found = re.search(r'id="say">(.*?)</p>', text, re.DOTALL)
    assert found
    return html.unescape(found[1])


def test_what_is_asked_is_spoken_and_then_the_setting(visitor: TestClient) -> None:
    run_id = tide_ring(visitor)
    assert spoken(page(visitor, run_id)) == (
        "Before the next one go back to the first line, machine off. Clockwise. 36 whole turns, then come up to 0 on "
        "the dial. Does the tool fall into the first line?"
    )
    off = press(visitor, run_id, "off", mm="0.41", side="ahead")
    assert spoken(off) == "The first line stands 0.410 mm (0.0161 in) ahead of the tool. Do not cut."
    met = press(visitor, run_id, "mended")
    assert spoken(met).startswith("Position 75. Clockwise. 36 whole turns, then come up to 24 on the dial.")
