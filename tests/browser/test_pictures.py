"""The gallery of the docs: a picture of every page, each of which can be taken again."""

from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Browser

from crankwise.web.routes import ROUTES
from tests.browser.every_page import NOT_PAGES, VIEWS
from tests.browser.pictures import DOCS, FOLDER, gallery, names, take
from tests.browser.serving import Server

MOST_BYTES = 3_000_000


@pytest.mark.browser
def test_every_picture_of_the_docs_can_be_taken_again(
    browser: Browser, shed_server: Server, shed: dict[str, str], tmp_path: Path
) -> None:
    for path in take(browser, shed_server, shed, tmp_path):
        with Image.open(path) as taken, Image.open(FOLDER / path.name) as kept:
            assert taken.size == kept.size, path.name
            assert len(taken.convert("L").getcolors() or ()) > 8, f"{path.name} is blank"


def test_every_page_has_its_picture_in_the_docs() -> None:
    shown = {view.route for view in VIEWS if view.picture}
    pages = {route.path for route in ROUTES if "GET" in (route.methods or ())} - set(NOT_PAGES)
    assert pages - shown == set(), "no picture: name one in every_page.CHAPTERS"


def test_the_gallery_is_as_the_list_has_it() -> None:
    kept = (DOCS / "pages.md").read_text(encoding="utf-8")
    assert kept == gallery(), (
        "stale: python -m tests.browser.pictures NAME ..., with the pictures that are new"
    )


def test_the_pictures_are_named_once_and_all_there_and_small() -> None:
    assert len(set(names())) == len(names())
    assert [name for name in names() if not (FOLDER / f"{name}.png").exists()] == []
    assert sum(path.stat().st_size for path in FOLDER.iterdir()) < MOST_BYTES


def test_no_picture_is_left_that_no_page_of_the_docs_shows() -> None:
    pages = [*DOCS.rglob("*.md"), DOCS.parent / "README.md"]
    told = "".join(path.read_text(encoding="utf-8") for path in pages)
    assert [path.name for path in FOLDER.iterdir() if f"pictures/{path.name}" not in told] == []
