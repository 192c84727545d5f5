"""What makes a page hard to use: wider than the screen, too faint, too small for a finger, or without a name."""

from typing import Any, Literal

from playwright.sync_api import Page

from tests.browser.conftest import DESK, PHONE

SCHEMES: tuple[Literal["light"], Literal["dark"]] = ("light", "dark")

# Contrast of every piece of text with what lies behind it. Source: WCAG 2.1, 1.4.3 (4.5, or 3 for large text).
CONTRAST = """() => {
  const linear = c => (c /= 255) <= 0.03928 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  const parts = text => text.match(/[\\d.]+/g).map(Number);
  const light = ([r, g, b]) => 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
  const behind = node => {
    for (let at = node; at; at = at.parentElement) {
      const colour = parts(getComputedStyle(at).backgroundColor);
      if (colour.length < 4 || colour[3] > 0.99) return colour;
    }
    return [255, 255, 255];
  };
  const faint = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const node = walker.currentNode.parentElement;
    if (!walker.currentNode.textContent.trim() || node.closest("svg, .unseen, .skip, script")) continue;
    if (!node.checkVisibility()) continue;
    const style = getComputedStyle(node);
    const [a, b] = [light(parts(style.color)), light(behind(node))].sort((x, y) => y - x);
    const size = parseFloat(style.fontSize);
    const large = size >= 24 || (size >= 18.66 && style.fontWeight >= 700);
    const ratio = (a + 0.05) / (b + 0.05);
    if (ratio < (large ? 3 : 4.5)) faint.push([node.textContent.trim().slice(0, 40), ratio.toFixed(2)]);
  }
  return faint;
}"""

# A new position takes no tap for a moment, and looks so; it is read when that has passed.
SETTLED = """() => !document.querySelector(".is-settling")
  && document.getAnimations().every(one => one.playState === "finished")"""

# Controls that a finger must hit. Source: WCAG 2.1, 2.5.5 (44 by 44); links in a line of text are excepted, and
# a box to tick is as large as its label, which ticks it too.
TOO_SMALL = """() => [...document.querySelectorAll(
    "button, .button, summary, select, input:not([type=hidden], [type=checkbox]), label.tick")]
  .filter(one => one.checkVisibility())
  .map(one => [one.textContent.trim().slice(0, 30), one.getBoundingClientRect()])
  .filter(([, box]) => box.height < 44 || box.width < 44)
  .map(([words, box]) => [words, box.width, box.height])"""

NAMELESS = """() => [...document.querySelectorAll("a, button, svg[role=img], progress")]
  .filter(one => one.checkVisibility() && !(one.getAttribute("aria-label") || one.textContent).trim())
  .map(one => one.outerHTML.slice(0, 80))"""


def misfits(page: Page) -> list[Any]:
    """Return what does not fit on the page as it is shown, or is too faint, too small or without a name.

    It waits until the style has come: what is clicked for can be there, and be read by a test, a moment before.
    """
    page.wait_for_load_state("load")
    page.wait_for_function(SETTLED)
    assert page.viewport_size is not None
    wide, screen = page.evaluate("document.documentElement.scrollWidth"), page.viewport_size["width"]
    found: list[Any] = [f"{wide} wide on a screen of {screen}"] if wide > screen else []
    return [*found, *page.evaluate(CONTRAST), *page.evaluate(TOO_SMALL), *page.evaluate(NAMELESS)]


def misfits_everywhere(page: Page) -> list[Any]:
    """Return its misfits on a phone and a desk, light and dark."""
    found: list[Any] = []
    for width, height in (PHONE.values(), DESK.values()):
        page.set_viewport_size({"width": width, "height": height})
        for scheme in SCHEMES:
            page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
            found += misfits(page)
    return found
