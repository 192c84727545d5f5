"""The page parsed by the standard library, as a browser would."""

from html.parser import HTMLParser

import pytest

from crankwise.sheets.html_page import html_bytes
from crankwise.sheets.sheet import sheet_of
from tests.sheets.plans import every_run, tide_ring

EMPTY = {"meta", "br"}


class Page(HTMLParser):
    """What a page holds: its tags in order, the rows of its table, its texts."""

    def __init__(self, content: bytes) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.tags: list[str] = []
        self.rows: list[list[str]] = []
        self.texts: dict[str, str] = {}
        self.feed(content.decode("utf-8"))
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        assert not any(name.startswith("on") for name, _ in attrs)
        if tag not in EMPTY:
            self.open.append(tag)
        if tag == "tr":
            self.rows.append([])
        if tag in ("td", "th"):
            self.rows[-1].append("")

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.texts[self.open[-1] if self.open else ""] = data
        if {"td", "th"} & set(self.open):
            self.rows[-1][-1] = f"{self.rows[-1][-1]} {data}".strip()


@pytest.mark.parametrize("kind", every_run())
def test_the_tables_hold_every_cell_of_every_line(kind: str) -> None:
    planned, passes = every_run()[kind]
    sheet = sheet_of(planned, kind, passes=passes)
    page = Page(html_bytes(sheet))
    assert page.open == []
    expected = []
    for one in sheet.lists:
        expected.append([*one.ticks, *(" ".join(filter(None, column.heading)) for column in sheet.columns)])
        boxes = [""] * len(one.ticks)
        if one.counts:
            expected.append([*boxes, "ticked on this page: count them in each pass"])
        expected += [
            [*boxes, *(f"{cell.text} {cell.small}".strip() for cell in line.cells)] for line in one.lines
        ]
    assert page.rows == expected


def test_the_page_tells_all_that_stands_at_the_head() -> None:
    sheet = sheet_of(tide_ring(), "Tide ring")
    text = html_bytes(sheet).decode("utf-8")
    page = Page(text.encode())
    assert page.texts["title"] == "Tide ring"
    assert page.tags.count("dd") == len(sheet.facts)
    assert page.tags.count("li") == len(sheet.cautions) + len(sheet.before)


def test_the_page_needs_nothing_else_and_runs_nothing() -> None:
    page = Page(html_bytes(sheet_of(tide_ring(), "Tide ring")))
    assert not {"script", "link", "img", "iframe", "object"} & set(page.tags)


@pytest.mark.parametrize(
    "name", ["<script>alert(1)</script>", "a\"b'c&amp;", "שלום 👍 \u202e evil", "\ud800"]
)
def test_a_name_is_text_and_nothing_else(name: str) -> None:
    page = Page(html_bytes(sheet_of(tide_ring(), name)))
    assert "script" not in page.tags
    assert page.texts["title"] == name.replace("\ud800", "?")
