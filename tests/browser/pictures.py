"""Take the pictures of the docs: `python -m tests.browser.pictures` writes docs/pictures again."""

import shutil
import sys
import tempfile
from pathlib import Path
from typing import NamedTuple

from playwright.sync_api import Browser, Page, sync_playwright

from tests.browser.conftest import DESK, FLAGS, PHONE
from tests.browser.doing import SETTLED_MS, begin_run, done
from tests.browser.runs import begun, checks, send
from tests.browser.serving import Server, served

FOLDER = Path(__file__).parents[2] / "docs/pictures"


class Picture(NamedTuple):
    """One picture: its name, what is opened, at which size, in which colours."""

    name: str
    path: str
    size: dict[str, int]
    scheme: str = "light"


PICTURES = (
    Picture("workbench-phone", "/", PHONE),
    Picture("heads-phone", "/heads", PHONE),
    Picture("head-desk", "/heads/2", DESK),
    Picture("describe-desk", "/heads/1/edit", DESK),
    Picture("new-job-phone", "/jobs/new", PHONE),
    Picture("ways-phone", "/jobs/1", PHONE),
    Picture("ways-desk", "/jobs/4", DESK),
    Picture("sheet-desk", "/jobs/1/sheet", DESK),
    Picture("run-stopped-phone-dark", "/runs/1", PHONE, "dark"),
    Picture("run-stopped-desk", "/runs/1", DESK),
    Picture("about-phone", "/about", PHONE),
)
RUN_PHONE, RUN_BEGIN = "run-page", "run-begin-phone"
TIDE_RING = 1


def take(browser: Browser, server: Server, folder: Path) -> list[Path]:
    """Take every picture into a folder, and return where they are."""
    taken = []
    for picture in PICTURES:
        page = _page(browser, picture.size, picture.scheme)
        page.goto(server.address + picture.path)
        page.wait_for_timeout(SETTLED_MS)
        taken.append(_shot(page, folder, picture.name))
    page = _page(browser, PHONE, "light")
    page.goto(f"{server.address}/jobs/{TIDE_RING}")
    page.get_by_role("button", name="Begin a run").click()
    page.wait_for_url("**/runs/*")
    taken.append(_shot(page, folder, RUN_BEGIN))
    begin_run(page, server, TIDE_RING)
    done(page)
    done(page)
    page.wait_for_timeout(800)
    taken.append(_shot(page, folder, RUN_PHONE))
    return taken + _at_the_machine(browser, server, folder)


def _at_the_machine(browser: Browser, server: Server, folder: Path) -> list[Path]:
    asked, off = checks(server)[3:5]
    check, fault, lost = (begun(server, row) for row in (asked["row"], off["row"], 88))
    a_turn_on = float(off["ring"].rstrip("°")) + 5
    reading = {"kind": "ring", "tap": "ring", "at": 1.76e9, "row": off["row"], "reading": f"{a_turn_on:.1f}"}
    send(server, fault, reading)
    slipped = f"scale0={off['reading']}&scale1={a_turn_on - 4.7:.2f}"
    send(
        server, lost, {"kind": "bad", "tap": "bad", "at": 1.76e9, "row": 41, "note": "faint at the inner end"}
    )
    taken = []
    for name, path, size, scheme in (
        ("run-check-phone", check, PHONE, "light"),
        ("run-fault-phone-dark", fault, PHONE, "dark"),
        ("run-fault-desk", fault, DESK, "light"),
        ("where-phone", f"{lost}/where?scale0=0.7&scale1=215", PHONE, "light"),
        ("where-desk", f"{fault}/where?{slipped}", DESK, "light"),
        ("journal-phone", f"{lost}/journal", PHONE, "light"),
    ):
        page = _page(browser, size, scheme)
        page.goto(server.address + path)
        page.wait_for_timeout(SETTLED_MS)
        taken.append(_shot(page, folder, name))
    page = _page(browser, PHONE, "light")
    page.goto(server.address + lost)
    page.wait_for_timeout(SETTLED_MS)
    page.locator(".more-menu summary").click()
    taken.append(_shot(page, folder, "run-more-phone"))
    return taken


def _page(browser: Browser, size: dict[str, int], scheme: str) -> Page:
    context = browser.new_context(
        viewport={"width": size["width"], "height": size["height"]},
        color_scheme="dark" if scheme == "dark" else "light",
    )
    return context.new_page()


def _shot(page: Page, folder: Path, name: str) -> Path:
    path = folder / f"{name}.png"
    page.screenshot(path=path)
    return path


def main() -> None:
    """Write the pictures of the docs."""
    chromium = shutil.which("chromium") or shutil.which("chromium-browser")
    if chromium is None:
        sys.exit("there is no Chromium; install it (on Debian and its kin: apt-get install chromium)")
    with (
        tempfile.TemporaryDirectory() as data,
        served(Path(data), "--demo") as server,
        sync_playwright() as playwright,
    ):
        browser = playwright.chromium.launch(executable_path=chromium, args=list(FLAGS))
        for path in take(browser, server, FOLDER):
            sys.stdout.write(f"{path.name}: {path.stat().st_size:,} bytes\n")
        browser.close()


if __name__ == "__main__":
    main()
