"""What holds for all tests: where Chromium is, how hard hypothesis tries, and an honest last word."""

import os
import shutil
import sys
from collections.abc import Iterable

import pytest
from hypothesis import settings

# CI repeats the same examples each time, so that a red run can be met again; a person gets new ones.
settings.register_profile("ci", derandomize=True, deadline=None, print_blob=True)
settings.register_profile("person", deadline=None)
settings.load_profile("ci" if os.environ.get("CI") else "person")

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
HOW_TO_GET_IT = "install Chromium (on Debian and its kin: apt-get install chromium) and run the tests again"

not_run = pytest.StashKey[int]()


@pytest.fixture(scope="session")
def chromium() -> str:
    """Return the path of the Chromium to drive; only tests marked `browser` may ask for it."""
    assert CHROMIUM is not None, "a test that drives Chromium lacks the mark: browser"
    return CHROMIUM


def pytest_collection_modifyitems(config: pytest.Config, items: Iterable[pytest.Item]) -> None:
    """Set the browser tests aside where there is no Chromium; in CI that is a failure."""
    browser_tests = [item for item in items if item.get_closest_marker("browser")]
    if not browser_tests or CHROMIUM is not None:
        return
    if os.environ.get("CI"):
        raise pytest.UsageError(f"{len(browser_tests)} browser tests cannot run: {HOW_TO_GET_IT}")
    config.stash[not_run] = len(browser_tests)
    for item in browser_tests:
        item.add_marker(pytest.mark.skip(reason="there is no Chromium"))


def pytest_unconfigure(config: pytest.Config) -> None:
    """Say at the very end, after the closing line, what did not run and how to make it run."""
    count = config.stash.get(not_run, 0)
    if count:
        sys.stderr.write(
            f"\nTHE BROWSER TESTS DID NOT RUN ({count} of them). To run them, {HOW_TO_GET_IT}.\n\n"
        )
