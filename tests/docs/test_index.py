"""The index of the docs names every page, and every link that names a heading finds it."""

import re
from pathlib import Path

import pytest

from tests.docs.test_worked_examples import PAGES
from tests.house.tracked import HOUSE

DOCS = HOUSE / "docs"
LINK = re.compile(r"\]\(([^)#]*)#?([^)]*)\)")


def links_of(page: Path) -> set[tuple[Path, str]]:
    """Return where a page of ours leads on this disk: each file, with the heading that is named or none."""
    found = LINK.findall(page.read_text(encoding="utf-8"))
    return {((page.parent / to).resolve() if to else page, at) for to, at in found if "://" not in to}


def headings(page: Path) -> set[str]:
    """Return the names by which a page's headings are linked to, as the usual renderers make them."""
    told = re.findall(r"^#+ (.+)$", page.read_text(encoding="utf-8"), re.MULTILINE)
    return {re.sub(r"[^\w -]", "", heading.lower()).replace(" ", "-") for heading in told}


@pytest.mark.parametrize("folder", ["", "trade", "schema"])
def test_the_index_names_every_page(folder: str) -> None:
    index = DOCS / "README.md"
    pages = {path for path in (DOCS / folder).glob("*.*") if path.suffix in (".md", ".json")} - {index}
    assert pages
    assert pages <= {path for path, _ in links_of(index)}


@pytest.mark.parametrize("page", [*PAGES, HOUSE / "CONTRIBUTING.md"], ids=lambda page: page.name)
def test_a_link_to_a_heading_finds_it(page: Path) -> None:
    missed = [
        f"{to.name}#{at}"
        for to, at in links_of(page)
        if not to.exists() or (at and to.suffix == ".md" and at not in headings(to))
    ]
    assert missed == []
