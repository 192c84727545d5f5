"""The run in a real browser: power cuts, lost answers, trembling fingers, two devices."""

import json
from pathlib import Path
from urllib.parse import parse_qs

import pytest
from playwright.sync_api import Page, Route, expect

from tests.browser.conftest import DESK, PHONE, Opened
from tests.browser.doing import (
    A_TOUCH_MS,
    begin_run,
    done,
    heard,
    looked,
    own_clock,
    position,
    press,
    settled,
    stop_the_clock,
    tap_done,
)
from tests.browser.runs import begun, checks, send, told
from tests.browser.serving import Server, served

pytestmark = pytest.mark.browser

TIDE_RING, WHEEL_251, MOON_RING, FEET = 1, 2, 4, 6
REFUSED = "ERR_CONNECTION_REFUSED"


def test_a_power_cut_in_the_middle_loses_nothing_and_skips_nothing(tmp_path: Path, opened: Opened) -> None:
    with served(tmp_path, "--demo") as server:
        page = opened(expected="ERR_")
        address = begin_run(page, server, TIDE_RING)
        for _ in range(3):
            done(page)
        heard(page)
        server.kill()
        tap_done(page)
        expect(page.locator("#position")).to_have_text("4")
        expect(page.locator("#line")).to_have_text(
            "Kept on this phone, not yet with the workshop: 1 tap.", use_inner_text=True
        )
        port = server.port
    with served(tmp_path, port=port):
        expect(page.locator("#position")).to_have_text("4", timeout=15_000)
        expect(page.locator("#line")).to_be_hidden()
        other = opened(DESK)
        other.goto(address)
        assert position(other) == "4"
        done(page)
        assert position(page) == "5"


def test_an_answer_that_is_lost_is_asked_for_again_and_counts_once(server: Server, opened: Opened) -> None:
    page = opened(expected="ERR_FAILED")
    begin_run(page, server, TIDE_RING)
    taps: list[str] = []

    def lose_the_first_answer(route: Route) -> None:
        taps.append(name_of_tap(route.request.post_data or ""))
        if len(taps) == 1:
            route.fetch()
            route.abort()
        else:
            route.continue_()

    page.route("**/taps", lose_the_first_answer)
    heard(page)
    tap_done(page)
    expect(page.locator("#position")).to_have_text("1")
    expect(page.locator("#line")).to_be_hidden(timeout=10_000)
    assert len(taps) == 2
    assert taps[0] == taps[1]
    looked(page)
    assert position(page) == "1"


def name_of_tap(sent: str) -> str:
    """Return the name of the one tap in what was sent, as a form or as JSON."""
    if sent.startswith("{"):
        return str(json.loads(sent)["taps"][0]["tap"])
    return parse_qs(sent)["tap"][0]


def test_a_double_touch_is_one_tap(server: Server, opened: Opened, size: dict[str, int]) -> None:
    page = opened(size)
    own_clock(page)
    address = begin_run(page, server, TIDE_RING)
    stop_the_clock(page)
    page.locator("#done").dblclick()
    expect(page.locator("#position")).to_have_text("1")
    page.locator("#done").click()
    page.clock.run_for(A_TOUCH_MS)
    settled(page)
    assert position(page) == "1"
    assert told(server, address.removeprefix(server.address))["state"]["done"] == 1


def test_a_second_tap_sooner_than_any_work_is_done_is_asked_about(server: Server, opened: Opened) -> None:
    page = opened()
    own_clock(page)
    begin_run(page, server, TIDE_RING)
    stop_the_clock(page)
    page.locator("#done").click()
    expect(page.locator("#position")).to_have_text("1")
    page.clock.run_for(A_TOUCH_MS)
    page.locator("#done").click()
    expect(page.locator("#done")).to_contain_text("So soon?")
    page.locator("#done").click()
    expect(page.locator("#done")).to_contain_text("So soon?")
    assert position(page) == "1", "a third touch of a trembling finger is no answer"
    page.clock.run_for(A_TOUCH_MS)
    page.locator("#done").click()
    expect(page.locator("#position")).to_have_text("2")


