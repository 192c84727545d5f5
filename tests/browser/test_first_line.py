"""Going back to the first line or space in a browser: in reach, out of it, and on a pocket card."""

import json
import re
from fractions import Fraction
from pathlib import Path
from typing import Any
from urllib.parse import urlencode
from urllib.request import Request, urlopen

import pytest
from playwright.sync_api import Locator, Page, expect

from crankwise.errors import BadLength
from crankwise.exact.length import read_length
from crankwise.exact.number import as_text
from crankwise.files.journal_text import read_journal_text
from tests.browser.conftest import PHONE, Opened
from tests.browser.doing import done as work_done
from tests.browser.doing import press, settled
from tests.browser.runs import begun, send, told
from tests.browser.serving import Server
from tests.browser.test_away import HEARD, OFF_LINE, back_in_reach, cut, switch_on
from tests.browser.test_pocket import away, card_of, journal_of

pytestmark = pytest.mark.browser

MIDDLE = 75
FEET, FEET_ROWS = 6, 6
ASKS = "Does the tool fall into the first line?"
OFF = "The first line stands 0.4064 mm behind the tool. Do not cut."


CUT_OFF = """
() => [...document.querySelectorAll("select")].flatMap((select) => {
  const pen = document.createElement("canvas").getContext("2d");
  const { font, paddingLeft, paddingRight } = getComputedStyle(select);
  pen.font = font;
  const room = select.clientWidth - parseFloat(paddingLeft) - parseFloat(paddingRight);
  return [...select.options].map((option) => option.text).filter((text) => pen.measureText(text).width > room);
})
"""


def at_the_middle(page: Page, server: Server) -> str:
    """Open a run that stands in its middle, and return its path."""
    run = begun(server, MIDDLE)
    page.goto(server.address + run)
    settled(page)
    return run


def carried_by(page: Page) -> None:
    """Wait until the page holds the whole run, so that it can go on out of reach."""
    page.wait_for_function("async () => (await indexedDB.databases()).length > 0")


def large(page: Page, text: str) -> Locator:
    """Return what is asked or told in large letters; the same is said aloud beside the panel."""
    return page.locator("#panel .large", has_text=text)


def returns(server: Server, run: str) -> list[dict[str, Any]]:
    """Return what the journal has about the first line, without names and times."""
    entries = [entry for entry in told(server, run)["journal"] if entry["kind"] == "returned"]
    return [
        {key: value for key, value in entry.items() if key in ("row", "angle", "off_mm", "means")}
        for entry in entries
    ]


def off_by(page: Page, far: str, side: str) -> None:
    settled(page)
    page.locator(".off-by summary").click()
    page.locator("#first-far").fill(far)
    page.locator("#first-side").select_option(side)
    page.get_by_role("button", name="Keep", exact=True).click()


def figures(page: Page) -> list[str]:
    """Return what stands large: where to, the turns, and what to come up to."""
    return [
        " ".join(page.locator(part).inner_text().split()).replace(".", "")
        for part in (".which", ".turns", ".reading")
    ]


@pytest.mark.parametrize("done", [MIDDLE - 1, MIDDLE], ids=["come to", "opened there"])
def test_out_of_reach_the_move_back_and_the_move_on_are_those_of_the_workshop(
    server: Server, opened: Opened, done: int
) -> None:
    page, away = opened(PHONE), opened(PHONE, expected=OFF_LINE)
    for one in (page, away):
        one.goto(server.address + begun(server, done))
        carried_by(one)
    cut(away)
    for one in (page, away):
        if done < MIDDLE:
            one.get_by_role("button", name="Yes, ").click()
            work_done(one)
        settled(one)
    if done < MIDDLE:
        assert figures(away) == figures(page)
        assert figures(page)[0] == "first line 0 before 75"
    for one in (page, away):
        one.get_by_role("button", name="It falls in").click()
        expect(large(one, ASKS)).to_have_count(0)
    assert figures(away) == figures(page)
    assert figures(page)[0] == "position 75"


def test_one_tap_answers_where_the_tool_falls_in(
    server: Server, opened: Opened, size: dict[str, int]
) -> None:
    page = opened(size)
    run = at_the_middle(page, server)
    expect(large(page, ASKS)).to_be_visible()
    expect(page.locator("#done")).to_have_count(0)
    assert figures(page) == [
        "first line 0 before 75",
        "36 whole turns clockwise",
        "then come up to 0 on the dial",
    ]
    page.get_by_role("button", name="It falls in").click()
    expect(large(page, ASKS)).to_have_count(0)
    expect(page.locator("#done")).to_be_visible()
    assert returns(server, run) == [{"row": MIDDLE, "angle": "0", "means": "loupe"}]
    expect(page.get_by_text("Counted from the first line, where the tool was just brought.")).to_be_visible()
    expect(page.locator(".turns-value")).to_have_text("36")
    expect(page.locator("#reading")).to_have_text("24")


