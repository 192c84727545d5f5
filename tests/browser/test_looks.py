"""At both sizes, light and dark: nothing wider than the screen, nothing too faint or too small."""

import pytest

from tests.browser.conftest import Opened
from tests.browser.looks import misfits, misfits_everywhere
from tests.browser.serving import Server

pytestmark = pytest.mark.browser


def test_what_does_not_fit_is_found(demo_server: Server, opened: Opened) -> None:
    page = opened()
    page.goto(demo_server.address)
    assert misfits_everywhere(page) == []
    page.evaluate(
        """() => {
          const button = document.createElement("button");
          button.textContent = "faint, low and wide";
          button.style.cssText = "min-height: 9px; height: 9px; width: 1500px; color: #eee; background: #fff";
          document.querySelector("main").replaceChildren(button);
        }"""
    )
    assert len(misfits(page)) == len(("wide", "faint", "low"))
    sizes_and_schemes = 4
    assert len(misfits_everywhere(page)) == 3 * sizes_and_schemes


def test_a_printed_sheet_leaves_the_screens_controls_out(demo_server: Server, opened: Opened) -> None:
    page = opened()
    page.goto(f"{demo_server.address}/jobs/1/sheet")
    page.emulate_media(media="print")
    assert page.locator(".top").is_hidden()
    assert page.locator(".bottom").is_hidden()
    assert page.locator("td.wide").first.is_visible()


def test_the_keyboard_reaches_the_page_before_the_menu(demo_server: Server, opened: Opened) -> None:
    page = opened()
    page.goto(demo_server.address)
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "Skip to the page"
