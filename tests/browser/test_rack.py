"""A rack made with nothing but a phone: its slide described, the rack asked, run, asked about, and carried away."""

from pathlib import Path
from urllib.request import urlopen

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import PHONE, Opened
from tests.browser.doing import done, position
from tests.browser.looks import misfits
from tests.browser.serving import Server
from tests.browser.test_parts import asks

pytestmark = pytest.mark.browser


def bare_ring(page: Page, server: Server) -> None:
    page.goto(f"{server.address}/heads/new")
    page.get_by_label("Name").fill("Ring")
    page.get_by_label("Graduations all round").fill("360")
    page.get_by_role("button", name="Keep this head").click()
    expect(page.get_by_role("link", name="New job on this head")).to_be_visible()


def slide(page: Page, server: Server) -> None:
    page.goto(f"{server.address}/heads/new")
    page.get_by_label("Name").fill("Mill table")
    page.get_by_label("Lead of its screw").fill("5mm")
    page.get_by_label("Marks all round").fill("100")
    page.get_by_role("button", name="Keep this head").click()
    expect(page.get_by_role("link", name="New rack on this slide")).to_be_visible()
    assert misfits(page) == []


def test_a_rack_is_asked_run_and_found_again_in_lengths(
    server: Server, opened: Opened, tmp_path: Path
) -> None:
    page = opened(PHONE)
    page.goto(server.address)
    page.get_by_role("button", name="Remove the demo").click()
    bare_ring(page, server)
    asks(page, server, "Rack")
    expect(page.get_by_text("You have described no slide yet")).to_be_visible()
    assert misfits(page) == []
    slide(page, server)
    page.get_by_role("link", name="New rack on this slide").click()
    page.get_by_label("Spaces").fill("40")
    page.get_by_label("Module", exact=True).fill("1")
    assert misfits(page) == []
    page.get_by_role("button", name="Show the cards and the ways").click()
    expect(page.get_by_role("heading", name="Rack, 40 spaces, module 1, 20°")).to_be_visible()
    assert misfits(page) == []

    page.get_by_role("button", name="Begin a run").click()
    page.wait_for_url("**/runs/*")
    address = page.url
    expect(page.get_by_text("Turn the handle clockwise")).to_be_visible()
    page.locator(".answers button.strong").click()
    expect(page.locator("#done")).to_be_visible()
    for _ in range(3):
        done(page)
    assert position(page) == "3"
    expect(page.get_by_text("9.425 mm", exact=True)).to_be_visible()
    assert misfits(page) == []

    # The dial shows what it should, but a turn of the screw was lost: 5 mm short of 9.425.
    page.goto(f"{address}/where")
    page.get_by_label("The dial shows").fill("88")
    page.get_by_label("From the first space it is").fill("4.4mm")
    page.get_by_role("button", name="Where am I?").click()
    expect(page.get_by_text("You are 1 whole turn of the screw short of position 3")).to_be_visible()
    assert misfits(page) == []

    with urlopen(f"{address}/pocket.html") as answer:
        card = tmp_path / "card.html"
        card.write_bytes(answer.read())
    away = opened(PHONE)
    away.context.set_offline(True)
    away.goto(card.as_uri())
    assert position(away) == "3"
    expect(away.get_by_text("9.425 mm", exact=True)).to_be_visible()
    done(away)
    expect(away.get_by_text("12.566 mm", exact=True)).to_be_visible()
