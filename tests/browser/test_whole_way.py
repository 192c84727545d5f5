"""From the gear you own and a number of divisions to a finished run, as a person would, at both sizes."""

from fractions import Fraction

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Opened
from tests.browser.doing import done, position, settled
from tests.browser.serving import Server

pytestmark = pytest.mark.browser

PARTS = 7


def describe_a_head(page: Page) -> None:
    page.get_by_role("link", name="Add a head").click()
    page.get_by_label("Name").fill("My own head <b>")
    page.get_by_label("Teeth of the worm wheel").fill("40")
    page.get_by_label("Marks all round").fill("50")
    expect(page.locator("#drawing svg.dial")).to_have_attribute(
        "aria-label", "Dial of 50 marks, numbered every 10, its numbers running anticlockwise"
    )
    page.locator("[name='dial.read_to']").fill("1/5")
    page.get_by_role("button", name="Keep this head").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("My own head <b>")


def ask_for_a_job(page: Page) -> None:
    page.get_by_role("link", name="New job on this head").click()
    page.get_by_label("Number of parts").fill(str(PARTS))
    page.get_by_label("What is made there").select_option("line")
    page.get_by_role("button", name="Show the ways").click()
    expect(page.get_by_role("heading", name="Ways to do it")).to_be_visible()
    expect(page.locator(".way.is-chosen h3")).to_have_text("Dial, nearest reading")


def test_make_a_head_a_job_and_run_it_to_the_end(
    server: Server, opened: Opened, size: dict[str, int]
) -> None:
    page = opened(size)
    page.goto(f"{server.address}/heads")
    describe_a_head(page)
    ask_for_a_job(page)
    page.get_by_role("button", name="Begin a run").click()
    page.get_by_role("button", name="Yes, it grows").click()
    places = [round(Fraction(row * 40 * 250, PARTS)) for row in range(PARTS + 1)]
    for row, place in enumerate(places):
        expect(page.locator("#reading")).to_have_text(reading_text(place))
        assert position(page) == (str(row) if row < PARTS else f"0 = {PARTS}")
        if row:
            turns = (place - places[row - 1]) // 250
            assert page.locator(".turns-value").inner_text() == str(turns)
        if row == PARTS:
            expect(page.locator(".work")).to_contain_text("must fall in the first line")
            settled(page)
            page.get_by_role("button", name="It falls in: done").click()
        else:
            done(page)
    expect(page.get_by_role("heading", name=f"All {PARTS} lines are done")).to_be_visible()


def reading_text(place: int) -> str:
    """The reading of a dial read to a fifth of a mark, as a decimal."""
    return f"{place % 250 / 5:g}"


def test_without_script_every_form_still_works(server: Server, opened: Opened) -> None:
    page = opened(script=False)
    page.goto(f"{server.address}/heads/new")
    page.get_by_label("Name").fill("Wheel")
    page.get_by_label("Notches of each wheel").fill("12")
    page.locator("#head-form").get_by_role("button", name="Draw it").click()
    expect(page.locator("#drawing svg.wheel")).to_be_visible()
    page.get_by_role("button", name="Keep this head").click()
    page.get_by_role("link", name="New job on this head").click()
    page.get_by_label("Number of parts").fill("4")
    page.get_by_role("button", name="Show the ways").click()
    page.get_by_role("button", name="Begin a run").click()
    page.get_by_role("button", name="Marked: begin").click()
    for row in range(5):
        expect(page.locator("#position")).to_have_text(str(row) if row < 4 else "0 = 4")
        page.get_by_role("button", name="Done" if row < 4 else "It falls in: done").click()
    expect(page.get_by_role("heading", name="All 4 spaces are done")).to_be_visible()


def test_a_wrong_form_is_told_and_stays_filled(server: Server, opened: Opened) -> None:
    page = opened(expected="422")
    page.goto(f"{server.address}/jobs/new")
    page.get_by_label("Number of parts").fill("1.5")
    page.get_by_role("button", name="Show the ways").click()
    expect(page.get_by_role("alert")).to_contain_text("1.5 is not a whole number")
    expect(page.get_by_label("Number of parts")).to_have_value("1.5")


def test_the_demo_goes_in_one_click(server: Server, opened: Opened) -> None:
    page = opened()
    page.goto(server.address)
    page.get_by_role("button", name="Remove the demo").click()
    expect(page.get_by_role("link", name="Describe your head")).to_be_visible()
    expect(page.locator(".tag.demo")).to_have_count(0)
