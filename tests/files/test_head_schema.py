"""The published schema of head files accepts what is read, and rejects what is refused, as far as a schema can."""

import json
import re
import tomllib
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given

from crankwise.errors import FaultsFound
from crankwise.files.head_toml import read_head, write_head
from crankwise.head.head import Head
from tests.files.test_head_toml import HEADS, SLIDES
from tests.house.tracked import HOUSE

SCHEMA = json.loads((HOUSE / "docs/schema/head-1.schema.json").read_text(encoding="utf-8"))
CHECKER = jsonschema.Draft202012Validator(SCHEMA)

BEYOND_A_SCHEMA = {
    "ratio-by-0",  # a text that divides
    "ratio-not-a-number",  # JSON has no such number
    # one key measured by another
    "vernier-that-does-not-fit",
    "bracket-fits-nothing",
    "bracket-upside-down",
    "idlers-that-turn-one-way",
}


def wrong_heads() -> list[Path]:
    """Return the wrong heads that are TOML at all."""
    heads = []
    for path in sorted((HOUSE / "tests/bad/cases").glob("*.toml")):
        try:
            read_head(path.read_bytes())
        except FaultsFound as told:
            if not re.search("as TOML|UTF-8", str(told)) and tomllib.loads(path.read_text(encoding="utf-8")):
                heads.append(path)
    return heads


def test_the_schema_is_one() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@given(head=HEADS | SLIDES)
def test_what_is_written_fits_the_schema(head: Head) -> None:
    CHECKER.validate(tomllib.loads(write_head(head)))


@pytest.mark.parametrize("path", sorted((HOUSE / "examples").glob("*.toml")), ids=lambda path: path.stem)
def test_the_examples_fit_the_schema(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    read_head(text)
    CHECKER.validate(tomllib.loads(text))


@pytest.mark.parametrize("path", wrong_heads(), ids=lambda path: path.stem)
def test_what_is_refused_does_not_fit_unless_no_schema_can_say_so(path: Path) -> None:
    assert CHECKER.is_valid(tomllib.loads(path.read_text(encoding="utf-8"))) == (path.stem in BEYOND_A_SCHEMA)


def test_there_are_wrong_heads() -> None:
    assert {path.stem for path in wrong_heads()} > BEYOND_A_SCHEMA
    assert len(wrong_heads()) > 15


def test_the_schema_knows_every_key_that_the_page_tells() -> None:
    def keys(schema: dict[str, Any], place: str = "") -> set[str]:
        found = set()
        for name, inner in schema.get("properties", {}).items():
            item = inner.get("items", inner)
            if "properties" in item:
                found |= keys(item, f"{place}{name}{'[]' if inner.get('type') == 'array' else ''}.")
            else:
                found.add(place + name)
        return found

    page = (HOUSE / "docs/head-file.md").read_text(encoding="utf-8")
    told = set(re.findall(r"`([\w.\[\]]+)`", page))
    assert {key for key in keys(SCHEMA) if not {key, key.split(".")[-1]} & told} == set()
