"""A workshop of its own for every test, and a visitor to it."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from crankwise.web import create_app

ADDRESS = "http://127.0.0.1:8127"


@pytest.fixture
def visitor(tmp_path: Path) -> Iterator[TestClient]:
    """A visitor to an empty workshop, who does not follow redirects."""
    with TestClient(create_app(tmp_path / "workshop.sqlite"), ADDRESS, follow_redirects=False) as client:
        yield client


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """A visitor to the demo workshop, which no test may change."""
    folder = tmp_path_factory.mktemp("demo")
    app = create_app(folder / "workshop.sqlite", demo=True)
    with TestClient(app, ADDRESS, follow_redirects=False) as client:
        yield client


@pytest.fixture
def own_demo(tmp_path: Path) -> Iterator[TestClient]:
    """A visitor to a demo workshop of the test's own."""
    app = create_app(tmp_path / "workshop.sqlite", demo=True)
    with TestClient(app, ADDRESS, follow_redirects=False) as client:
        yield client
