"""Take the pictures of the docs and write their gallery: `python -m tests.browser.pictures [NAME ...]`.

Without a name every picture of `every_page` is taken again. A picture is kept in 256
colours, so that the whole gallery stays small.
"""

import shutil
import sys
import tempfile
from collections.abc import Collection, Iterator, Mapping
from io import BytesIO
from pathlib import Path

from PIL import Image
from playwright.sync_api import Browser, sync_playwright

from tests.browser.conftest import FLAGS
from tests.browser.every_page import CHAPTERS, VIEWS
from tests.browser.serving import Server, served
from tests.browser.shed import OPTIONS, prepared
from tests.browser.views import View

DOCS = Path(__file__).parents[2] / "docs"
FOLDER = DOCS / "pictures"
COLOURS = 256
BEGINNING = """# Every page

Each page of the app with what it is for, at the size of a phone or of a desk, light or dark, on the demo workshop.
The tests take these pictures and write this page: `python -m tests.browser.pictures`.
"""


def names() -> list[str]:
    """Return the names of the pictures that are taken."""
    return [view.picture for view in VIEWS if view.picture]


def take(
    browser: Browser, server: Server, things: Mapping[str, str], folder: Path, asked: Collection[str] = ()
) -> Iterator[Path]:
    """Take every picture, or those asked for, into a folder, and return where each is."""
    for view in VIEWS:
        if view.picture and (not asked or view.picture in asked):
            yield _taken(browser, server, things, view, folder)


def gallery() -> str:
    """Return the page of the docs that shows every page."""
    return "\n".join([BEGINNING, *(_chapter(*chapter) for chapter in CHAPTERS)])


def _chapter(title: str, told: str, views: tuple[View, ...]) -> str:
    shown = [view for view in views if view.picture]
    routes = ", ".join(dict.fromkeys(f"`{view.route}`" for view in shown if view.route))
    pictures = "\n".join(f"![{title}: {view.shows}](pictures/{view.picture}.png)" for view in shown)
    return f"## {title}\n\n{told}{f' {routes}' if routes else ''}\n\n{pictures}\n"


def _taken(browser: Browser, server: Server, things: Mapping[str, str], view: View, folder: Path) -> Path:
    context = browser.new_context(
        viewport={"width": view.size["width"], "height": view.size["height"]},
        color_scheme="dark" if view.scheme == "dark" else "light",
        reduced_motion="reduce",
    )
    try:
        page = context.new_page()
        view.open(page, server.address, things)
        path = folder / f"{view.picture}.png"
        with Image.open(BytesIO(page.screenshot())) as whole:
            few = whole.convert("RGB").quantize(COLOURS, Image.Quantize.FASTOCTREE, dither=Image.Dither.NONE)
            few.save(path, optimize=True)
    finally:
        context.close()
    return path


def main(asked: list[str]) -> None:
    """Write the pictures of the docs, all or those asked for, and the gallery."""
    unknown = sorted(set(asked) - set(names()))
    if unknown:
        sys.exit(f"{', '.join(unknown)}: not in the list of every_page")
    chromium = shutil.which("chromium") or shutil.which("chromium-browser")
    if chromium is None:
        sys.exit("there is no Chromium; install it (on Debian and its kin: apt-get install chromium)")
    with (
        tempfile.TemporaryDirectory() as data,
        served(Path(data), *OPTIONS) as server,
        sync_playwright() as playwright,
    ):
        browser = playwright.chromium.launch(executable_path=chromium, args=list(FLAGS))
        for path in take(browser, server, prepared(server), FOLDER, asked):
            sys.stdout.write(f"{path.name}: {path.stat().st_size:,} bytes\n")
        browser.close()
    (DOCS / "pages.md").write_text(gallery(), encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