def test_two_devices_on_one_run_show_the_same_position(server: Server, opened: Opened) -> None:
    phone, desk = opened(PHONE), opened(DESK)
    address = begin_run(phone, server, TIDE_RING)
    desk.goto(address)
    done(phone)
    expect(desk.locator("#position")).to_have_text("1", timeout=5000)
    done(desk)
    expect(phone.locator("#position")).to_have_text("2", timeout=5000)


def test_two_devices_that_tap_the_same_position_complete_it_once(server: Server, opened: Opened) -> None:
    phone, desk = opened(PHONE), opened(DESK)
    address = begin_run(phone, server, TIDE_RING)
    desk.goto(address)
    tap_done(phone)
    tap_done(desk)
    expect(phone.locator("#position")).to_have_text("1")
    expect(desk.locator("#position")).to_have_text("1")
    settled(phone)
    settled(desk)
    assert told(server, address.removeprefix(server.address))["state"]["done"] == 1


def test_back_reopens_the_position_before(server: Server, opened: Opened) -> None:
    page = opened()
    begin_run(page, server, TIDE_RING)
    done(page)
    done(page)
    press(page, "Back: reopen")
    expect(page.locator("#position")).to_have_text("1")


def test_nothing_moves_under_the_finger(server: Server, opened: Opened, size: dict[str, int]) -> None:
    page = opened(size)
    begin_run(page, server, FEET)
    places = set()
    while page.locator("#done").count():
        box = page.locator("#done").bounding_box()
        assert box is not None
        assert box["y"] + box["height"] <= size["height"], "Done is in sight without scrolling"
        places.add((round(box["x"]), round(box["y"]), round(box["width"]), round(box["height"])))
        at = position(page)
        tap_done(page)
        page.wait_for_function("at => document.querySelector('#position')?.textContent !== at", arg=at)
    assert len(places) == 1, places


A_WHOLE_POSITION = (
    ".turns",
    "#reading",
    ".picture",
    ".between",
    ".facts",
    ".work",
    ".next",
    ".overshoot",
    ".rhythm",
)


@pytest.mark.parametrize(
    ("job", "done", "parts"),
    [
        (TIDE_RING, 12, A_WHOLE_POSITION),
        (WHEEL_251, 30, A_WHOLE_POSITION),
        (MOON_RING, 9, [part for part in A_WHOLE_POSITION if part != ".picture"]),
    ],
    ids=["a numbered line", "a space", "holes of two plates"],
)
def test_the_whole_of_a_position_is_in_sight_on_a_phone(
    server: Server, opened: Opened, job: int, done: int, parts: list[str]
) -> None:
    page = opened(PHONE)
    page.goto(f"{server.address}{begun(server, done, job)}")
    expect(page.locator(".pace")).to_be_visible()
    buttons = page.locator(".buttons").bounding_box()
    assert buttons is not None
    for part in parts:
        box = page.locator(part).bounding_box()
        assert box is not None, part
        assert box["y"] >= 0, part
        assert box["y"] + box["height"] <= buttons["y"], part


def test_what_is_asked_at_a_position_is_in_sight_on_a_phone(server: Server, opened: Opened) -> None:
    asked = checks(server)[1]
    run = begun(server, asked["row"])
    page = opened(PHONE)
    page.goto(server.address + run)
    agrees, keeps = page.get_by_role("button", name="Yes,"), page.get_by_role("button", name="Keep")
    top = page.locator(".buttons").bounding_box()
    assert top is not None
    for button in (agrees, keeps):
        box = button.bounding_box()
        assert box is not None
        assert box["y"] + box["height"] <= top["y"]
    wrong = f"{float(asked['ring'].rstrip('°')) + 5:.1f}"
    send(server, run, {"kind": "ring", "tap": "off", "at": 1.76e9, "row": asked["row"], "reading": wrong})
    page.goto(server.address + run)
    for part in (".attend.bad .large", ".attend.bad strong >> nth=0", ".attend.bad .ask"):
        box = page.locator(part).bounding_box()
        assert box is not None, part
        assert box["y"] + box["height"] <= top["y"], part


