"""Every page, and the run wherever it may stand, looked over by axe-core: no fault of accessibility."""

import gzip
from pathlib import Path
from typing import Any

import pytest

from tests.browser.conftest import Opened
from tests.browser.runs import begun, checks, send
from tests.browser.serving import Server

pytestmark = pytest.mark.browser

AXE = gzip.decompress((Path(__file__).parent / "vendor/axe-core-4.14.1.min.js.gz").read_bytes()).decode()
FOUND = """async () => {
  const found = await axe.run(document, {resultTypes: ["violations"]});
  return found.violations.map(one => [one.id, one.help, one.nodes.slice(0, 3).map(node => node.html.slice(0, 160))]);
}"""
PAGES = (
    "/",
    "/jobs/new",
    "/jobs/1",
    "/jobs/4",
    "/jobs/1/sheet",
    "/heads",
    "/heads/2",
    "/heads/1/edit",
    "/heads/import",
    "/about",
    "/runs/1",
    "/runs/1/where",
    "/runs/1/journal",
    "/nowhere",
)


def faults(opened: Opened, size: dict[str, int], address: str, unfold: str = "") -> list[Any]:
    page = opened(size, expected="404|422")
    page.emulate_media(reduced_motion="reduce")
    page.goto(address)
    for summary in page.locator(unfold).all() if unfold else ():
        summary.click()
    page.evaluate(AXE)
    found = list(page.evaluate(FOUND))
    page.emulate_media(color_scheme="dark", reduced_motion="reduce")
    return [*found, *page.evaluate(FOUND)]


@pytest.mark.parametrize("path", PAGES)
def test_a_page_has_no_fault_of_accessibility(
    demo_server: Server, opened: Opened, size: dict[str, int], path: str
) -> None:
    assert faults(opened, size, demo_server.address + path) == []


def test_axe_does_find_a_fault(demo_server: Server, opened: Opened) -> None:
    page = opened()
    page.goto(demo_server.address)
    page.evaluate("() => document.querySelector('main').append(document.createElement('button'))")
    page.evaluate(AXE)
    assert [one[0] for one in page.evaluate(FOUND)] == ["button-name"]


def test_the_run_has_none_wherever_it_stands(server: Server, opened: Opened, size: dict[str, int]) -> None:
    asked = checks(server)[0]["row"]
    check = begun(server, asked)
    off, overshot, paused = begun(server, asked), begun(server, 10), begun(server, 10)
    send(server, off, {"kind": "ring", "tap": "x", "at": 1.76e9, "row": asked, "reading": "120"})
    send(server, overshot, {"kind": "overshot", "tap": "x", "at": 1.76e9, "row": 10})
    send(server, paused, {"kind": "paused", "tap": "x", "at": 1.76e9})
    noted = begun(server, 10)
    send(server, noted, {"kind": "bad", "tap": "x", "at": 1.76e9, "row": 9, "note": "torn"})
    for run in (check, off, overshot, paused, begun(server, 150), begun(server, 5, cuts="two")):
        assert faults(opened, size, server.address + run) == [], run
    assert faults(opened, size, server.address + noted, ".more-menu summary") == []
    assert faults(opened, size, f"{server.address}{noted}/journal") == []
    assert faults(opened, size, f"{server.address}{noted}/where?scale0=0.7&scale1=215") == []
    assert faults(opened, size, f"{server.address}{noted}/where?scale0=0.7&scale1=33") == []
    assert faults(opened, size, f"{server.address}{noted}/where?scale0=x") == []
