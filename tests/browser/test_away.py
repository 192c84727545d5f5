"""The run page out of the workshop's reach: it goes on, keeps what is tapped, and catches up."""

import json
from pathlib import Path
from typing import Any
from urllib.request import urlopen

import pytest
from playwright.sync_api import Page, expect

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
from tests.browser.serving import Server, served

pytestmark = pytest.mark.browser

TIDE_RING, FEET = 1, 6
OFF_LINE = "ERR_INTERNET_DISCONNECTED|ERR_CONNECTION_REFUSED|ERR_FAILED"
KEPT = "Kept on this phone, not yet with the workshop: "
FULL = """
IDBObjectStore.prototype.add = () => { throw new DOMException("full", "QuotaExceededError"); };
"""
NO_DATABASE = "Object.defineProperty(window, 'indexedDB', { value: undefined });"
NO_UUID = "crypto.randomUUID = () => { throw new Error('there is none on a plain http address'); };"
CLOCK = "const real = Date.now; window.jump = 0; Date.now = () => real() + window.jump;"
HEARD = """
window.heard = [];
window.speechSynthesis.speak = (words) => window.heard.push(words.text);
window.AudioContext = class {
  currentTime = 0;
  resume() {}
  createOscillator() {
    const frequency = { set value(pitch) { window.heard.push(pitch); } };
    return { frequency, connect: (to) => to, start() {}, stop() {} };
  }
  createGain() {
    return { gain: { setValueAtTime() {}, exponentialRampToValueAtTime() {} }, connect: (to) => to };
  }
};
"""


def told(address: str) -> Any:
    with urlopen(f"{address}.json?rows=no") as answer:
        return json.load(answer)


def steps(address: str) -> list[tuple[str, int | None]]:
    return [(entry["kind"], entry.get("row")) for entry in told(address)["journal"]]


def cut(page: Page) -> None:
    heard(page)
    page.context.set_offline(True)


def back_in_reach(page: Page) -> None:
    page.context.set_offline(False)
    expect(page.locator("#line")).to_be_hidden(timeout=10_000)


def test_the_run_goes_on_and_catches_up(server: Server, opened: Opened, size: dict[str, int]) -> None:
    page = opened(size, expected=OFF_LINE)
    address = begin_run(page, server, TIDE_RING)
    done(page)
    cut(page)
    for at, taps in (("2", "1 tap."), ("3", "2 taps."), ("4", "3 taps.")):
        done(page)
        assert position(page) == at
        expect(page.locator("#line")).to_have_text(KEPT + taps)
    assert steps(address)[-1] == ("done", 0), "the workshop has not heard of them"
    back_in_reach(page)
    assert position(page) == "4"
    assert steps(address) == [("began", None), *(("done", row) for row in range(4))]
    done(page)
    assert position(page) == "5"


def test_what_is_shown_away_is_what_the_workshop_shows(server: Server, opened: Opened) -> None:
    page, away = opened(), opened(expected=OFF_LINE)
    address = begin_run(page, server, TIDE_RING)
    away.goto(address)
    cut(away)
    for _ in range(3):
        done(page)
        done(away)
        for part in (
            ".which",
            ".turns",
            ".reading",
            ".between",
            ".facts",
            ".work",
            ".next",
            ".overshoot",
            ".rhythm",
        ):
            assert shown(page, part) == shown(away, part), part


def shown(page: Page, part: str) -> list[str]:
    return [" ".join(text.split()) for text in page.locator(part).all_inner_texts()]


def test_taps_kept_here_outlive_the_page(server: Server, opened: Opened) -> None:
    page = opened(expected=OFF_LINE)
    address = begin_run(page, server, TIDE_RING)
    cut(page)
    done(page)
    done(page)
    context = page.context
    page.close()
    context.set_offline(False)
    page = context.new_page()
    page.goto(address)
    expect(page.locator("#position")).to_have_text("2", timeout=10_000)
    assert steps(address) == [("began", None), ("done", 0), ("done", 1)]