def test_with_full_hands_the_question_is_heard_and_then_the_setting_from_the_first_line(
    server: Server, opened: Opened
) -> None:
    page = opened(PHONE)
    page.add_init_script(HEARD)
    run = begun(server, MIDDLE - 1)
    page.goto(server.address + run)
    switch_on(page, "speak")
    page.get_by_role("button", name="Yes, ").click()
    work_done(page)
    asked = (
        "Before the next one go back to the first line, machine off. Clockwise. 36 whole turns, then come up to 0 on "
        "the dial. Does the tool fall"
    )
    page.wait_for_function("asked => window.heard.some(said => String(said).startsWith(asked))", arg=asked)
    press(page, "It falls in")
    told = "Position 75. Clockwise. 36 whole turns, then come up to 24 on the dial."
    page.wait_for_function("told => window.heard.at(-1).startsWith(told)", arg=told)


def test_what_it_asks_is_in_sight_on_a_phone(server: Server, opened: Opened) -> None:
    page = opened(PHONE)
    at_the_middle(page, server)
    buttons = page.locator(".buttons").bounding_box()
    assert buttons is not None
    for part in (".first-line .large", ".first-line .yes", ".first-line .not-now", ".off-by summary"):
        box = page.locator(part).bounding_box()
        assert box is not None, part
        assert box["y"] + box["height"] <= buttons["y"], part


def test_where_it_is_off_it_is_taken_in_and_the_run_goes_on(
    server: Server, opened: Opened, size: dict[str, int]
) -> None:
    page = opened(size)
    run = at_the_middle(page, server)
    off_by(page, "0.41", "ahead")
    expect(large(page, "The first line stands 0.410 mm (0.0161 in) ahead of the tool.")).to_be_visible()
    page.get_by_role("link", name="Take the slip in").click()
    expect(page.get_by_text("worked since it was last met: 0 to 74, 75 of them")).to_be_visible()
    expect(page.get_by_label("How far, in degrees")).not_to_have_value("")
    assert page.evaluate(CUT_OFF) == [], "what is chosen is read whole"
    page.get_by_role("button", name=f"Take it in as an offset from {MIDDLE} on").click()
    page.wait_for_url(f"**{run}")
    state = told(server, run)["state"]
    assert state["suspect"] == list(range(MIDDLE))
    assert Fraction(state["anchor"]["work"]) > 0
    expect(page.locator("#done")).to_be_visible()


def test_out_of_reach_it_is_put_off_asked_again_answered_and_handed_in(
    server: Server, opened: Opened
) -> None:
    page = opened(PHONE, expected=OFF_LINE)
    run = at_the_middle(page, server)
    carried_by(page)
    cut(page)
    page.get_by_role("button", name="Not now").click()
    expect(large(page, ASKS)).to_have_count(0)
    settled(page)
    page.locator(".more-menu > summary").click()
    page.get_by_role("button", name="Pause").click()
    expect(page.get_by_text("Put off earlier, and asked again now.")).to_be_visible()
    off_by(page, "a bit", "behind")
    expect(page.locator("#line")).to_contain_text("How far off is a number")
    page.locator("#first-far").fill("0.016 in")
    page.get_by_role("button", name="Keep", exact=True).click()
    expect(large(page, OFF)).to_be_visible()
    expect(page.get_by_text("worked since it was last met: 0 to 74, 75 of them")).to_be_visible()
    assert returns(server, run) == []
    back_in_reach(page)
    assert returns(server, run) == [
        {"row": MIDDLE},
        {"row": MIDDLE, "off_mm": "-0.4064", "means": "loupe"},
    ]
    expect(page.get_by_role("link", name="Take the slip in")).to_be_visible()


def test_typed_into_the_served_page_and_cut_off_it_is_kept_exactly(server: Server, opened: Opened) -> None:
    page = opened(PHONE, expected=OFF_LINE)
    run = at_the_middle(page, server)
    carried_by(page)
    cut(page)
    off_by(page, "0.016in", "behind")
    expect(large(page, OFF)).to_be_visible()
    page.get_by_role("button", name="I looked wrong: look again").click()
    page.get_by_role("button", name="It falls in").click()
    expect(page.locator("#done")).to_be_visible()
    assert figures(page) == ["position 75", "36 whole turns clockwise", "then come up to 24 on the dial"]
    back_in_reach(page)
    assert returns(server, run) == [
        {"row": MIDDLE, "off_mm": "-0.4064", "means": "loupe"},
        {"row": MIDDLE, "angle": "0", "means": "loupe"},
    ]


