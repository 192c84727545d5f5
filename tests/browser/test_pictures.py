from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Browser

from tests.browser.pictures import FOLDER, take
from tests.browser.serving import Server

pytestmark = pytest.mark.browser


def test_every_picture_of_the_docs_can_be_taken_again(
    browser: Browser, server: Server, tmp_path: Path
) -> None:
    for path in take(browser, server, tmp_path):
        with Image.open(path) as taken, Image.open(FOLDER / path.name) as kept:
            assert taken.size == kept.size, path.name
            assert len(taken.convert("L").getcolors() or ()) > 8, f"{path.name} is blank"