def test_a_question_about_a_tap_moves_no_button(server: Server, opened: Opened, size: dict[str, int]) -> None:
    page = opened(size)
    own_clock(page)
    page.goto(server.address + begun(server, 12))
    stop_the_clock(page)
    before = page.locator("#done").bounding_box()
    page.locator("#done").click()
    expect(page.locator("#position")).to_have_text("13")
    page.clock.run_for(A_TOUCH_MS)
    page.locator("#done").click()
    expect(page.locator("#done")).to_contain_text("So soon?")
    assert page.locator("#done").bounding_box() == before
    assert page.evaluate("(done => done.scrollHeight <= done.clientHeight)(document.querySelector('#done'))")


def test_the_position_under_the_tool_is_drawn_on_the_part(server: Server, opened: Opened) -> None:
    page = opened(PHONE)
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(server.address + begun(server, 12))
    looked(page)
    assert not any("picture.svg" in url for url in asked), "no tap waits for a picture"
    page.locator(".more-menu > summary").click()
    page.locator(".on-part > summary").click()
    page.wait_for_function("() => document.querySelector('.on-part img').naturalWidth > 0")
    assert any("picture.svg?position=12" in url for url in asked)
    expect(page.get_by_alt_text("The part, with 12 under the tool")).to_be_visible()


def test_the_reading_is_large_enough_for_arms_length(
    server: Server, opened: Opened, size: dict[str, int]
) -> None:
    page = opened(size)
    begin_run(page, server, TIDE_RING)
    done(page)
    box = page.locator("#reading").bounding_box()
    assert box is not None
    assert box["height"] >= 90
    assert box["x"] >= 0
    assert box["x"] + box["width"] <= size["width"]


def test_the_run_is_worked_by_keyboard_alone(server: Server, opened: Opened) -> None:
    page = opened()
    begin_run(page, server, TIDE_RING)
    page.locator("#done").focus()
    for at in ("1", "2", "3"):
        settled(page)
        page.keyboard.press("Enter")
        if page.locator("#done", has_text="So soon?").count():
            settled(page)
            page.keyboard.press("Enter")
        expect(page.locator("#position")).to_have_text(at)
        assert page.evaluate("document.activeElement.id") == "done"


def test_a_position_is_read_aloud_when_it_comes(server: Server, opened: Opened) -> None:
    page = opened()
    begin_run(page, server, TIDE_RING)
    done(page)
    expect(page.locator("#said")).to_have_attribute("aria-live", "polite")
    said = page.locator("#said").inner_text()
    assert "Position 1. Clockwise. 0 whole turns, then come up to 48.5 on the dial." in said
    assert "Between 40 and 50: 8.5 past 40" in said


def test_on_the_shops_network_where_there_is_no_secure_context(server: Server, opened: Opened) -> None:
    page = opened(expected="421|Refused to apply style")
    begin_run(page, server, TIDE_RING, host="shed.test")
    assert page.evaluate("window.isSecureContext") is False
    done(page)
    assert position(page) == "1"
    page.goto(f"http://other.test:{server.port}/")
    expect(page.get_by_role("alert")).to_contain_text("this server is not known by that name")


def test_a_page_of_another_site_cannot_tap(server: Server, opened: Opened) -> None:
    page = opened(expected="403")
    page.goto(f"http://shed.test:{server.port}/about")
    status = send_across(page, f"http://127.0.0.1:{server.port}/demo/drop")
    assert status == "refused"
    page.goto(server.address)
    expect(page.get_by_text("marks the demo workshop")).to_be_visible()


def send_across(page: Page, address: str) -> str:
    """Send a form from a blank page of nobody's, which has the Origin "null", and say what came of it."""
    page.goto("about:blank")
    page.set_content(f'<form method="post" action="{address}"><button>x</button></form>')
    with page.expect_navigation():
        page.get_by_role("button").click()
    return "refused" if page.get_by_role("alert").count() else "let in"