def test_skips_notes_and_rests_are_kept_too(server: Server, opened: Opened) -> None:
    page = opened(expected=OFF_LINE)
    address = begin_run(page, server, FEET)
    cut(page)
    done(page)
    more(page, "Skip, come back")
    expect(page.locator("#position")).to_have_text("2")
    settled(page)
    page.locator(".more-menu > summary").click()
    page.get_by_label("what is wrong here").fill("<script>alert(1)</script> ناب 🦀")
    page.get_by_role("button", name="Bad, note").click()
    more(page, "Pause")
    press(page, "It agrees: go on")
    expect(page.locator("#position")).to_have_text("2")
    back_in_reach(page)
    assert steps(address) == [
        ("began", None),
        ("done", 0),
        ("skipped", 1),
        ("bad", 2),
        ("paused", None),
        ("resumed", None),
    ]
    assert told(address)["state"]["bad"] == {"2": "<script>alert(1)</script> ناب 🦀"}


def more(page: Page, name: str) -> None:
    settled(page)
    page.locator(".more-menu > summary").click()
    page.get_by_role("button", name=name).click()


def test_a_position_come_back_to_is_told_from_the_zero(server: Server, opened: Opened) -> None:
    page = opened(expected=OFF_LINE)
    begin_run(page, server, FEET)
    cut(page)
    more(page, "Skip, come back")
    expect(page.locator(".lead-up")).to_have_text("Counted from zero, wherever it stands:")
    done(page)
    assert "Counted from zero" not in page.locator(".lead-up").inner_text(), "the row before was done"


def test_two_devices_that_do_not_agree_are_shown_and_nothing_is_guessed(
    server: Server, opened: Opened
) -> None:
    phone, desk = opened(PHONE, expected=OFF_LINE), opened(DESK)
    address = begin_run(phone, server, TIDE_RING)
    done(phone)
    desk.goto(address)
    cut(phone)
    done(phone)
    done(phone)
    done(desk)
    press(desk, "Back: reopen")
    expect(desk.locator("#position")).to_have_text("1")
    phone.context.set_offline(False)
    alert = phone.locator("#conflicts")
    expect(alert).to_contain_text("Two devices do not agree", timeout=10_000)
    expect(alert).to_contain_text("Not taken: 2 taps of this phone.")
    expect(phone.locator("#position")).to_have_text("1")
    assert told(address)["state"]["at_row"] == 1
    phone.reload()
    expect(phone.locator("#conflicts")).to_contain_text("Not taken: 2 taps", timeout=10_000)
    phone.locator("#conflicts button").click()
    expect(phone.locator("#conflicts")).to_have_count(0)
    phone.reload()
    heard(phone)
    looked(phone)
    expect(phone.locator("#conflicts")).to_have_count(0)
    assert told(address)["state"]["at_row"] == 1


def test_both_devices_did_the_same_row_and_it_counts_once(server: Server, opened: Opened) -> None:
    phone, desk = opened(PHONE, expected=OFF_LINE), opened(DESK)
    address = begin_run(phone, server, TIDE_RING)
    desk.goto(address)
    cut(phone)
    done(phone)
    done(phone)
    done(desk)
    back_in_reach(phone)
    assert position(phone) == "2"
    assert steps(address) == [("began", None), ("done", 0), ("done", 1)]


def test_a_phone_with_no_room_left_says_that_the_tap_does_not_count(server: Server, opened: Opened) -> None:
    page = opened(expected=OFF_LINE)
    page.add_init_script(FULL)
    address = begin_run(page, server, TIDE_RING)
    done(page)
    cut(page)
    tap_done(page)
    expect(page.locator("#line")).to_contain_text("This tap is not kept: the phone has no room left for it.")
    assert position(page) == "1"
    page.context.set_offline(False)
    expect(page.locator("#line")).to_be_hidden(timeout=10_000)
    done(page)
    assert steps(address) == [("began", None), ("done", 0), ("done", 1)]


@pytest.mark.parametrize("script", [NO_DATABASE, NO_UUID], ids=["local storage", "no uuid"])
def test_on_the_shops_network_by_a_plain_address(server: Server, opened: Opened, script: str) -> None:
    page = opened(expected=OFF_LINE)
    page.add_init_script(script)
    address = begin_run(page, server, TIDE_RING, host="shed.test")
    assert page.evaluate("window.isSecureContext") is False
    cut(page)
    done(page)
    done(page)
    back_in_reach(page)
    own = f"{server.address}/runs/{address.rpartition('/')[2]}"
    assert steps(own) == [("began", None), ("done", 0), ("done", 1)]


