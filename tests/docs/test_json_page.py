"""The page on JSON tells every key that an answer has, and no answer lacks one that it tells."""

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.cli.conftest import Typed, typed
from tests.house.tracked import HOUSE

__all__ = ["typed"]  # the fixture that runs a command

PARTS = [
    word
    for readings in ("wheel-pitches", "wheel-pitches-2", "wheel-pitches-3")
    for word in ("--part", "examples/jobs/wheel-127.toml", f"examples/{readings}.csv")
]
PAGE = (HOUSE / "docs/json.md").read_text(encoding="utf-8")
TOLD = set(re.findall(r"`\"?(\w+)\"?`", PAGE)) | set(re.findall(r"\"(\w+)\":", PAGE))


def keys(answer: object) -> Iterator[str]:
    if isinstance(answer, dict):
        for key, value in answer.items():
            yield key
            yield from keys(value)
    elif isinstance(answer, list):
        for item in answer:
            yield from keys(item)


@pytest.mark.parametrize(
    "words",
    [
        ["divide", "127", "--head", "examples/bench-head.toml", "--rim", "200mm", "--positions", "--working"],
        ["divide", "53", "--head", "examples/plate-head.toml", "--positions"],
        ["divide", "57", "--head", "examples/plate-head.toml"],
        ["divide", "12", "--head", "examples/bull-wheel.toml", "--positions"],
        ["chart", "--head", "examples/plate-head.toml", "--from", "2", "--to", "60"],
        ["head", "check", "examples/plate-head.toml"],
        ["divide", "127", "--head", "examples/measured-bench-head.toml", "--corrected"],
        ["measure", "plan", "--head", "examples/bench-head.toml", "--reverse"],
        ["measure", "plan", "--head", "examples/plate-head.toml", "--reference", "closure"],
        ["measure", "fit", "examples/bench-readings.csv", "--head", "examples/bench-head.toml"],
        ["measure", "fit", "examples/bench-closure.csv", "--head", "examples/bench-head.toml"],
        ["centre", "--pointers", "359.96:180.04,60:240,120.04:299.96,180.04:359.96", "--diameter", "120mm"],
        ["measure", "part", "examples/wheel-pitches.csv", "--job", "examples/jobs/wheel-127.toml"],
        ["measure", "parts", "--head", "examples/bench-head.toml", *PARTS],
        ["centre", "--readings", "0:0.00,90:0.03,180:0.05,270:0.02", "--diameter", "120mm"],
        ["graduate", "720", "--across", "50mm"],
        ["graduate", "--vernier", "12", "--main-part", "1deg", "--across", "120mm"],
        ["graduate", "--thread-dial", "16", "--lead", "4tpi", "--threads", "8tpi", "--across", "40mm"],
    ],
    ids=" ".join,
)
def test_every_key_of_an_answer_is_told(typed: Typed, words: list[str]) -> None:
    answer = json.loads(typed(*words, "--json").out)
    assert sorted(set(keys(answer)) - TOLD) == []


def test_every_key_of_a_picture_is_told(typed: Typed, tmp_path: Path) -> None:
    answer = json.loads(
        typed("picture", "examples/jobs/tide-ring.toml", "--out", str(tmp_path / "ring.svg"), "--json").out
    )
    section = PAGE.split("## picture\n")[1].partition("\n## ")[0]
    assert sorted(set(answer) - {"format"} - set(re.findall(r"`(\w+)`", section))) == []
