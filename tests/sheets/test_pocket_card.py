"""A pocket card as a file: whole in itself, safe with any name, and small."""

import base64
import json
import re
from hashlib import sha256
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest

import crankwise
from crankwise.sheets.pocket_card import MODULES, STYLES, card_bytes

STATIC = Path(crankwise.__file__).parent / "web" / "static"
NAMES = [
    "Tide ring",
    "</script><script>alert(1)</script>",
    "<!-- <script>",
    "]]> &amp; \"quoted\" 'too' \\u003c",
    "\N{CRAB} \N{HEBREW LETTER ALEF}\N{RIGHT-TO-LEFT OVERRIDE}gnir",
    "half a letter \ud83e",
]
TOLD = {"rows": [{"row": 0, "reading": "0"}, {"row": 1, "mark": "</script> # 3"}], "row_in_hand": None}


class Reader(HTMLParser):
    """Every element of a page with its attributes, and what stands in it."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None], list[str]]] = []
        self.open: list[tuple[str, dict[str, str | None], list[str]]] = []
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        one = (tag, dict(attrs), [""])
        self.found.append(one)
        self.open.append(one)

    def handle_endtag(self, tag: str) -> None:
        while self.open and self.open.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        if self.open:
            self.open[-1][2][0] += data

    def texts(self, tag: str, **attributes: str) -> list[str]:
        return [
            text[0]
            for name, given, text in self.found
            if name == tag and attributes.items() <= {**given}.items()
        ]


def card(name: str = "Tide ring", **words: Any) -> str:
    return card_bytes({**TOLD, "job": name}, words, "http://shed.test:8127").decode("utf-8")


def test_it_needs_nothing_else() -> None:
    page = card()
    read = Reader(page)
    leading_out = [
        (tag, name, value)
        for tag, given, _ in read.found
        for name, value in given.items()
        if name in ("src", "href", "action", "srcset", "data", "poster", "background")
    ]

    assert leading_out == []
    assert {tag for tag, _, _ in read.found}.isdisjoint({"link", "iframe", "img", "object", "base", "form"})
    assert set(re.findall(r"https?://[^\s\"'`)]*", page)) == {"http://shed.test:8127"}, "the workshop's own"
    assert re.search(r"@import|url\(|\bimport\(|\bfetch\(|XMLHttpRequest|WebSocket|sendBeacon", page) is None
    assert re.search(r"^\s*(import|export) ", page, re.MULTILINE) is None, "no module is left to be fetched"


def test_its_policy_lets_its_own_script_and_style_run_and_nothing_else() -> None:
    read = Reader(card())
    ((_, meta, _),) = [one for one in read.found if one[1].get("http-equiv") == "Content-Security-Policy"]
    policy = dict(part.strip().split(" ", 1) for part in str(meta["content"]).split(";"))
    (style,) = read.texts("style")
    (script,) = [text[0] for tag, given, text in read.found if tag == "script" and "type" not in given]

    assert policy["default-src"] == "'none'"
    for kind, text in (("script-src", script), ("style-src", style)):
        digest = base64.b64encode(sha256(text.encode()).digest()).decode()
        assert policy[kind] == f"'sha256-{digest}'", "nothing but this very text"


@pytest.mark.parametrize("name", NAMES)
def test_a_name_stays_a_name(name: str) -> None:
    page = card(name, finished=name)
    read = Reader(page)
    kept = name.encode("utf-8", "replace").decode()
    (data,) = read.texts("script", id="card")
    told = json.loads(data)

    assert [tag for tag, _, _ in read.found].count("script") == 2
    assert read.texts("title") == [f"{kept} · pocket card"]
    assert read.texts("bdi") == [kept]
    assert (told["told"]["job"], told["words"]["finished"]) == (kept, kept)
    assert "alert(1)" not in page.replace(data, "").replace("&lt;script&gt;alert(1)", "")


def test_it_holds_the_pages_own_code_whole() -> None:
    page = card()

    for name in STYLES:
        assert (STATIC / f"{name}.css").read_text(encoding="utf-8") in page
    for name in MODULES:
        code = re.sub(
            r"^export |^import [^;]*;\n", "", (STATIC / f"{name}.js").read_text("utf-8"), flags=re.MULTILINE
        )
        code = re.sub(r"^/\*\*.*?\*/$", "", code, flags=re.MULTILINE | re.DOTALL)
        for line in map(str.lstrip, code.splitlines()):
            assert line.startswith(("//", "/**", "*")) or line in page, name


def test_a_module_comes_after_all_that_it_needs() -> None:
    for place, name in enumerate(MODULES):
        needed = re.findall(
            r'^import .* from "\./(\w+)\.js";', (STATIC / f"{name}.js").read_text("utf-8"), re.MULTILINE
        )
        assert set(needed) <= set(MODULES[:place]), name


def test_it_is_the_same_each_time() -> None:
    assert card() == card()
