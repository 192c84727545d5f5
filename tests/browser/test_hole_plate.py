"""A hole plate made on a phone: asked once, one circle drilled, and the next gone on to from its last page."""

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import PHONE, Opened
from tests.browser.looks import SCHEMES, misfits
from tests.browser.runs import send, told
from tests.browser.serving import Server
from tests.browser.test_parts import asks, keep

pytestmark = pytest.mark.browser

DRILLED = "svg.part .cut.in-hand"


def plate(page: Page, server: Server) -> None:
    asks(page, server, "Holes on a circle")
    page.get_by_label("Diameter of the circle").fill("60mm")
    page.get_by_label("Diameter of the holes").fill("3mm")
    page.get_by_text("Further circles, blank").click()
    page.get_by_label("or a hole plate").fill("4, 6")
    page.get_by_label("Circles apart").fill("9mm")
    keep(page)


def finish(page: Page, server: Server) -> None:
    """Drill the circle of the job that is shown, all but with the hand."""
    page.get_by_role("button", name="Begin a run").click()
    page.wait_for_url("**/runs/*")
    run = page.url.removeprefix(server.address)
    rows = len(told(server, run)["rows"])
    taps = [{"kind": "done", "tap": f"row-{row}", "at": 1.75e9 + row, "row": row} for row in range(rows)]
    send(server, run, {"kind": "began", "tap": "began", "at": 1.75e9, "numbers_grow": True}, *taps)
    page.goto(f"{server.address}{run}")


@pytest.mark.parametrize("scheme", SCHEMES)
def test_a_plate_is_asked_once_and_one_circle_leads_to_the_next(
    server: Server, opened: Opened, scheme: str
) -> None:
    page = opened(PHONE)
    page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
    plate(page, server)
    expect(page.get_by_role("heading", level=1)).to_contain_text("Circle 1 (6 holes)")
    expect(page.get_by_role("heading", name="2 runs of one part")).to_be_visible()
    expect(page.locator(DRILLED)).to_have_count(1)
    assert misfits(page) == []

    finish(page, server)
    expect(page.get_by_text("Next: circle 2 (4 holes), of 2 runs.")).to_be_visible()
    expect(page.get_by_text("offset from the centre: 21.000 mm")).to_be_visible()
    assert misfits(page) == []
    page.get_by_role("button", name="Go on to circle 2").click()
    expect(page.get_by_text("Set up.")).to_be_visible()
    expect(page.get_by_text("offset from the centre: 21.000 mm")).to_be_visible()
    assert misfits(page) == []

    page.goto(server.address)
    expect(page.get_by_text("2 runs of one part, 1 done")).to_be_visible()
    page.locator("li", has_text="2 runs of one part, 1 done").get_by_role("link").click()
    page.wait_for_url(re.compile(r"/jobs/\d+$"))
    expect(page.locator("li.here")).to_contain_text("Circle 2 (4 holes)")
    expect(page.get_by_role("link", name="Circle 1 (6 holes)")).to_be_visible()