@pytest.mark.parametrize("where", ["in reach", "out of reach", "on a card"])
def test_one_tap_ends_the_closing_row_and_one_takes_it_back(
    server: Server, opened: Opened, tmp_path: Path, where: str
) -> None:
    run = begun(server, FEET_ROWS - 1, FEET)
    if where == "on a card":
        page = away(opened, card_of(server, run.rpartition("/")[2], tmp_path))
    else:
        page = opened(PHONE, expected=OFF_LINE)
        page.goto(server.address + run)
        carried_by(page)
    if where == "out of reach":
        cut(page)
    press(page, "Yes, ")
    for _ in range(2):
        press(page, "It falls in: done")
        press(page, "Back: reopen the last")
    press(page, "It falls in: done")
    expect(page.locator(".finished h2")).to_be_visible()
    kinds = ["returned", "done", "back", "undone"] * 2 + ["returned", "done"]
    if where == "on a card":
        assert [
            entry.kind for entry in read_journal_text(journal_of(page)).entries if entry.kind != "ring"
        ] == kinds
        return
    if where == "out of reach":
        back_in_reach(page)
    journal = [entry["kind"] for entry in told(server, run)["journal"]]
    assert [kind for kind in journal[FEET_ROWS:] if kind != "ring"] == kinds


def test_two_devices_that_found_it_differently_are_shown(server: Server, opened: Opened) -> None:
    page = opened(PHONE, expected=OFF_LINE)
    run = at_the_middle(page, server)
    carried_by(page)
    cut(page)
    page.get_by_role("button", name="It falls in").click()
    other = {"kind": "returned", "tap": "other", "at": 1.76e9, "row": MIDDLE, "off_mm": "0.3"}
    send(server, run, other)
    page.context.set_offline(False)
    expect(page.get_by_role("alert")).to_contain_text("The tool met the first line on one side and not")
    assert returns(server, run) == [{"row": MIDDLE, "off_mm": "0.3"}]


def test_a_card_asks_for_it_too_and_its_journal_comes_home(
    server: Server, opened: Opened, tmp_path: Path
) -> None:
    run = begun(server, MIDDLE)
    run_id = run.rpartition("/")[2]
    page = away(opened, card_of(server, run_id, tmp_path))
    settled(page)
    expect(page.locator("#done")).to_have_count(0)
    press(page, "Not now")
    expect(large(page, ASKS)).to_have_count(0)
    settled(page)
    page.locator(".more-menu > summary").click()
    page.get_by_role("button", name="Pause").click()
    expect(page.get_by_text("Put off earlier, and asked again now.")).to_be_visible()
    off_by(page, "0.016 in", "behind")
    expect(large(page, OFF)).to_be_visible()
    press(page, "Mended: it falls in")
    expect(large(page, "Do not cut")).to_have_count(0)
    text = journal_of(page)
    assert text.startswith("cw2~")
    assert [entry.off_mm for entry in read_journal_text(text).entries][2] == Fraction(-508, 1250)
    posted = urlencode({"journal": text}).encode()
    with urlopen(Request(f"{server.address}{run}/bring", posted, {"Accept": "application/json"})) as answer:
        assert len(json.load(answer)["counted"]) == 4
    assert returns(server, run) == [
        {"row": MIDDLE},
        {"row": MIDDLE, "off_mm": "-0.4064", "means": "loupe"},
        {"row": MIDDLE, "angle": "0", "means": "loupe"},
    ]


TYPE = """
async ([typed, unit]) => {
  const { typedOff } = await import("/static/run_ring.js");
  return typed.map((text) => typedOff(text, "ahead", unit));
}
"""


def test_how_far_is_read_on_the_phone_as_in_the_workshop(demo_server: Server, opened: Opened) -> None:
    page = opened()
    page.goto(f"{demo_server.address}/about")
    good = [
        "0.41",
        " 0,41 ",
        "0.41mm",
        "0.016 in",
        "1/64in",
        "1 1/2 mm",
        '0.016"',
        "20um",
        "16 thou",
        "0",
        "100",
    ]
    bad = ["", "a bit", "0.4 ell", "-0.4", "1/0", "101", "1e2", "4in 3", "0.41 0.41", "<b>"]
    found = page.evaluate(TYPE, [[*good, *bad], "mm"])
    assert [one.get("off") for one in found[: len(good)]] == [
        as_text(read_length(text.replace(",", "."))) for text in good
    ]
    for text, one in zip(bad, found[len(good) :], strict=True):
        assert re.match("How far off is a number|More than 100 mm off", one["fault"]), text
    for text in ("a bit", "0.4 ell", "1/0", "0.41 0.41"):
        with pytest.raises(BadLength, match="is not a length"):
            read_length(text)
    degrees = page.evaluate(TYPE, [["0.36", "0.36 mm", "181"], "degrees"])
    assert degrees[0] == {"off": "0.001"}
    assert all("fault" in one for one in degrees[1:])
