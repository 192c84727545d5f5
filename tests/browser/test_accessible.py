"""Every page, in every state that the gallery lists: it fits, it can be read, and axe-core finds no fault."""

import gzip
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page

from crankwise.web.routes import ROUTES
from tests.browser.conftest import DESK, PHONE, Opened
from tests.browser.every_page import NOT_PAGES, VIEWS
from tests.browser.looks import misfits_everywhere
from tests.browser.serving import Server
from tests.browser.views import EXPECTED, View, name_of, unfolded

pytestmark = pytest.mark.browser

AXE = gzip.decompress((Path(__file__).parent / "vendor/axe-core-4.14.1.min.js.gz").read_bytes()).decode()
FOUND = """async (options) => {
  const found = await axe.run(document, {resultTypes: ["violations"], ...options});
  return found.violations.map(one => [one.id, one.help, one.nodes.slice(0, 3).map(node => node.html.slice(0, 160))]);
}"""
COLOURS: dict[str, Any] = {"runOnly": ["color-contrast"]}


def faults(page: Page) -> list[Any]:
    """Return the faults that axe finds on a phone as it is, and unfolded on a phone and a desk, in both schemes."""
    page.set_viewport_size({"width": PHONE["width"], "height": PHONE["height"]})
    page.emulate_media(color_scheme="light", reduced_motion="reduce")
    page.evaluate(AXE)
    found = list(page.evaluate(FOUND, {}))
    unfolded(page)
    page.emulate_media(color_scheme="dark", reduced_motion="reduce")
    found += page.evaluate(FOUND, COLOURS)
    page.set_viewport_size({"width": DESK["width"], "height": DESK["height"]})
    found += page.evaluate(FOUND, COLOURS)
    page.emulate_media(color_scheme="light", reduced_motion="reduce")
    return [*found, *page.evaluate(FOUND, {})]


@pytest.mark.parametrize("view", VIEWS, ids=name_of)
def test_a_page_fits_and_can_be_read_by_everybody(
    shed_server: Server, shed: dict[str, str], opened: Opened, view: View
) -> None:
    page = opened(expected=EXPECTED)
    page.emulate_media(reduced_motion="reduce")
    view.open(page, shed_server.address, shed)
    assert misfits_everywhere(page) == []
    assert faults(page) == []


def test_axe_does_find_a_fault(shed_server: Server, opened: Opened) -> None:
    page = opened()
    page.goto(shed_server.address)
    page.evaluate("() => document.querySelector('main').append(document.createElement('button'))")
    page.evaluate(AXE)
    assert [one[0] for one in page.evaluate(FOUND, {})] == ["button-name"]


def test_every_route_is_looked_over_or_is_no_page() -> None:
    shown = {route.path for route in ROUTES if "GET" in (route.methods or ())}
    listed = Counter({view.route for view in VIEWS if view.route} | set(NOT_PAGES))
    assert shown - set(listed) == set(), (
        "not scanned: add a view to every_page.CHAPTERS, or say why in NOT_PAGES"
    )
    assert set(listed) - {route.path for route in ROUTES} == set(), "listed, and no route"
    assert {view.route for view in VIEWS} & set(NOT_PAGES) == set()
