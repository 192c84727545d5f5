"""What an operator does on the pages. Nothing here waits for a time: it waits for what the page then shows."""

from datetime import UTC, datetime, timedelta

from playwright.sync_api import Page, expect

from tests.browser.serving import Server

A_TOUCH_MS = 750
"""A little over the time for which the page takes no second touch."""

A_MOVE_MS = 2100
"""A little over the time from which the page asks no more whether a tap was meant."""

STARTED = datetime(2026, 5, 4, 9, tzinfo=UTC)


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
    """Wait until the page takes touches again, after it was painted or has asked whether a tap was meant."""
    expect(page.locator(".is-settling, .is-waiting")).to_have_count(0)


def heard(page: Page) -> None:
    """Wait until the run page has heard all of the run that it shows, so that it can go on out of reach."""
    page.wait_for_function(
        """() => {
          const shown = document.querySelector("#panel input[name=seen]")?.value;
          return document.querySelector("#panel").dataset.heard === shown;
        }"""
    )


def looked(page: Page) -> None:
    """Wait until the run page has looked once more at where the run stands."""
    with page.expect_response(lambda answer: answer.url == page.url and answer.request.method == "GET"):
        pass


def press(page: Page, button: str) -> None:
    """Press a button by what it says, once it is there and the page takes touches."""
    found = page.get_by_role("button", name=button)
    expect(found).to_be_visible()
    settled(page)
    found.click()


def done(page: Page) -> None:
    """Tap Done once, as after a cut, and wait until the page stands at another position."""
    before = page.locator("#position").inner_text()
    tap_done(page)
    page.wait_for_function(
        "before => document.querySelector('#position')?.textContent !== before", arg=before
    )


def tap_done(page: Page) -> None:
    """Tap Done, and once more where the page finds that the tap came sooner than any work is done."""
    expect(page.locator("#done")).to_be_visible()  # it may still be on its way, and settles when it has come
    settled(page)
    page.locator("#done").click()
    sure(page)


def sure(page: Page) -> None:
    """Tap once more where the page finds that the tap came sooner than any work is done."""
    if page.locator("#done", has_text="So soon?").count():
        settled(page)
        page.locator("#done").click()


def stop_the_clock(page: Page) -> None:
    """Let the page's own clock stand, where a test is about what it measures; `run_for` moves it on.

    The run page must be open; an hour goes by first, so that no tap comes too soon.
    """
    page.clock.pause_at(STARTED + timedelta(hours=1))


def own_clock(page: Page) -> None:
    """Give the page a clock of its own, before anything is opened in it."""
    page.clock.install(time=STARTED)


def position(page: Page) -> str:
    return page.locator("#position").inner_text()
