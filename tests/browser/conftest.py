"""Chromium at the sizes of a phone and of a desk, and a server to look at."""

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from tests.browser.serving import Server, served
from tests.browser.shed import OPTIONS, prepared

FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--host-resolver-rules=MAP shed.test 127.0.0.1, MAP other.test 127.0.0.1",
)
PHONE = {"width": 360, "height": 740}
DESK = {"width": 1400, "height": 900}

Opened = Callable[..., Page]


@pytest.fixture(scope="session")
def browser(chromium: str) -> Iterator[Browser]:
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=chromium, args=list(FLAGS))
        yield running
        running.close()


@pytest.fixture(params=[PHONE, DESK], ids=["phone", "desk"])
def size(request: pytest.FixtureRequest) -> dict[str, int]:
    """Each size in turn."""
    chosen: dict[str, int] = request.param
    return chosen


@pytest.fixture
def opened(browser: Browser) -> Iterator[Opened]:
    """Open a page in a browser of its own; anything that it writes to its console fails the test.

    expected  a pattern for the messages that the test brings about on purpose
    """
    contexts = []
    written: list[str] = []

    def open_page(
        size: dict[str, int] = PHONE, expected: str = "", script: bool = True, scheme: str = "light"
    ) -> Page:
        context = browser.new_context(
            viewport={"width": size["width"], "height": size["height"]},
            java_script_enabled=script,
            color_scheme="dark" if scheme == "dark" else "light",
        )
        contexts.append(context)
        page = context.new_page()
        page.on(
            "console",
            lambda said: None if expected and re.search(expected, said.text) else written.append(said.text),
        )
        page.on("pageerror", lambda error: written.append(str(error)))
        return page

    yield open_page
    for context in contexts:
        context.close()
    assert written == []


@pytest.fixture(scope="session")
def demo_server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """A server of the demo workshop that no test changes."""
    with served(tmp_path_factory.mktemp("demo"), "--demo") as server:
        yield server


@pytest.fixture(scope="session")
def shed_server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """A server, with phones let in, of a workshop in every state; a test may look, and tap in the run `soon` only."""
    with served(tmp_path_factory.mktemp("shed"), *OPTIONS) as server:
        yield server


@pytest.fixture(scope="session")
def shed(shed_server: Server) -> dict[str, str]:
    """The paths of its jobs and runs, by name."""
    return prepared(shed_server)


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    """A server of the test's own, on the demo workshop."""
    with served(tmp_path, "--demo", "--allow-host", "shed.test") as running:
        yield running
