"""A view of the app: what is opened, at which size, and what is done there before it is looked at."""

import tempfile
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import NamedTuple

from playwright.sync_api import Page, expect

from tests.browser.conftest import PHONE
from tests.browser.doing import A_TOUCH_MS, heard, own_clock, settled, stop_the_clock
from tests.house.tracked import HOUSE


def nothing(page: Page) -> None:
    """Look at the page as it opens."""


class View(NamedTuple):
    """One view of a page.

    route    as in crankwise/web/routes.py
    path     what is opened; {names} stand for the things of `shed.prepared`
    picture  its name in docs/pictures; empty for a view that is looked over and not shown in the docs
    shows    what it shows, for whoever cannot see the picture
    size     PHONE or DESK
    scheme   light or dark
    act      what is done on it first
    """

    route: str
    path: str
    picture: str = ""
    shows: str = ""
    size: Mapping[str, int] = PHONE
    scheme: str = "light"
    act: Callable[[Page], None] = nothing

    def open(self, page: Page, address: str, things: Mapping[str, str]) -> None:
        """Open it in a page of its size, and do what it asks for."""
        where = address + self.path.format(**things)
        page.goto(_saved(page, where) if ".html" in self.path else where)
        settled(page)
        self.act(page)
        page.wait_for_load_state("load")  # what was asked for may be told before its style has come


EXPECTED = "404|422|ERR_INTERNET_DISCONNECTED|ERR_FAILED"
"""What a browser writes to its console of the pages and the states that a view asks for."""


def name_of(view: View) -> str:
    """Return the name of a view: its picture's, or what is opened."""
    return view.picture or view.path


class Chapter(NamedTuple):
    """What the gallery of the docs says of a page, and its views."""

    title: str
    told: str
    views: tuple[View, ...]


def _saved(page: Page, where: str) -> str:
    """Save a page that is handed out as a file, as a phone would, and return where it lies."""
    folder = Path(tempfile.mkdtemp(prefix="crankwise-view-"))
    path = folder / where.partition("?")[0].rpartition("/")[2]
    path.write_bytes(page.request.get(where).body())
    return path.as_uri()


def unfolded(page: Page) -> None:
    """Unfold everything that folds."""
    page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")


def wrong_gear(page: Page) -> None:
    """Ask for a gear that cannot be, and see what is wrong told at its field."""
    page.get_by_label("Teeth", exact=True).fill("3")
    page.get_by_label("Module", exact=True).fill("-1")
    page.get_by_role("button", name="Show the cards").click()
    expect(page.get_by_role("alert")).to_be_visible()


def readings_brought(page: Page) -> None:
    """Bring readings, one of them mistaken by a minute of arc, and look at what they tell."""
    text = (HOUSE / "examples/bench-readings.csv").read_text(encoding="utf-8")
    page.get_by_label("or paste its text").fill(text.replace("87.25,87.27231", "87.25,87.28898"))
    page.get_by_label("Measured on").fill("2026-04-01")
    page.get_by_role("button", name="Show what they tell").click()
    page.get_by_role("heading", name="What they tell").scroll_into_view_if_needed()
    expect(page.get_by_role("button", name="Keep this calibration")).to_be_visible()


def chords(page: Page) -> None:
    """Type the distances of seven holes, one of them set wrongly, and see what they say."""
    for name, distance in zip(
        ("0 to 1", *_ON), (26.03, 26.04, 26.03, 26.15, 25.92, 26.03, 26.03), strict=True
    ):
        page.get_by_label(name, exact=True).fill(str(distance))
    page.get_by_role("button", name="What do they say?").click()
    expect(page.get_by_role("button", name="Keep this measurement")).to_be_visible()


_ON = tuple(f"{hole} to {(hole + 1) % 7}" for hole in range(1, 7))


def a_chord_is_missing(page: Page) -> None:
    """Type one angle alone, and see that the others are asked for."""
    page.get_by_label("3", exact=True).fill("154.29")
    page.get_by_role("button", name="What do they say?").click()
    expect(page.get_by_role("alert")).to_be_visible()


def a_code_scanned(page: Page) -> None:
    """Open what the code on the page of phones leads to, as a phone's camera would."""
    link = page.request.get(f"{page.url}?json").json()["link"]
    page.goto(page.url.removesuffix("/phones") + link[link.index("/join") :])
    expect(page.get_by_role("button", name="Join with this phone")).to_be_visible()


def wrong_answer(page: Page) -> None:
    """Answer the direction test against the head's description."""
    page.get_by_role("button", name="No, it falls").click()
    expect(page.get_by_role("button", name="I am sure")).to_be_visible()


def more(page: Page) -> None:
    """Open what else can be done at a position."""
    page.locator(".more-menu > summary").click()


def on_part(page: Page) -> None:
    """Show where on the part the position in hand lies."""
    more(page)
    page.locator(".on-part > summary").click()
    page.wait_for_function("() => document.querySelector('.on-part img').naturalWidth > 0")
    page.locator(".on-part").scroll_into_view_if_needed()


def full_size(page: Page) -> None:
    """Unfold what a print at full size asks."""
    asks = page.locator("details", has_text="Print at full size").last
    asks.locator("summary").click()
    asks.evaluate("one => one.scrollIntoView({block: 'center'})")


def hands_free(page: Page) -> None:
    """Open the settings of hands-free work."""
    page.locator(".hands summary").click()


def too_soon(page: Page) -> None:
    """Tap Done twice, sooner than any work is done."""
    own_clock(page)
    stop_the_clock(page)
    before = page.locator("#position").inner_text()
    page.locator("#done").click()
    expect(page.locator("#position")).not_to_have_text(before)
    page.clock.run_for(A_TOUCH_MS)
    page.locator("#done").click()
    expect(page.locator("#done")).to_contain_text("So soon?")
    page.clock.run_for(A_TOUCH_MS)
    settled(page)
    page.clock.resume()  # or whatever looks the page over would wait for its timers for ever


def away(page: Page) -> None:
    """Cut the network once the run is known, and tap Done."""
    heard(page)
    page.context.set_offline(True)
    page.locator("#done").click()
    expect(page.locator("#line")).to_contain_text("Kept on this phone")
    settled(page)


def card_begun(page: Page) -> None:
    """Work the first position of a pocket card, away from any network."""
    page.context.set_offline(True)
    page.locator("#done").click()
    expect(page.locator("#kept")).to_contain_text("1 tap kept on this phone")
    settled(page)


def card_home(page: Page) -> None:
    """Show the journal that the card hands back."""
    card_begun(page)
    page.locator("#home summary").click()
    expect(page.locator("#journal-code svg")).to_be_visible()


def card_lost(page: Page) -> None:
    """Ask a pocket card where the machine stands: the ring is a whole turn of the crank ahead of the dial."""
    page.context.set_offline(True)
    page.locator("#where > summary").click()
    page.get_by_label("The dial shows").fill("52.5")
    page.get_by_label("The ring shows").fill("217.67")
    page.locator("#where").get_by_role("button", name="Where am I?").click()
    expect(page.locator(".where-says")).to_contain_text("The crank is out by 1 whole turn too many.")
