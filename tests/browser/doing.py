"""What an operator does on the pages."""

from playwright.sync_api import Page, expect

from tests.browser.serving import Server

SETTLED_MS = 750
"""A little over the time for which the page takes no second touch."""

A_MOVE_MS = 2100
"""A little over the time within which the page asks whether the next tap was meant."""


def begin_run(page: Page, server: Server, job: int, host: str = "127.0.0.1") -> str:
    """Begin a run of a demo job as its page asks, and return the run's address."""
    page.goto(f"http://{host}:{server.port}/jobs/{job}")
    page.get_by_role("button", name="Begin a run").click()
    page.wait_for_url("**/runs/*")
    address = page.url
    page.locator(".answers button.strong").click()
    expect(page.locator("#done")).to_be_visible()
    return address


def settled(page: Page) -> None:
    """Wait until the page takes touches again, after it was painted."""
    expect(page.locator(".is-settling")).to_have_count(0)


def press(page: Page, button: str) -> None:
    """Press a button by what it says, once it is there and the page takes touches."""
    found = page.get_by_role("button", name=button)
    expect(found).to_be_visible()
    settled(page)
    found.click()


def done(page: Page) -> None:
    """Tap Done once, as after a cut, and wait until the page stands at another position."""
    before = page.locator("#position").inner_text()
    page.wait_for_timeout(SETTLED_MS)
    page.locator("#done").click()
    sure(page)
    page.wait_for_function(
        "before => document.querySelector('#position')?.textContent !== before", arg=before
    )


def sure(page: Page) -> None:
    """Tap once more where the page finds that the tap came sooner than any work is done."""
    if page.locator("#done", has_text="So soon?").count():
        page.wait_for_timeout(SETTLED_MS)
        page.locator("#done").click()


def position(page: Page) -> str:
    return page.locator("#position").inner_text()