def test_a_clock_that_jumps_skips_nothing(server: Server, opened: Opened) -> None:
    page = opened(expected=OFF_LINE)
    page.add_init_script(CLOCK)
    address = begin_run(page, server, TIDE_RING)
    cut(page)
    for jump in (0, -86_400_000, 86_400_000, -7_200_000):
        page.evaluate("jump => { window.jump = jump; }", jump)
        done(page)
    assert position(page) == "4"
    back_in_reach(page)
    assert steps(address) == [("began", None), *(("done", row) for row in range(4))]


def test_ten_thousand_taps_in_a_second_are_one(server: Server, opened: Opened) -> None:
    page = opened(expected=OFF_LINE)
    own_clock(page)
    address = begin_run(page, server, TIDE_RING)
    cut(page)
    stop_the_clock(page)
    page.evaluate("for (let n = 0; n < 10000; n += 1) document.getElementById('done')?.click()")
    expect(page.locator("#position")).to_have_text("1")
    page.clock.run_for(A_TOUCH_MS)
    settled(page)
    assert position(page) == "1"
    page.clock.resume()
    back_in_reach(page)
    assert steps(address) == [("began", None), ("done", 0)]


def test_the_server_killed_while_taps_are_handed_in(tmp_path: Path, opened: Opened) -> None:
    with served(tmp_path, "--demo") as server:
        page = opened(expected="ERR_")
        address = begin_run(page, server, TIDE_RING)
        cut(page)
        for _ in range(3):
            done(page)
        page.route("**/taps", lambda route: (route.fetch(), server.kill(), route.abort()))
        page.context.set_offline(False)
        while server.process.poll() is None:
            page.wait_for_timeout(100)
        expect(page.locator("#line")).to_contain_text(KEPT)
        page.unroute("**/taps")
        done(page)
        port = server.port
    with served(tmp_path, port=port):
        expect(page.locator("#line")).to_be_hidden(timeout=15_000)
        assert steps(address) == [("began", None), *(("done", row) for row in range(4))]


def switch_on(page: Page, *names: str) -> None:
    page.locator(".hands summary").click()
    for name in names:
        page.locator(f"[data-hands={name}]").check()
    page.locator(".hands summary").click()


def test_a_foot_switch_works_the_run_when_it_is_switched_on(server: Server, opened: Opened) -> None:
    page = opened()
    begin_run(page, server, TIDE_RING)
    page.locator("h1").click()
    settled(page)
    page.keyboard.press("PageDown")
    settled(page)
    assert position(page) == "0", "off until it is wanted"
    switch_on(page, "keys")
    for key, at in (("PageDown", "1"), ("Enter", "2"), (" ", "3"), ("PageUp", "2")):
        page.locator("h1").click()
        settled(page)
        page.keyboard.press(key)
        if page.locator("#done", has_text="So soon?").count():
            settled(page)
            page.keyboard.press(key)
        expect(page.locator("#position")).to_have_text(at)
    page.reload()
    assert page.locator("[data-hands=keys]").is_checked(), "kept in this browser"


def test_a_key_held_down_is_one_tap(server: Server, opened: Opened) -> None:
    page = opened()
    own_clock(page)
    begin_run(page, server, TIDE_RING)
    switch_on(page, "keys")
    stop_the_clock(page)
    for _ in range(5):
        page.keyboard.down("PageDown")
    page.keyboard.up("PageDown")
    expect(page.locator("#position")).to_have_text("1")
    page.clock.run_for(A_TOUCH_MS)
    settled(page)
    assert position(page) == "1"


def test_the_setting_is_spoken_and_a_tone_told(server: Server, opened: Opened) -> None:
    page = opened()
    page.add_init_script(HEARD)
    begin_run(page, server, TIDE_RING)
    done(page)
    assert page.evaluate("window.heard") == [], "all is off until it is wanted"
    switch_on(page, "speak", "confirm", "tone")
    page.evaluate("window.heard.length = 0")
    done(page)
    page.wait_for_function("window.heard.some(said => String(said).startsWith('Position '))")
    heard = page.evaluate("window.heard")
    assert 880 in heard
    assert "Done." in heard
    assert any(
        str(said).startswith("Position 2. Clockwise. 0 whole turns, then come up to 96.5") for said in heard
    )


def test_the_screen_is_kept_awake_where_there_is_no_wake_lock(server: Server, opened: Opened) -> None:
    page = opened()
    begin_run(page, server, TIDE_RING, host="shed.test")
    switch_on(page, "awake")
    page.locator(".hands summary").click()
    expect(page.locator(".hands p")).to_contain_text("This address has no wake lock")
    assert page.evaluate("document.querySelector('video').paused") is False
